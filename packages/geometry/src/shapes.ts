import { bulgeFromSweep } from "./bulge.ts";
import type { Loop, Path } from "./curve.ts";
import type { Point } from "./point.ts";
import { SAME_POINT_MM } from "./tolerance.ts";

/** Counter-clockwise from `min`, the lower left corner. */
export function rectangle<F extends string>(min: Point<F>, max: Point<NoInfer<F>>): Loop<F> {
  return polygon([min, { x: max.x, y: min.y }, max, { x: min.x, y: max.y }]);
}

/**
 * A rectangle with round corners; a radius of half the shorter side gives a slot with round ends.
 * Errors: RangeError where the radius does not fit.
 */
export function roundedRectangle<F extends string>(
  min: Point<F>,
  max: Point<NoInfer<F>>,
  radius: number,
): Loop<F> {
  if (radius === 0) return rectangle(min, max);
  const [width, height] = [max.x - min.x, max.y - min.y];
  if (!(radius > 0) || 2 * radius > Math.min(width, height) + SAME_POINT_MM) {
    throw new RangeError(`a corner of radius ${radius} does not fit a rectangle of ${width} × ${height}`);
  }
  const quarter = bulgeFromSweep(Math.PI / 2);
  const vertices = [
    { x: min.x + radius, y: min.y, bulge: 0 },
    { x: max.x - radius, y: min.y, bulge: quarter },
    { x: max.x, y: min.y + radius, bulge: 0 },
    { x: max.x, y: max.y - radius, bulge: quarter },
    { x: max.x - radius, y: max.y, bulge: 0 },
    { x: min.x + radius, y: max.y, bulge: quarter },
    { x: min.x, y: max.y - radius, bulge: 0 },
    { x: min.x, y: min.y + radius, bulge: quarter },
  ];
  // Where two corners meet, the side between them has no length.
  return {
    closed: true,
    vertices: vertices.filter((v, i) => {
      const next = vertices[(i + 1) % vertices.length]!;
      return v.bulge !== 0 || Math.hypot(next.x - v.x, next.y - v.y) > SAME_POINT_MM;
    }),
  };
}

/** Two half turns, counter-clockwise from the circle's leftmost point. */
export function circle<F extends string>(centre: Point<F>, radius: number): Loop<F> {
  if (!(radius > 0)) throw new RangeError(`a circle of radius ${radius}`);
  return {
    closed: true,
    vertices: [
      { x: centre.x - radius, y: centre.y, bulge: 1 },
      { x: centre.x + radius, y: centre.y, bulge: 1 },
    ],
  };
}

/** A loop of straight sides; wound as the points are. */
export function polygon<F extends string>(points: readonly Point<F>[]): Loop<F> {
  return { closed: true, vertices: points.map(({ x, y }) => ({ x, y, bulge: 0 })) };
}

export function polyline<F extends string>(points: readonly Point<F>[]): Path<F> {
  return { closed: false, vertices: points.map(({ x, y }) => ({ x, y, bulge: 0 })) };
}
