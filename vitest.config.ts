import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["packages/*/test/**/*.test.ts", "test/**/*.test.ts"],
    reporters: ["default", "./test/closing-line.ts"],
    testTimeout: 60_000,
    // Chromium and python judges share two cores with the workers.
    maxWorkers: 2,
  },
});
