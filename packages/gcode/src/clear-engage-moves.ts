import { distance, type Point, tangentOf } from "@dryfit/geometry";
import { circleTrack } from "./bore.ts";
import type { EngagedClearing } from "./clear-engage.ts";
import type { ClearingCut } from "./clear-moves.ts";
import type { CuttingData } from "./cutter.ts";
import { approach, leave, passes, standsAfter } from "./entry.ts";
import { follow, type Track, trackLength, turnedRound } from "./plan-track.ts";
import type { Move, Position } from "./toolpath.ts";

/**
 * Level by level: down the helix, then all runs; from safe height to safe height. A level may be deeper than a slot's,
 * since the helix takes a skim at a time and nothing else is ever as wide as a slot.
 */
export function engagedMoves({ helix, way, runs }: EngagedClearing, cut: ClearingCut): Move[] {
  const { safe, slot, engaged } = cut;
  const descent = { ...cut.descent, most: engaged.depthPerPass };
  const round = circleTrack(helix.at, helix.radius);
  const track = way === "climb" ? round : turnedRound(round);
  const moves: Move[] = [];
  let floor = descent.top;
  for (const z of passes(descent)) {
    const start = { x: helix.at.x - helix.radius, y: helix.at.y };
    if (moves.length > 0) moves.push(leave(standsAfter(moves, { ...start, z }), safe));
    moves.push(...approach({ ...start, z: floor }, safe, slot), ...windDown(track, floor, z, cut));
    for (const run of runs) moves.push(...runMoves(run, z, cut, standsAfter(moves, { ...start, z })));
    floor = z;
  }
  return [...moves, leave(standsAfter(moves, { ...helix.at, z: safe }), safe)];
}

/** Turns that sink no more than a skim each, then one level. */
function windDown(track: Track, from: number, to: number, { descent, slot }: ClearingCut): Move[] {
  const round = trackLength(track);
  const turns = Math.ceil((from - to) / Math.min(SKIM_MM, round * tangentOf(descent.rampAngle)) - 1e-9);
  const knots = [
    { s: 0, z: from },
    { s: turns * round, z: to },
    { s: (turns + 1) * round, z: to },
  ];
  return follow(track, knots, slot);
}

/** Wood this high over the tip is skimmed off at any width, mm: no more than a turn of a common helix. */
const SKIM_MM = 0.9;

function runMoves(run: Track, z: number, { safe, engaged }: ClearingCut, at: Position): Move[] {
  const start: Point = run[0]!.from;
  const there =
    distance(at, start) > NEAR_MM ? [leave(at, safe), ...approach({ ...start, z }, safe, engaged)] : [];
  return [...there, ...run.map((piece) => level(piece, z, engaged))];
}

const NEAR_MM = 1e-4;

function level(piece: Track[number], z: number, { feedMmPerMin: feed }: CuttingData): Move {
  const to = { x: piece.to.x, y: piece.to.y, z };
  return piece.kind === "line"
    ? { kind: "line", to, feed }
    : { kind: "arc", to, centre: piece.centre, sweep: piece.sweep, feed };
}
