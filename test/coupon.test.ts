import { readFileSync } from "node:fs";
import { type Job, makeJob, type OutFile } from "@dryfit/job";
import { readProgram } from "@dryfit/verify";
import { describe, expect, test } from "vitest";

const text = readFileSync(new URL("../samples/tidepool.yaml", import.meta.url), "utf8");
/** The upper face of the sheet, from the bed. */
const FACE = 14.8;
const design = { file: "tidepool.yaml", text };

/** The area that the cutter goes round in each of a plate's recesses, + counter-clockwise, as the program's text has it. */
function roundsOf(files: readonly OutFile[], { parts, sheets }: Job, plate: string): readonly number[] {
  const part = parts.find(({ id }) => id === plate)!;
  const { turnDeg, shift } = part.placed;
  expect(turnDeg).toBe(0);
  const [program] = sheets[0]!.programs;
  const { motions } = readProgram(files.find(({ file }) => file === program!.file)!.text);
  const inside = (x: number, y: number): boolean =>
    x > shift[0] && x < shift[0] + part.size[0] && y > shift[1] && y < shift[1] + part.size[1];
  const rounds: number[] = [];
  let middle: { readonly x: number; readonly y: number } | null = null;
  for (const { from, to } of motions) {
    if (!inside(from.x, from.y) || !inside(to.x, to.y)) continue;
    // Over the wood a recess ends; in it, what is swept about its first place adds up.
    if (Math.max(from.z, to.z) > FACE + 0.01) middle = null;
    else if (middle === null) {
      middle = from;
      rounds.push(0);
    } else {
      const [a, b] = [from, to].map(({ x, y }) => ({ x: x - middle!.x, y: y - middle!.y }));
      rounds[rounds.length - 1]! += (a!.x * b!.y - b!.x * a!.y) / 2;
    }
  }
  return rounds.filter((area) => Math.abs(area) > 1);
}

describe.each(["climb", "conventional"])("a coupon on a machine that goes %s", (direction) => {
  test("has a plate cut each way, whatever the machine does else", async () => {
    const machine = readFileSync(new URL("../samples/shop/machine.yaml", import.meta.url), "utf8");
    const given = {
      design,
      machine: { file: "machine.yaml", text: machine.replace(/direction: \w+/, `direction: ${direction}`) },
    };
    const { job, files, outcome } = await makeJob(
      { ...given, cutters: null, version: "0" },
      undefined,
      undefined,
      "coupon",
    );
    expect(outcome).toBe("made");
    const [climb, conventional] = ["coupon-climb", "coupon-conventional"].map((id) =>
      roundsOf(files, job!, id),
    );
    // Inside a wall, climb goes counter-clockwise: the wood is on the right.
    expect(climb!.length).toBeGreaterThan(15);
    for (const area of climb!) expect(area).toBeGreaterThan(0);
    expect(conventional!.length).toBeGreaterThan(15);
    for (const area of conventional!) expect(area).toBeLessThan(0);
    const paper = files.find(({ file }) => file === "coupon.html")!.text;
    expect(paper).toMatch(new RegExp(`coupon-${direction}</td>.*?as your machine file has it`));
    const other = direction === "climb" ? "conventional" : "climb";
    expect(paper).toContain(`--width C --direction ${other} --machine MACHINE.yaml`);
  });
});
