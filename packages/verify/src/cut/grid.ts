import type { Box, Point, Segment } from "@dryfit/geometry";
import { cosine } from "@dryfit/geometry";

/** Finds what lies near a place, among many things that know their boxes. */
export interface Grid<T> {
  /** Every thing whose box, grown by what it was entered with, touches `box`; in the order of entry, once each. */
  readonly near: (box: Box) => readonly T[];
}

/** `cell` is a side of the grid's squares, mm: about the size of a usual question. */
export function gridOf<T>(things: readonly T[], boxOf: (thing: T) => Box, cell: number): Grid<T> {
  const cells = new Map<number, number[]>();
  const boxes = things.map(boxOf);
  boxes.forEach((box, i) => {
    forEachCell(box, cell, (key) => {
      const list = cells.get(key);
      if (list === undefined) cells.set(key, [i]);
      else list.push(i);
    });
  });
  const near = (box: Box): readonly T[] => {
    const found: number[] = [];
    forEachCell(box, cell, (key) => {
      for (const i of cells.get(key) ?? []) if (touch(boxes[i]!, box)) found.push(i);
    });
    return [...new Set(found)].sort((a, b) => a - b).map((i) => things[i]!);
  };
  return { near };
}

/** Enough for a sheet of kilometres: keys of neighbouring rows never meet. */
const ROW = 1 << 20;

function forEachCell(box: Box, cell: number, visit: (key: number) => void): void {
  const [left, right] = [Math.floor(box.min.x / cell), Math.floor(box.max.x / cell)];
  const [low, high] = [Math.floor(box.min.y / cell), Math.floor(box.max.y / cell)];
  for (let row = low; row <= high; row++)
    for (let column = left; column <= right; column++) visit(row * ROW + column);
}

export function touch(a: Box, b: Box): boolean {
  return a.min.x <= b.max.x && b.min.x <= a.max.x && a.min.y <= b.max.y && b.min.y <= a.max.y;
}

export function grown<F extends string>({ min, max }: Box<F>, by: number): Box<F> {
  return { min: { x: min.x - by, y: min.y - by }, max: { x: max.x + by, y: max.y + by } };
}

export function boxAround<F extends string>(p: Point<F>, by: number): Box<F> {
  return grown({ min: p, max: p }, by);
}

/** A box that holds the segment; for an arc it may be larger than need be. */
export function boxOfSegment<F extends string>(s: Segment<F>): Box<F> {
  const box = {
    min: { x: Math.min(s.from.x, s.to.x), y: Math.min(s.from.y, s.to.y) },
    max: { x: Math.max(s.from.x, s.to.x), y: Math.max(s.from.y, s.to.y) },
  };
  if (s.kind === "line") return box;
  // An arc stands off its chord by its rise at most; one of more than half a turn, by its whole circle.
  if (Math.abs(s.sweep) > Math.PI) return boxAround(s.centre, s.radius);
  return grown(box, s.radius * (1 - cosine(s.sweep / 2)));
}
