import { distance, nearest, type Point, pathOf, type Segment } from "@dryfit/geometry";
import { type Clearing, type Ring, straightWithin } from "./clear.ts";
import type { EngagedClearing } from "./clear-engage.ts";
import { engagedMoves } from "./clear-engage-moves.ts";
import type { CuttingData } from "./cutter.ts";
import { approach, type Descent, leave, passes, standsAfter, turnDown, winding, zigzag } from "./entry.ts";
import { follow, startedAt, type Track, trackLength, turnedRound } from "./plan-track.ts";
import { finishMoves } from "./profile.ts";
import type { Move, Position } from "./toolpath.ts";

/** How a pocket is cut: heights, feeds for a full slot and for one stepover, and the cutter's radius. */
export interface ClearingCut {
  readonly descent: Descent;
  readonly safe: number;
  readonly radius: number;
  readonly slot: CuttingData;
  readonly side: CuttingData;
  /** For a method that keeps to an angle of engagement. */
  readonly engaged: CuttingData;
  /** For the walls' last pass, and on which side of its way the cleared pocket lies. */
  readonly finishing: CuttingData;
  readonly waste: "left" | "right";
}

/**
 * The moves that clear a pocket, from safe height to safe height; the cutter comes from `near`.
 *
 * Level by level, each from the middle outwards, entered by ramps. A piece of one ring only, the usual housing,
 * is wound down in one go instead. Between rings the cutter stays down where its straight way leads through
 * wood that is gone or within reach; else it goes round at safe height.
 */
export function clearingMoves(plan: Clearing, cut: ClearingCut, near: Point): Move[] {
  const left: Piece[] = [...plan.rings, ...plan.engaged, ...plan.lines, ...plan.slots];
  const moves: Move[] = [];
  let from: Position = { ...near, z: cut.safe };
  while (left.length > 0) {
    const away = left.map((piece) => awayFrom(piece, from));
    const piece = left.splice(away.indexOf(Math.min(...away)), 1)[0]!;
    moves.push(...piecesMoves(plan, piece, cut, from));
    from = standsAfter(moves, from);
  }
  for (const wall of plan.walls) {
    moves.push(...wallMoves(wall, plan.allowance, cut, from));
    from = standsAfter(moves, from);
  }
  return moves;
}

type Piece = Ring | EngagedClearing | Track;

function piecesMoves(plan: Clearing, piece: Piece, cut: ClearingCut, from: Position): Move[] {
  if ("helix" in piece) return engagedMoves(piece, cut);
  if ("within" in piece) return ringMoves(piece, cut, from);
  return plan.lines.includes(piece) ? lineMoves(piece, cut) : slotMoves(piece, cut, from);
}

/** The last pass along a wall on which `allowance` is left. */
export function wallMoves(wall: Track, allowance: number, cut: ClearingCut, near: Point): Move[] {
  const { descent, safe, finishing: data, waste } = cut;
  const start = spotOn(wall, near).s;
  return finishMoves(wall, { descent, safe, data, lifts: [], start, waste, allowance });
}

function ringMoves(root: Ring, cut: ClearingCut, near: Point): Move[] {
  if (root.children.length > 0 || root.tracks.length > 1 || root.hatch !== undefined)
    return levelled(root, cut, near);
  const track = root.tracks[0]!;
  const round = startedAt(track, spotOn(track, near).s);
  return cutFrom(round[0]!, cut, follow(round, winding(trackLength(round), cut.descent), cut.slot));
}

function slotMoves(track: Track, cut: ClearingCut, near: Point): Move[] {
  const turned = distance(track.at(-1)!.to, near) < distance(track[0]!.from, near);
  const line = turned ? turnedRound(track) : track;
  return cutFrom(line[0]!, cut, zigzag(line, cut.descent, cut.slot));
}

/** There and back, so begun that the last pass along the wall goes the way the line runs. */
function lineMoves(track: Track, cut: ClearingCut): Move[] {
  const line = passes(cut.descent).length % 2 === 0 ? turnedRound(track) : track;
  return cutFrom(line[0]!, cut, zigzag(line, cut.descent, cut.slot));
}

function cutFrom(first: Segment, { descent, safe, slot }: ClearingCut, cutting: readonly Move[]): Move[] {
  const start = { x: first.from.x, y: first.from.y, z: descent.top };
  return [...approach(start, safe, slot), ...cutting, leave(standsAfter(cutting, start), safe)];
}

/** Cuts a tree of rings level by level. `pen` is where the cutter stands, `floor` the level that is clear. */
function levelled(root: Ring, cut: ClearingCut, near: Point): Move[] {
  const { top, rampAngle } = cut.descent;
  const moves: Move[] = [];
  let pen: Position = { x: near.x, y: near.y, z: cut.safe };
  let floor = top;
  const add = (...added: Move[]): void => {
    moves.push(...added);
    pen = standsAfter(added, pen);
  };

  const goOver = (to: Point): void => {
    const start = { x: to.x, y: to.y, z: floor };
    if (pen.z <= floor && floor < top && straightWithin(root.within, pen, start)) {
      if (pen.z < floor) add(line({ ...pen, z: floor }, cut.side));
      if (distance(pen, start) > 0) add(line(start, cut.side));
    } else {
      if (pen.z < cut.safe) add(leave(pen, cut.safe));
      add(...approach(start, cut.safe, cut.slot));
    }
  };
  const within = (to: Point, z: number): boolean =>
    pen.z === z && distance(pen, to) <= 2 * cut.radius && straightWithin(root.within, pen, to);
  const enter = (track: Track, z: number): void => {
    const round = startedAt(track, spotOn(track, pen).s);
    goOver(round[0]!.from);
    add(...follow(round, turnDown(trackLength(round), floor, z, rampAngle), cut.slot));
  };
  const cross = (track: Track, z: number): void => {
    const spot = spotOn(track, pen);
    if (!within(spot.point, z)) {
      enter(track, z);
      return;
    }
    if (spot.distance > 0) add(line({ x: spot.point.x, y: spot.point.y, z }, cut.slot));
    add(...levelMoves(startedAt(track, spot.s), z, cut.side));
  };
  /** To and fro, from the nearer end; the first line takes the ramp. */
  const across = (run: Track, z: number): void => {
    const turn = distance(run.at(-1)!.to, pen) < distance(run[0]!.from, pen);
    const [first, ...rest] = turn ? turnedRound(run) : run;
    if (within(first!.from, z))
      add(line({ x: first!.from.x, y: first!.from.y, z }, cut.slot), ...levelMoves([first!], z, cut.side));
    else {
      goOver(first!.from);
      add(...zigzag([first!], { ...cut.descent, score: 0, top: floor, bottom: z }, cut.slot));
    }
    add(...levelMoves(rest, z, cut.side));
  };
  const visit = (ring: Ring, z: number): void => {
    for (const child of ring.children) visit(child, z);
    for (const run of ring.hatch ?? []) across(run, z);
    for (const track of ring.tracks) cross(track, z);
  };

  for (const z of passes(cut.descent)) {
    visit(root, z);
    floor = z;
  }
  add(leave(pen, cut.safe));
  return moves;
}

function awayFrom(piece: Piece, from: Point): number {
  if ("helix" in piece) return distance(piece.helix.at, from);
  return spotOn("within" in piece ? piece.tracks[0]! : piece, from).distance;
}

const spotOn = (track: Track, to: Point): ReturnType<typeof nearest> => nearest(pathOf(track), to);

const line = (to: Position, data: CuttingData): Move => ({ kind: "line", to, feed: data.feedMmPerMin });

/** Along a track at one height. */
export const levelMoves = (track: Track, z: number, data: CuttingData): Move[] =>
  track.length === 0
    ? []
    : follow(
        track,
        [
          { s: 0, z },
          { s: trackLength(track), z },
        ],
        data,
      );
