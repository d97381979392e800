import {
  type Curve,
  circle,
  distanceTo,
  isSimple,
  type Loop,
  placeCurve,
  placement,
  polygon,
  type Region,
  rectangle,
  roundedRectangle,
  segments,
  signedArea,
} from "../src/index.ts";
import { along } from "../src/segment.ts";
import fc from "./seeded.ts";

/** A plate without openings. */
export function plate(outer: Loop): Region {
  return { outer, holes: [] };
}

export function box(x: number, y: number, width: number, height: number): Region {
  return plate(rectangle({ x, y }, { x: x + width, y: y + height }));
}

export function disc(x: number, y: number, radius: number): Region {
  return plate(circle({ x, y }, radius));
}

export function rounded(x: number, y: number, width: number, height: number, radius: number): Region {
  return plate(roundedRectangle({ x, y }, { x: x + width, y: y + height }, radius));
}

export function loopsIn(regions: readonly Region[]): Loop[] {
  return regions.flatMap(({ outer, holes }) => [outer, ...holes]);
}

/** Points along every boundary, corners among them. */
export function boundaryPoints(regions: readonly Region[]): { x: number; y: number }[] {
  return loopsIn(regions).flatMap((loop) =>
    segments(loop).flatMap((s) => [0, 0.31, 0.77].map((t) => along(s, t))),
  );
}

export function distanceToAny(curves: readonly Curve[], p: { x: number; y: number }): number {
  return Math.min(...curves.map((curve) => distanceTo(curve, p)));
}

/** What any result of a boolean or an offset must be: simple loops, wound as outers and holes are. */
export function isSound(regions: readonly Region[]): boolean {
  return (
    loopsIn(regions).every(isSimple) &&
    regions.every(({ outer, holes }) => signedArea(outer) > 0 && holes.every((hole) => signedArea(hole) < 0))
  );
}

const turn = fc.constantFrom(0, 0, 0, 0.3, Math.PI / 4, 1.1);
const quarters = fc.constantFrom(0, 1, 2, 3);

/**
 * Plates on a lattice of one cutter radius, most of them aligned: edges shared, arcs tangent to lines and to
 * each other, corners as tight as the offset. Where a careless kernel slips.
 */
export const latticePlate: fc.Arbitrary<Region> = fc
  .record({
    kind: fc.constantFrom("box", "rounded", "disc", "slot", "wedge", "quadrant"),
    x: fc.integer({ min: 0, max: 12 }),
    y: fc.integer({ min: 0, max: 12 }),
    width: fc.integer({ min: 2, max: 9 }),
    height: fc.integer({ min: 2, max: 9 }),
  })
  .map(({ kind, x, y, width, height }) => latticeShape(kind, 3 * x, 3 * y, 3 * width, 3 * height));

function latticeShape(kind: string, x: number, y: number, width: number, height: number): Region {
  if (kind === "box") return box(x, y, width, height);
  if (kind === "rounded") return rounded(x, y, width, height, 3);
  if (kind === "disc") return disc(x, y, width / 2);
  if (kind === "slot") return rounded(x, y, width + 3, 6, 3);
  if (kind === "wedge") {
    return plate(
      polygon([
        { x, y },
        { x: x + width, y },
        { x: x + width, y: y + height },
      ]),
    );
  }
  const bulge = Math.tan(Math.PI / 8);
  return plate({
    closed: true,
    vertices: [
      { x, y, bulge: 0 },
      { x: x + width, y, bulge },
      { x, y: y + width, bulge: 0 },
    ],
  });
}

/** Some lattice plates, all turned alike. */
export const latticePlates: fc.Arbitrary<Region[]> = fc
  .tuple(fc.array(latticePlate, { minLength: 1, maxLength: 3 }), turn)
  .map(([plates, angle]) =>
    plates.map(({ outer }) => plate(placeCurve(placement({ x: 0.1, y: 0.7 }, { angle }), outer))),
  );

/** A plate anywhere, of any size and turn, its sides straight or bent. */
export const anyPlate: fc.Arbitrary<Region> = fc
  .record({
    corners: fc.array(
      fc.tuple(fc.double({ min: 8, max: 40, noNaN: true }), fc.double({ min: 0, max: 0.8, noNaN: true })),
      {
        minLength: 3,
        maxLength: 7,
      },
    ),
    bulges: fc.array(fc.constantFrom(0, 0, 0.1, 0.3, -0.1, -0.2, 0.41421356), { minLength: 7, maxLength: 7 }),
    x: fc.double({ min: 0, max: 50, noNaN: true }),
    y: fc.double({ min: 0, max: 50, noNaN: true }),
  })
  .map(({ corners, bulges, x, y }): Region => {
    const vertices = corners.map(([reach, jitter], i) => {
      const angle = (2 * Math.PI * (i + jitter)) / corners.length;
      return { x: x + reach * Math.cos(angle), y: y + reach * Math.sin(angle), bulge: bulges[i]! };
    });
    return plate({ closed: true, vertices });
  })
  .filter(({ outer }) => isSimple(outer) && signedArea(outer) > 0);

export const anyPlacement = fc
  .record({
    quarters,
    flip: fc.boolean(),
    x: fc.integer({ min: -50, max: 50 }),
    y: fc.integer({ min: -50, max: 50 }),
  })
  .map(({ quarters: q, flip, x, y }) => placement({ x, y }, { quarters: q as 0 | 1 | 2 | 3, flip }));
