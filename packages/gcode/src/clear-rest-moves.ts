import { distance, type Point } from "@dryfit/geometry";
import { type ClearingCut, levelMoves, wallMoves } from "./clear-moves.ts";
import type { RestClearing } from "./clear-rest.ts";
import { approach, leave, passes, standsAfter } from "./entry.ts";
import type { Move, Position } from "./toolpath.ts";

/**
 * Level by level into corners and necks, down each time where the larger cutter has cleared, the nearest first; then
 * round the walls at full depth.
 */
export function restMoves({ tracks, walls, allowance }: RestClearing, cut: ClearingCut, near: Point): Move[] {
  const { descent, safe, slot } = cut;
  const moves: Move[] = [];
  let from: Position = { ...near, z: safe };
  const add = (...added: Move[]): void => {
    moves.push(...added);
    from = standsAfter(added, from);
  };
  for (const z of passes(descent)) {
    const left = [...tracks];
    while (left.length > 0) {
      const away = left.map((track) => distance(track[0]!.from, from));
      const track = left.splice(away.indexOf(Math.min(...away)), 1)[0]!;
      add(...approach({ ...track[0]!.from, z }, safe, slot), ...levelMoves(track, z, slot));
      add(leave(from, safe));
    }
  }
  for (const wall of walls) add(...wallMoves(wall, allowance, cut, from));
  return moves;
}
