import { areaOf, differenceFlat, OUTPUT_STEP_MM } from "@dryfit/geometry";
import type { CutLayer, CutPart } from "../cut-part.ts";
import { type Allowances, sandedOff, stepsOf } from "./allowed.ts";
import { type Bench, type Section, woodAt } from "./bench.ts";
import { depthOf } from "./stroke.ts";

/**
 * The part as the programs cut it from a sheet of some thickness, tabs and skin sanded off.
 *
 * Sheets of other thicknesses are cut into the same sections, other distances apart: each is worked out once.
 */
export function asCut(bench: Bench, allowed: Allowances): (thickness: number) => CutPart {
  const sand = remembered((wood: Section, off: Section) =>
    off.length === 0 ? wood : differenceFlat(wood, off),
  );
  const same = remembered(isSame);
  return (thickness) => {
    const layers: CutLayer[] = [];
    const steps = layerEnds(bench, allowed, thickness);
    steps.slice(1).forEach((to, i) => {
      const from = steps[i]!;
      const middle = (from + to) / 2;
      const wood = woodAt(bench, { a: middle, b: middle }, thickness);
      const solid = sand(wood, sandedOff(bench, allowed, middle, thickness));
      const last = layers.at(-1);
      if (last !== undefined && same(last.solid, solid)) layers[layers.length - 1] = { ...last, to };
      else layers.push({ from, to, solid });
    });
    return { part: bench.part.id, thickness, layers };
  };
}

/** Depths from face A, from 0 to the thickness, between which a section does not change. */
function layerEnds(bench: Bench, allowed: Allowances, thickness: number): number[] {
  const depths = [
    0,
    thickness,
    ...floors(bench, thickness),
    ...stepsOf(allowed, thickness, bench.part.thickness.mean),
  ]
    .filter((depth) => depth >= 0 && depth <= thickness)
    .sort((a, b) => a - b);
  const steps = depths.filter((depth, i) => i === 0 || depth - depths[i - 1]! > SAME_FLOOR_MM);
  // The last step is the thickness itself, even where a floor lies a hair before it.
  steps[steps.length - 1] = thickness;
  return steps;
}

/** Works out each pair of sections once. */
function remembered<T>(work: (a: Section, b: Section) => T): (a: Section, b: Section) => T {
  const known = new Map<Section, Map<Section, T>>();
  return (a, b) => {
    const withA = known.get(a) ?? new Map<Section, T>();
    known.set(a, withA);
    const found = withA.get(b) ?? work(a, b);
    withA.set(b, found);
    return found;
  };
}

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
