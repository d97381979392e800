import type { Segment } from "@dryfit/geometry";
import type { Stroke } from "./stroke.ts";

/**
 * The strokes without those that a deeper one repeats along the same way: what is removed at the end is the
 * same, and pass after pass becomes one. Order is kept.
 */
export function deepest<F extends string>(strokes: readonly Stroke<F>[]): Stroke<F>[] {
  const byWay = new Map<string, Stroke<F>[]>();
  for (const stroke of strokes) {
    const key = wayOf(stroke);
    const rivals = byWay.get(key) ?? [];
    if (rivals.some((rival) => isNoHigher(rival, stroke))) continue;
    byWay.set(key, [...rivals.filter((rival) => !isNoHigher(stroke, rival)), stroke]);
  }
  const kept = new Set([...byWay.values()].flat());
  return strokes.filter((stroke) => kept.has(stroke));
}

/** The same for both directions of travel. Steps of 0.1 µm: equal text gives equal ways. */
function wayOf({ path, radius, program }: Stroke<string>): string {
  const ends = [place(path.from), place(path.to)].sort().join(" ");
  return `${program.setup} ${program.zZero} ${radius} ${ends} ${bend(path)}`;
}

const STEPS_PER_MM = 10_000;
const step = (value: number) => Math.round(value * STEPS_PER_MM);
const place = ({ x, y }: { readonly x: number; readonly y: number }) => `${step(x)},${step(y)}`;
const forward = ({ from, to }: Segment) => place(from) <= place(to);

function bend(path: Segment): string {
  if (path.kind === "line") return "";
  return `${place(path.centre)} ${forward(path) ? step(path.sweep) : step(-path.sweep)}`;
}

/** Whether `a` is at every place of the way as low as `b` or lower. */
function isNoHigher(a: Stroke<string>, b: Stroke<string>): boolean {
  const [start, end] = forward(a.path) === forward(b.path) ? b.z : [b.z[1], b.z[0]];
  return a.z[0] <= start && a.z[1] <= end;
}
