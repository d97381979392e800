import type { Loop } from "./curve.ts";
import { lengthOf, signedArea } from "./measure.ts";
import { distance, type Point } from "./point.ts";
import { segments } from "./segment.ts";
import { SAME_POINT_MM } from "./tolerance.ts";
import { touches } from "./touches.ts";

/** What keeps a loop from being an outline that can be cut, and where. */
export interface Defect<F extends string = string> {
  readonly kind: "crossing" | "touching" | "doubled_vertex" | "no_area";
  readonly at: Point<F>;
}

/** True where a loop encloses area, meets itself nowhere and repeats no vertex. */
export function isSimple(loop: Loop): boolean {
  return defects(loop).length === 0;
}

/**
 * Every defect of a loop. "touching" is a place where an end of a side lies on another side; where sides run
 * together, both ends of the stretch are named.
 */
export function defects<F extends string>(loop: Loop<F>): Defect<F>[] {
  const sides = segments(loop);
  const found: Defect<F>[] = [];
  loop.vertices.forEach((v, i) => {
    const next = loop.vertices[(i + 1) % loop.vertices.length]!;
    if (distance(v, next) <= SAME_POINT_MM) found.push({ kind: "doubled_vertex", at: { x: v.x, y: v.y } });
  });
  const [first] = loop.vertices;
  if (first !== undefined && 2 * Math.abs(signedArea(loop)) <= lengthOf(loop) * SAME_POINT_MM) {
    found.push({ kind: "no_area", at: { x: first.x, y: first.y } });
  }
  for (const { i, k, at } of touches(sides)) {
    const [a, b] = [sides[i]!, sides[k]!];
    const atEnd = [a.from, a.to, b.from, b.to].some((end) => distance(end, at) <= SAME_POINT_MM);
    found.push({ kind: atEnd ? "touching" : "crossing", at });
  }
  return found;
}
