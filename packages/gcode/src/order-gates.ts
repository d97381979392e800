import { along, distance, type Point, segments } from "@dryfit/geometry";
import type { Shape } from "./plan-task.ts";

/**
 * Places where the cutter may enter a shape, and about where it leaves it again: corners and middles of sides,
 * since a closed cut ends near where it began; a hole has one.
 */
export function gatesOf(shape: Shape): readonly Point[] {
  if (shape.kind === "hole") return [shape.at];
  const loop = shape.kind === "pocket" ? shape.region.outer : shape.loop;
  const places = segments(loop).flatMap((s) => [s.from, along(s, 0.5)]);
  const step = Math.max(1, Math.ceil(places.length / MOST_GATES));
  return places.filter((_, i) => i % step === 0);
}

/** So many gates are tried for each shape. */
const MOST_GATES = 16;

/**
 * The way through one gate of each stop, in the order given, that is shortest in all, from `from`.
 * Dynamic programming: for every gate the best way to get there.
 */
export function shortestThrough(
  stops: readonly (readonly Point[])[],
  from: Point,
): { readonly length: number; readonly gates: readonly Point[] } {
  let reached = [{ at: from, length: 0, before: -1 }];
  const layers = [reached];
  for (const gates of stops) {
    const last = reached;
    reached = gates.map((at) => {
      let [length, before] = [Infinity, -1];
      last.forEach((gate, i) => {
        const way = gate.length + distance(gate.at, at);
        if (way < length) [length, before] = [way, i];
      });
      return { at, length, before };
    });
    layers.push(reached);
  }
  let i = reached.reduce((best, gate, k) => (gate.length < reached[best]!.length ? k : best), 0);
  const { length } = reached[i]!;
  const gates: Point[] = [];
  for (let layer = layers.length - 1; layer > 0; layer--) {
    const gate = layers[layer]![i]!;
    gates.unshift(gate.at);
    i = gate.before;
  }
  return { length, gates };
}
