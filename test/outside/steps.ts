import { parseStringSync } from "gcode-parser";
import Toolpath from "gcode-toolpath";
import { expect } from "vitest";
import { readProgram } from "../../packages/verify/src/program/read-program.ts";

/** Where a motion ends, how, and about what centre. */
interface Step {
  readonly how: "G0" | "G1" | "G2" | "G3";
  readonly end: readonly number[];
  readonly centre: readonly number[] | null;
}

function read(text: string): Step[] {
  const { motions, findings } = readProgram(text, { start: { x: 0, y: 0, z: 0 } });
  expect(findings.filter((finding) => finding.severity === "error")).toEqual([]);
  return motions.map(({ kind, arc, to }) => ({
    how: arc === null ? (kind === "rapid" ? "G0" : "G1") : arc.sweep < 0 ? "G2" : "G3",
    end: [to.x, to.y, to.z],
    centre: arc === null ? null : [arc.centre.x, arc.centre.y],
  }));
}

/** The same by gcode-toolpath: no evidence for cycles, dwells or bad arcs, which it passes over. */
function readOutside(text: string): Step[] {
  const steps: Step[] = [];
  const add = (how: string, end: Vector, centre: Vector | null) =>
    steps.push({
      how: how as Step["how"],
      end: [end.x, end.y, end.z],
      centre: centre === null ? null : [centre.x, centre.y],
    });
  new Toolpath({
    addLine: ({ motion }, _, end) => add(motion, end, null),
    addArcCurve: ({ motion }, _, end, centre) => add(motion, end, centre),
  }).loadFromStringSync(text);
  return steps;
}

type Vector = { readonly x: number; readonly y: number; readonly z: number };

/** Motions of no length are none: the two readers need not agree on whether to mention them. */
function moving(steps: readonly Step[]): Step[] {
  return steps.filter(({ end, centre }, i) => {
    const before = steps[i - 1]?.end ?? [0, 0, 0];
    return centre !== null || Math.hypot(...end.map((v, k) => v - before[k]!)) > 0;
  });
}

/** Every motion, as our reader and an outside one have it; and every block. */
export function expectSameSteps(text: string) {
  const [ours, theirs] = [moving(read(text)), moving(readOutside(text))];
  expect(ours.map((step) => step.how)).toEqual(theirs.map((step) => step.how));
  ours.forEach((step, i) => {
    step.end.forEach((v, k) => {
      expect(v).toBeCloseTo(theirs[i]!.end[k]!, 6);
    });
    step.centre?.forEach((v, k) => {
      expect(v).toBeCloseTo(theirs[i]!.centre![k]!, 6);
    });
  });
  expect(ours.length).toBeGreaterThan(5);
  const withWords = parseStringSync(text).filter(({ words }) => words.length > 0);
  expect(readProgram(text).facts.blocks).toBe(withWords.length);
}
