import type { Controller, Move, Operation, Position, Program } from "@dryfit/gcode";
import fc from "fast-check";
import { expect, test } from "vitest";
import { type Motion, positionAt } from "../packages/verify/src/program/motion.ts";
import { readProgram } from "../packages/verify/src/program/read-program.ts";
import { anyJob, programsOf, SAFE, THICKNESS } from "./any-program.ts";

test("any controller's program is accepted by a strict reader and follows the planned path", () => {
  fc.assert(
    fc.property(anyJob, ({ machine, operations }) => {
      const { controller, zZero } = machine;
      const programs = programsOf(operations, machine);
      const read = programs.map(({ text, file }) =>
        readProgram(text, { file, dwellUnit: controller.dwellUnit }),
      );
      for (const { findings } of read)
        expect(findings.filter(({ severity }) => severity === "error")).toEqual([]);
      programs.forEach((program, k) => {
        checkForm(program, controller);
        checkFacts(program, read[k]!.facts);
      });
      const zShift = zZero === "bed" ? THICKNESS : 0;
      const motions = read
        .flatMap(({ motions: m }) => m)
        .filter(({ from }) => Number.isFinite(from.x + from.y));
      checkPath(samplesOf(operations, zShift), motions);
      // The same again, byte for byte.
      expect(programsOf(operations, machine).map(({ text }) => text)).toEqual(
        programs.map(({ text }) => text),
      );
    }),
    { seed: 7, numRuns: 120 },
  );
});

function checkForm({ text, blocks }: Program, controller: Controller): void {
  const lines = text.split("\n");
  const bare = lines.filter((line) => line !== "" && line !== "%" && !/^[(;]/.test(line));
  const wrong = (list: readonly string[], is: (line: string) => boolean): void =>
    expect(list.filter(is)).toEqual([]);
  expect(bare).toHaveLength(blocks);
  expect(text.endsWith("\n")).toBe(true);
  wrong(lines, (line) => !/^[ -~]*$/.test(line));
  wrong(lines, (line) => line.length > controller.maxLineLength);
  wrong(bare, (line) => /^N\d{1,5} /.test(line) !== controller.lineNumbers);
  wrong(bare, (line) => /-0\.0+(?!\d)|e/.test(line));
  if (!controller.arcs) wrong(bare, (line) => /G[23]\b/.test(line));
  if (!controller.cannedDrilling) wrong(bare, (line) => /G8\d/.test(line));
  if (controller.comments !== "semicolon") expect(text).not.toContain(";");
  if (controller.comments !== "parentheses") expect(text).not.toContain("(");
}

function checkFacts(program: Program, facts: ReturnType<typeof readProgram>["facts"]): void {
  expect(facts.blocks).toBe(program.blocks);
  const { min, max } = facts.extents!;
  for (const axis of ["x", "y", "z"] as const) {
    expect(program.extents[axis][0]).toBeCloseTo(min[axis], 2);
    expect(program.extents[axis][1]).toBeCloseTo(max[axis], 2);
  }
  expect(program.deepest).toBeCloseTo(facts.deepest!, 4);
}

interface Sample extends Position {
  readonly kind: "rapid" | "feed";
}

/** Places along the planned path in their order; a drill's places are its mouth and its floor. */
function samplesOf(operations: readonly Operation[], zShift: number): readonly Sample[] {
  const samples: Sample[] = [];
  for (const { moves } of operations) {
    let at: Position = { x: 0, y: 0, z: SAFE };
    for (const move of moves) {
      if (move.kind === "comment") continue;
      if (move.kind === "drill") {
        samples.push({ ...move.at, z: move.from, kind: "feed" }, { ...move.at, kind: "feed" });
        at = { ...move.at, z: Math.max(at.z, move.from) };
        continue;
      }
      const kind = move.kind === "rapid" ? "rapid" : "feed";
      const shares = move.kind === "arc" ? [0.2, 0.4, 0.6, 0.8, 1] : [1];
      for (const t of shares) samples.push({ ...between(at, move, t), kind });
      at = move.to;
    }
  }
  return samples.map((sample) => ({ ...sample, z: sample.z + zShift }));
}

function between(from: Position, move: Move & { kind: "rapid" | "line" | "arc" }, t: number): Position {
  if (move.kind !== "arc") return move.to;
  const [cos, sin] = [Math.cos(move.sweep * t), Math.sin(move.sweep * t)];
  const [dx, dy] = [from.x - move.centre.x, from.y - move.centre.y];
  return {
    x: move.centre.x + dx * cos - dy * sin,
    y: move.centre.y + dx * sin + dy * cos,
    z: from.z + (move.to.z - from.z) * t,
  };
}

/** How far the printed path may be from the planned one, mm: rounding, chords of 0.001, an arc's rounded centre. */
const FOLLOWED = 0.004;

/** Every place is met in its order, at feed or rapid as planned. */
function checkPath(samples: readonly Sample[], motions: readonly Motion[]): void {
  let k = 0;
  for (const sample of samples) {
    const found = motions.findIndex((motion, j) => j >= k && meets(motion, sample));
    if (found < 0) expect({ lost: sample, after: motions[k] }).toBe("met");
    // The next place may lie on this same block.
    k = found;
  }
}

function meets(motion: Motion, place: Sample): boolean {
  if (
    motion.kind !== place.kind &&
    !(distance(motion.from, place) <= FOLLOWED || distance(motion.to, place) <= FOLLOWED)
  )
    return false;
  if (motion.arc === null) return distanceToLine(motion.from, motion.to, place) <= FOLLOWED;
  const { centre, sweep } = motion.arc;
  const begin = Math.atan2(motion.from.y - centre.y, motion.from.x - centre.x);
  const turn = Math.atan2(place.y - centre.y, place.x - centre.x) - begin;
  const whole = 2 * Math.PI;
  const ahead = ((((sweep > 0 ? turn : -turn) % whole) + whole) % whole) / Math.abs(sweep);
  const down = (place.z - motion.from.z) / (motion.to.z - motion.from.z);
  return [ahead, down, 0, 1].some(
    (t) => t >= 0 && t <= 1 && distance(positionAt(motion, t), place) <= FOLLOWED,
  );
}

function distance(a: Position, b: Position): number {
  return Math.hypot(a.x - b.x, a.y - b.y, a.z - b.z);
}

function distanceToLine(a: Position, b: Position, p: Position): number {
  const [dx, dy, dz] = [b.x - a.x, b.y - a.y, b.z - a.z];
  const square = dx * dx + dy * dy + dz * dz;
  const t = square === 0 ? 0 : ((p.x - a.x) * dx + (p.y - a.y) * dy + (p.z - a.z) * dz) / square;
  const clipped = Math.min(1, Math.max(0, t));
  return distance({ x: a.x + dx * clipped, y: a.y + dy * clipped, z: a.z + dz * clipped }, p);
}
