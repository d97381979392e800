import { tangentOf } from "@dryfit/geometry";
import type { CuttingData } from "./cutter.ts";
import { follow, type Knot, type Track, trackLength, turnedRound } from "./plan-track.ts";
import type { Move, Position } from "./toolpath.ts";

/** From where a cut starts to where it ends: heights over the face that is up, mm; and how it may sink. */
export interface Descent {
  readonly top: number;
  readonly bottom: number;
  /** Most depth per pass, mm. */
  readonly most: number;
  /** Steepest ramp, radians. */
  readonly rampAngle: number;
  /** Depth of a first light pass, mm; 0: none. */
  readonly score?: number;
}

/**
 * The heights of a cut that winds down a closed track of length `round`, then once level along its bottom.
 *
 * Each turn sinks along a ramp from its start and runs level to its end, so no turn takes more than `most`;
 * on a short track the ramp is the whole turn, a helix. The floor under a ramp is taken by the next turn,
 * under the last one by running on over it.
 */
export function winding(round: number, descent: Descent): Knot[] {
  const { top, most, rampAngle } = descent;
  const knots: Knot[] = [{ s: 0, z: top }];
  let ramp = 0;
  let before = top;
  passes({ ...descent, most: Math.min(most, round * tangentOf(rampAngle)) }).forEach((z, turn) => {
    ramp = Math.min(round, (before - z) / tangentOf(rampAngle));
    knots.push({ s: turn * round + ramp, z }, { s: (turn + 1) * round, z });
    before = z;
  });
  const { s, z } = knots.at(-1)!;
  return [...knots, { s: s + ramp, z }];
}

/** One pass of a closed track: sinks from `from` to `to`, goes all the way round and over the ramp again. */
export function turnDown(round: number, from: number, to: number, rampAngle: number): Knot[] {
  const ramp = (from - to) / tangentOf(rampAngle);
  return [
    { s: 0, z: from },
    { s: ramp, z: to },
    { s: ramp + round, z: to },
  ];
}

/**
 * The moves down an open track: at each end it sinks there and back on a ramp, then runs level to the other.
 * No pass takes more than `most`, for the ramp's lower half lies under its upper half.
 */
export function zigzag(track: Track, descent: Descent, data: CuttingData): Move[] {
  const length = trackLength(track);
  const moves: Move[] = [];
  let [ahead, back] = [track, turnedRound(track)];
  let from = descent.top;
  for (const z of passes(descent)) {
    const legs = 2 * Math.max(1, Math.ceil((from - z) / tangentOf(descent.rampAngle) / (2 * length) - 1e-9));
    const leg = Math.min(length, (from - z) / tangentOf(descent.rampAngle) / legs);
    for (let i = 0; i < legs; i++) {
      const heights = [
        from + ((z - from) * i) / legs,
        i + 1 === legs ? z : from + ((z - from) * (i + 1)) / legs,
      ];
      const start = i % 2 === 0 ? 0 : length - leg;
      moves.push(
        ...follow(
          i % 2 === 0 ? ahead : back,
          [
            { s: start, z: heights[0]! },
            { s: start + leg, z: heights[1]! },
          ],
          data,
        ),
      );
    }
    moves.push(
      ...follow(
        ahead,
        [
          { s: 0, z },
          { s: length, z },
        ],
        data,
      ),
    );
    [ahead, back] = [back, ahead];
    from = z;
  }
  return moves;
}

/** The heights of equal passes from top to bottom, the top left out; a scoring pass comes before them. */
export function passes({ top, bottom, most, score = 0 }: Descent): number[] {
  const scored = score > 0 && score < Math.min(most, top - bottom);
  const from = scored ? top - score : top;
  const count = steps(from - bottom, most);
  const equal = Array.from({ length: count }, (_, i) =>
    i === count - 1 ? bottom : from - ((from - bottom) * (i + 1)) / count,
  );
  return scored ? [from, ...equal] : equal;
}

/** Over to the place at safe height, then down through air to where the cut starts. */
export function approach(to: Position, safe: number, data: CuttingData): Move[] {
  return [
    { kind: "rapid", to: { ...to, z: safe } },
    { kind: "line", to, feed: data.plungeMmPerMin },
  ];
}

/** Straight up out of the cut. */
export function leave(from: { readonly x: number; readonly y: number }, safe: number): Move {
  return { kind: "rapid", to: { x: from.x, y: from.y, z: safe } };
}

/** Where the cutter stands after these moves; `before` where they hold none. */
export function standsAfter(moves: readonly Move[], before: Position): Position {
  const last = moves.findLast((move) => move.kind !== "comment");
  if (last === undefined) return before;
  return last.kind === "drill" ? { ...last.at, z: last.from } : last.to;
}

/** How many steps of at most `most` a depth takes; a hair more than a whole number is that number. */
function steps(depth: number, most: number): number {
  return Math.max(1, Math.ceil(depth / most - 1e-9));
}
