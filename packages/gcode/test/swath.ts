import { type Curve, type Point, pathOf, type Region, type Segment, segment, sweep } from "@dryfit/geometry";
import type { CuttingData } from "../src/cutter.ts";
import type { Move, Position } from "../src/toolpath.ts";

/** What a round cutter takes from the wood at height `z`: wherever its tip passes at z or below. */
export function swathAt(moves: readonly Move[], radius: number, z: number): Region[] {
  const runs: Segment[][] = [];
  let last: Step | null = null;
  for (const step of steps(moves)) {
    if (Math.max(step.from.z, step.to.z) > z) continue;
    const goesOn = last !== null && last.to === step.from;
    if (goesOn) runs.at(-1)!.push(step.path);
    else runs.push([step.path]);
    last = step;
  }
  return sweep(
    runs.map((run): Curve => pathOf(run)),
    radius,
  );
}

export interface Step {
  readonly from: Position;
  readonly to: Position;
  readonly path: Segment;
  readonly kind: Move["kind"];
}

/** The moves with where they start; those straight up and down have no path and are left out. */
export function steps(moves: readonly Move[]): Step[] {
  const found: Step[] = [];
  let at: Position | null = null;
  for (const move of moves) {
    if (move.kind === "comment" || move.kind === "drill") continue;
    const from = at;
    at = move.to;
    if (from === null || (from.x === at.x && from.y === at.y)) continue;
    const bulge = move.kind === "arc" ? Math.tan(move.sweep / 4) : 0;
    found.push({ from, to: at, path: segment(flat(from), flat(at), bulge), kind: move.kind });
  }
  return found;
}

const flat = ({ x, y }: Position): Point => ({ x, y });

/** Round numbers for a 6 mm cutter. */
export const DATA: CuttingData = {
  rpm: 18_000,
  feedMmPerMin: 3000,
  plungeMmPerMin: 600,
  rampMmPerMin: 1500,
  depthPerPass: 3,
  stepover: 2.4,
  chipLoad: 0.08,
  steps: [],
  findings: [],
};
