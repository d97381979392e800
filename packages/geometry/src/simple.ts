import { meetings } from "./crossing.ts";
import type { Loop, Segment } from "./curve.ts";
import { boxesMeet, boxOf, signedArea } from "./measure.ts";
import { distance, type Point } from "./point.ts";
import { segmentLength, segments } from "./segment.ts";
import { SAME_POINT_MM } from "./tolerance.ts";

/** What keeps a loop from being an outline that can be cut, and where. */
export interface Defect<F extends string = string> {
  readonly kind: "crossing" | "touching" | "doubled_vertex" | "no_area";
  readonly at: Point<F>;
}

/** True where a loop encloses area and meets itself nowhere. */
export function isSimple(loop: Loop): boolean {
  return defects(loop).length === 0;
}

/**
 * Every defect of a loop. "touching" is a place where the loop comes back to itself without two clean
 * crossing segments: at a vertex, or along a stretch, of which both ends are named.
 */
export function defects<F extends string>(loop: Loop<F>): Defect<F>[] {
  const found: Defect<F>[] = [];
  const list = segments(loop);
  loop.vertices.forEach((v, i) => {
    const next = loop.vertices[(i + 1) % loop.vertices.length]!;
    if (distance(v, next) <= SAME_POINT_MM) found.push({ kind: "doubled_vertex", at: { x: v.x, y: v.y } });
  });
  const length = list.reduce((sum, s) => sum + segmentLength(s), 0);
  const first = loop.vertices[0];
  if (first !== undefined && Math.abs(signedArea(loop)) <= (length * SAME_POINT_MM) / 2) {
    found.push({ kind: "no_area", at: { x: first.x, y: first.y } });
  }
  const boxes = list.map(boxOf);
  for (let i = 0; i < list.length; i++) {
    for (let k = i + 1; k < list.length; k++) {
      if (boxesMeet(boxes[i]!, boxes[k]!)) found.push(...between(list, i, k));
    }
  }
  return found;
}

function between<F extends string>(list: readonly Segment<F>[], i: number, k: number): Defect<F>[] {
  const [a, b] = [list[i]!, list[k]!];
  const shared: Point<F>[] = [];
  if (k === i + 1) shared.push(a.to);
  if ((k + 1) % list.length === i) shared.push(a.from);
  const isEnd = (p: Point<F>): boolean =>
    [a.from, a.to, b.from, b.to].some((end) => distance(p, end) <= SAME_POINT_MM);
  return meetings(a, b)
    .filter((p) => !shared.some((q) => distance(p, q) <= SAME_POINT_MM))
    .map((at) => ({ kind: isEnd(at) ? ("touching" as const) : ("crossing" as const), at }));
}
