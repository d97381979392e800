import type { Point } from "@dryfit/geometry";
import type { Disc } from "./clear-discs.ts";

/** Discs, in the order in which they were added, and those of them that come near a place. */
export interface DiscGrid {
  readonly all: readonly Disc[];
  readonly add: (disc: Disc) => void;
  /** Every disc whose edge, or the disc itself, is no farther than `reach` from a place; in the order of adding. */
  readonly near: (at: Point, reach: number) => Disc[];
}

/** `cell` is a side of the grid's squares, mm: about as far as one usually asks. */
export function discGrid(cell: number): DiscGrid {
  const all: Disc[] = [];
  const cells = new Map<number, number[]>();
  const seen: number[] = [];
  let question = 0;
  const keys = ({ x, y }: Point, by: number, visit: (key: number) => void): void => {
    const [left, right] = [Math.floor((x - by) / cell), Math.floor((x + by) / cell)];
    const [low, high] = [Math.floor((y - by) / cell), Math.floor((y + by) / cell)];
    for (let row = low; row <= high; row++)
      for (let column = left; column <= right; column++) visit(row * ROW + column);
  };
  return {
    all,
    add: (disc) => {
      const index = all.push(disc) - 1;
      seen.push(0);
      keys(disc.at, disc.radius, (key) => {
        const list = cells.get(key);
        if (list === undefined) cells.set(key, [index]);
        else list.push(index);
      });
    },
    near: (at, reach) => {
      const found: number[] = [];
      question++;
      keys(at, reach, (key) => {
        for (const i of cells.get(key) ?? []) {
          if (seen[i] === question) continue;
          seen[i] = question;
          const disc = all[i]!;
          const [x, y] = [disc.at.x - at.x, disc.at.y - at.y];
          if (x * x + y * y <= (disc.radius + reach) ** 2) found.push(i);
        }
      });
      return found.sort((a, b) => a - b).map((i) => all[i]!);
    },
  };
}

/** More columns than any sheet has: keys of neighbouring rows never meet. */
const ROW = 1 << 20;
