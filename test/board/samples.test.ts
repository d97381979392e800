import { readFileSync } from "node:fs";
import { type Made, makeJob, type Shown, VERSION } from "@dryfit/job";
import type { Motion } from "@dryfit/verify";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { programsOf } from "../../packages/drawing-board/src/cut/cut-program.ts";
import { tabsIn } from "../../packages/drawing-board/src/cut/tabs-in.ts";
import type { Wood } from "../../packages/drawing-board/src/cut/wood.ts";
import { inProgram } from "../../packages/drawing-board/src/cut/worst.ts";
import { boardUrl, builtPage, fresh, launch, proved, takenAway } from "./browser.ts";
import { cutToTheEnd, lastOn, provedIn, type Taken, takenOn, woodAt } from "./cut-region.ts";
import { differing, type Grid, hangingTogether } from "./mask.ts";

/** One page for all samples: each is opened on it in turn, as the command makes it here. */
let browser: Browser;
let page: Page;
beforeAll(async () => {
  await builtPage();
  browser = await launch();
  ({ page } = await fresh(browser));
  await page.goto(boardUrl);
}, 120_000);
afterAll(() => browser?.close());

/** Half a millimetre a pixel. */
function gridOver({ program: { corner, size } }: Wood): Grid {
  const pixel = 0.5;
  return {
    left: corner[0],
    low: corner[1],
    pixel,
    columns: Math.floor(size[0] / pixel),
    rows: Math.floor(size[1] / pixel),
  };
}

describe.each(["tidepool", "halyard", "skiff"])("%s", (name) => {
  const file = `samples/${name}.yaml`;
  const text = readFileSync(new URL(`../../${file}`, import.meta.url), "utf8");
  let made: Made;
  let shown: Shown;
  beforeAll(async () => {
    await page
      .locator("input[type=file]")
      .setInputFiles({ name: `${name}.yaml`, mimeType: "text/yaml", buffer: Buffer.from(text) });
    made = await makeJob({ design: { file, text }, machine: null, cutters: null, version: VERSION });
    shown = made.shown!;
  }, 240_000);

  test("is taken away from the board as dryfit make writes it, byte for byte", async () => {
    await page.waitForFunction(`document.querySelector(".name [data-path=name]").value === "${name}"`);
    await proved(page);
    const files = await takenAway(page);
    expect(Object.keys(files).sort()).toEqual(made.files.map(({ file }) => file).sort());
    // One by one: a whole folder is too much to read where it differs.
    for (const { file, text } of made.files)
      expect({ name, file, same: files[file] === text }).toEqual({ name, file, same: true });
  }, 120_000);

  test("has programs that leave the parts that the proof found, at every depth, to half a millimetre", () => {
    const programs = programsOf(shown, []);
    for (const sheet of shown.layout.sheets) {
      const file = lastOn(shown, sheet.id);
      const program = programs.find((each) => each.file === file)!;
      const proof = provedIn(shown, file);
      const wood = cutToTheEnd(program);
      const grid = gridOver(wood);
      const wrongAt = (taken: Taken, depth: number): number => {
        const [left, wanted] = [woodAt(taken, depth, proof.skin), proof.solidAt(grid, depth)];
        expect(wanted.reduce((a, b) => a + b)).toBeGreaterThan(1000);
        for (const mask of [left, wanted]) proof.withoutTabs(mask, grid);
        return differing(hangingTogether(left, wanted, grid), wanted, grid);
      };
      const taken = takenOn(wood, grid);
      for (const depth of proof.depths)
        expect({ file, depth, wrong: wrongAt(taken, depth) }).toEqual({ file, depth, wrong: 0 });
      // A cutter two millimetres wider would show.
      const { radiusOf, depthOf } = program.tooling;
      const wide = { ...program, tooling: { depthOf, radiusOf: (motion: Motion) => radiusOf(motion) + 1 } };
      expect(wrongAt(takenOn(cutToTheEnd(wide), grid), proof.depths[0]!)).toBeGreaterThan(100);
    }
  }, 120_000);

  test("has programs whose text alone shows the tabs that were planned", () => {
    const { programs, flips } = shown;
    for (const program of programsOf(shown, [])) {
      const { tabs, setup, sheet } = programs.find(({ file }) => file === program.file)!;
      const planned = tabs.map(({ at: [x, y] }) =>
        inProgram({ x, y }, setup === "B" ? flips[sheet] : undefined),
      );
      const seen = tabsIn(program.read.motions, program.tooling.depthOf);
      expect(seen).toHaveLength(tabs.length);
      for (const { from, to } of seen) {
        const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
        const near = Math.min(...planned.map(({ x, y }) => Math.hypot(x - middle.x, y - middle.y)));
        expect(near).toBeLessThan(5);
      }
    }
  });
});
