import { areaOf, differenceFlat, OUTPUT_STEP_MM } from "@dryfit/geometry";
import type { CutLayer, CutPart } from "../cut-part.ts";
import { type Allowances, sandedOff, stepsOf } from "./allowed.ts";
import { type Bench, woodAt } from "./bench.ts";
import { depthOf } from "./stroke.ts";

/** The part as the programs cut it from a sheet of this thickness, tabs and skin sanded off. */
export function asCut(bench: Bench, allowed: Allowances, thickness: number): CutPart {
  const depths = [0, thickness, ...floors(bench, thickness), ...stepsOf(allowed, thickness)]
    .filter((depth) => depth >= 0 && depth <= thickness)
    .sort((a, b) => a - b);
  const steps = depths.filter((depth, i) => i === 0 || depth - depths[i - 1]! > SAME_FLOOR_MM);
  // The last step is the thickness itself, even where a floor lies a hair before it.
  steps[steps.length - 1] = thickness;
  const layers: CutLayer[] = [];
  steps.slice(1).forEach((to, i) => {
    const from = steps[i]!;
    const middle = (from + to) / 2;
    const wood = woodAt(bench, { a: middle, b: middle }, thickness);
    const sanded = sandedOff(bench, allowed, middle, thickness);
    const solid = sanded.length === 0 ? wood : differenceFlat(wood, sanded);
    const last = layers.at(-1);
    if (last !== undefined && isSame(last.solid, solid)) layers[layers.length - 1] = { ...last, to };
    else layers.push({ from, to, solid });
  });
  return { part: bench.part.id, thickness, layers };
}

type Section = CutLayer["solid"];

/** Passes cut the same section again and again: that is one layer. */
function isSame(a: Section, b: Section): boolean {
  if (a === b) return true;
  if (Math.abs(areaOf(a) - areaOf(b)) > SAME_SECTION_MM2) return false;
  return areaOf(differenceFlat(a, b)) + areaOf(differenceFlat(b, a)) <= SAME_SECTION_MM2;
}

/** What the clipper's grid leaves between two ways of cutting one section, mm². */
const SAME_SECTION_MM2 = 0.01;

/** Floors closer than this are one: their heights were rounded when they were printed. */
const SAME_FLOOR_MM: number = 2 * OUTPUT_STEP_MM;

/** Depths of the level strokes: a ramp ends on one of them. */
function floors({ strokes }: Bench, thickness: number): number[] {
  return strokes.flatMap(({ program, z: [start, end] }) =>
    start === end ? [depthOf(program, start, thickness)] : [],
  );
}
