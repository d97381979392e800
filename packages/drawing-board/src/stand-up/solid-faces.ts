import {
  differenceFlat,
  distance,
  type Loop,
  offsetFlat,
  type Point,
  polygon,
  type Region,
} from "@dryfit/geometry";
import type { CutPart } from "@dryfit/verify";

/** A flat face of a part as cut, square to its depth. */
export interface Cap {
  /** From face A, mm. */
  readonly depth: number;
  /** The way it looks: out of face A or out of face B. */
  readonly looks: "A" | "B";
  /** The floor of a recess or rebate; false for a face of the sheet itself. */
  readonly isFloor: boolean;
  readonly region: Region<"panel">;
}

/** A wall along one chord of an edge, from one depth to another; the wood lies to the left of a → b. */
interface Wall {
  readonly from: number;
  readonly to: number;
  readonly a: Point<"panel">;
  readonly b: Point<"panel">;
}

/** Where two walls meet, upright on the panel. */
interface Arris {
  readonly from: number;
  readonly to: number;
  readonly at: Point<"panel">;
  /** The walls' outward normals before and after it. */
  readonly before: Point<"panel">;
  readonly after: Point<"panel">;
  /** A real corner, to be drawn from everywhere; else a chord's end, which shows only as a contour. */
  readonly isSharp: boolean;
}

/** The skin of a part as cut. */
export interface SolidFaces {
  readonly caps: readonly Cap[];
  readonly walls: readonly Wall[];
  readonly arrises: readonly Arris[];
}

/** The skin of the layers without the seams between them: what one would see and feel of the wood. */
export function facesOf({ layers, thickness }: CutPart): SolidFaces {
  const wooden = layers
    .filter(({ solid }) => solid.length > 0)
    .map((layer) => ({ ...layer, solid: layer.solid.map(withoutJogs) }));
  const caps = wooden.flatMap(({ from, to, solid }): Cap[] => {
    const above = wooden.find((layer) => layer.to === from)?.solid ?? [];
    const below = wooden.find((layer) => layer.from === to)?.solid ?? [];
    return [
      ...uncovered(solid, above).map((region) => ({
        depth: from,
        looks: "A" as const,
        isFloor: from > 0,
        region,
      })),
      ...uncovered(solid, below).map((region) => ({
        depth: to,
        looks: "B" as const,
        isFloor: to < thickness,
        region,
      })),
    ];
  });
  const rings = wooden.flatMap(({ from, to, solid }) =>
    loopsOf(solid).map((points) => ({ from, to, points })),
  );
  return {
    caps,
    walls: rings.flatMap(({ from, to, points }) =>
      points.map((a, i): Wall => ({ from, to, a, b: points[(i + 1) % points.length]! })),
    ),
    arrises: rings.flatMap(({ from, to, points }) => points.map((_, i) => arris(from, to, points, i))),
  };
}

/** Where two cuts meet, an edge may step aside by a rounding: that is no corner to be drawn. */
function withoutJogs({ outer, holes }: Region<"panel">): Region<"panel"> {
  const calm = ({ vertices }: Loop<"panel">): Loop<"panel"> => {
    const kept = vertices.filter((v, i) => distance(v, vertices[(i + 1) % vertices.length]!) > JOG_MM);
    return polygon(kept.length > 2 ? kept : vertices);
  };
  return { outer: calm(outer), holes: holes.map(calm) };
}

/** Shorter chords say nothing about where an edge leads, mm. */
const JOG_MM = 0.05;

/** Two layers' walls are a hair apart where their programs were rounded: that hair is no floor. */
function uncovered(
  solid: readonly Region<"panel">[],
  cover: readonly Region<"panel">[],
): readonly Region<"panel">[] {
  return cover.length === 0 ? solid : differenceFlat(solid, offsetFlat(cover, HAIR_MM));
}

/** Narrower steps in an edge are no floors, mm: twice what the proof lets a cut be off. */
const HAIR_MM = 0.02;

export function loopsOf<F extends string>(regions: readonly Region<F>[]): readonly (readonly Point<F>[])[] {
  return regions.flatMap(({ outer, holes }) => [outer, ...holes].map(({ vertices }) => vertices));
}

function arris(from: number, to: number, points: readonly Point<"panel">[], i: number): Arris {
  const n = points.length;
  const [a, at, b] = [points[(i + n - 1) % n]!, points[i]!, points[(i + 1) % n]!];
  const [before, after] = [outward(a, at), outward(at, b)];
  return { from, to, at, before, after, isSharp: before.x * after.x + before.y * after.y < SHARP };
}

/** Cosine of the least turn that is a corner: chords of an arc turn by a few degrees each. */
const SHARP = Math.cos(Math.PI / 9);

function outward(a: Point, b: Point): Point<"panel"> {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const length = Math.hypot(dx, dy) || 1;
  return { x: dy / length, y: -dx / length };
}
