import { resumedProgram, resumePoints } from "@dryfit/gcode";
import fc from "fast-check";
import { expect, test } from "vitest";
import type { Motion } from "../packages/verify/src/program/motion.ts";
import { readProgram } from "../packages/verify/src/program/read-program.ts";
import { anyJob, programsOf, SAFE, THICKNESS } from "./any-program.ts";

test("a program taken up at any block does the rest, after going there through air", () => {
  fc.assert(
    fc.property(anyJob, ({ machine, operations }) => {
      const safeZ = SAFE + (machine.zZero === "bed" ? THICKNESS : 0);
      for (const { text } of programsOf(operations, machine)) {
        const whole = motionsIn(text);
        const points = resumePoints(text);
        expect(points.filter(({ block }) => !block.includes("."))).not.toEqual([]);
        for (const { block, line, title } of points) {
          const rest = resumedProgram(text, block)!;
          if (machine.controller.comments === "none") expect(title).toBe("");
          else if (!block.includes(".")) expect(title).toMatch(/groove/);
          expect(rest.split("\n").filter((l) => l.length > machine.controller.maxLineLength)).toEqual([]);
          checkRest(
            whole.filter((motion) => motion.line >= line),
            motionsIn(rest),
            block.includes("."),
            safeZ,
          );
        }
      }
    }),
    { seed: 11, numRuns: 40 },
  );
});

test("a block that is not there cannot be taken up", () => {
  expect(resumedProgram("(Block 1: x)\nG17 G90 G94\nM2\n", "2")).toBeNull();
  expect(resumePoints("G0 X1\nM2\n")).toEqual([]);
});

function motionsIn(text: string): readonly Motion[] {
  const { motions, findings } = readProgram(text);
  expect(findings.filter(({ severity }) => severity === "error")).toEqual([]);
  return motions;
}

/** The same motions in the end; before them up, across, and at a pass down to where it begins. */
function checkRest(
  left: readonly Motion[],
  resumed: readonly Motion[],
  isPass: boolean,
  safeZ: number,
): void {
  const lead = resumed.slice(0, resumed.length - left.length);
  const own = resumed.slice(resumed.length - left.length);
  const bare = ({ line: _, from, ...motion }: Motion) => ({ ...motion, to: motion.to });
  expect(own.map(bare)).toEqual(left.map(bare));
  const first = own[0]!;
  if (!isPass) {
    expect(lead.every(({ kind, to }) => kind === "rapid" && to.z === safeZ)).toBe(true);
    return;
  }
  expect(first.from).toEqual(left[0]!.from);
  const [up, across, down, ...more] = lead;
  expect(more).toEqual([]);
  expect([up?.kind, up?.to.z, across?.kind, across?.to.z]).toEqual(["rapid", safeZ, "rapid", safeZ]);
  if (down !== undefined)
    expect([down.kind, down.from.x - down.to.x, down.from.y - down.to.y]).toEqual(["feed", 0, 0]);
}
