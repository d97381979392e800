import { configDefaults, defineConfig } from "vitest/config";

/** Tests that hold wall-clock figures: by themselves, after all others, so that nothing of ours takes turns with them. */
const BUDGETS = "test/board/budgets.test.ts";

export default defineConfig({
  test: {
    reporters: ["default", "./test/closing-line.ts"],
    projects: [
      {
        extends: true,
        test: {
          name: "all",
          include: ["packages/*/test/**/*.test.ts", "test/**/*.test.ts"],
          exclude: [...configDefaults.exclude, BUDGETS],
          sequence: { groupOrder: 0 },
        },
      },
      {
        extends: true,
        test: { name: "budgets", include: [BUDGETS], sequence: { groupOrder: 1 } },
      },
    ],
    testTimeout: 60_000,
    // Files share a worker's modules: to load them anew for each takes a tenth of all the time.
    isolate: false,
    // Chromium and python judges share two cores with the workers.
    maxWorkers: 2,
  },
});
