import { circle, difference, type Region } from "@dryfit/geometry";
import type { Feature, Part } from "@dryfit/joinery";

/** What a part's design keeps between two depths, where nothing about it changes. */
export interface Storey {
  /** Depth from face A, mm, at mean thickness. */
  readonly from: number;
  readonly to: number;
  readonly kept: readonly Region<"panel">[];
}

/** The part as designed, storey by storey from face A to face B. `cuts` are depths where a storey must end. */
export function designed(part: Part, cuts: readonly number[]): Storey[] {
  const t = part.thickness.mean;
  const spans = part.features.map((feature) => ({ feature, span: spanOf(feature, t) }));
  const floors = [0, t, ...cuts, ...spans.flatMap(({ span }) => span)]
    .filter((depth) => depth >= 0 && depth <= t)
    .sort((a, b) => a - b);
  const steps = floors.filter((depth, i) => i === 0 || depth - floors[i - 1]! > SAME_DEPTH_MM);
  const known = new Map<string, Region<"panel">[]>();
  return steps.slice(1).map((to, i) => {
    const from = steps[i]!;
    const middle = (from + to) / 2;
    const open = spans.filter(({ span }) => span[0] < middle && middle < span[1]);
    const key = open.map(({ feature }) => feature.id).join(" ");
    const kept =
      known.get(key) ??
      difference(
        [{ outer: part.outline, holes: [] }],
        open.map(({ feature }) => shapeOf(feature)),
      );
    known.set(key, kept);
    return { from, to, kept };
  });
}

/** Floors closer than this are one: float noise of adding depths, mm. */
const SAME_DEPTH_MM = 1e-6;

function spanOf(feature: Feature, t: number): readonly [number, number] {
  if (feature.kind === "opening" || feature.depth === null) return [0, t];
  return feature.face === "A" ? [0, Math.min(feature.depth, t)] : [Math.max(0, t - feature.depth), t];
}

function shapeOf(feature: Feature): Region<"panel"> {
  if (feature.kind === "recess") return feature.region;
  if (feature.kind === "opening") return { outer: feature.loop, holes: [] };
  return { outer: circle(feature.at, feature.diameter / 2), holes: [] };
}
