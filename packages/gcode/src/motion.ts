import { distance, SAME_POINT_MM } from "@dryfit/geometry";
import { type ArcMove, arcRadius } from "./arc.ts";
import type { Controller } from "./machine.ts";
import { isFullCircle, printedArc, printedChords } from "./printed-arc.ts";
import { rounded, roundedPosition, samePosition } from "./rounding.ts";
import type { Move, Position } from "./toolpath.ts";

/** What one block does, with the numbers that will stand in it, in the program's frame. */
export type Motion =
  | { readonly kind: "rapid"; readonly to: Position }
  | { readonly kind: "line"; readonly to: Position; readonly feed: number }
  | {
      readonly kind: "arc";
      readonly to: Position;
      /** The centre from the arc's start. */
      readonly i: number;
      readonly j: number;
      readonly sweep: number;
      readonly feed: number;
    }
  | DrillMotion
  | { readonly kind: "dwell"; readonly seconds: number }
  /** A new pass: every word is stated anew after it. */
  | { readonly kind: "pass"; readonly text: string };

/** A canned cycle: down to `retract`, drilled to `bottom`, back up to the height it came from (G98). */
export interface DrillMotion {
  readonly kind: "drill";
  readonly at: { readonly x: number; readonly y: number };
  readonly retract: number;
  readonly bottom: number;
  readonly peck: number | null;
  readonly dwellSeconds: number;
  readonly feed: number;
  /** Where it ends: the height it came from. */
  readonly back: number;
}

/** How moves become blocks: what the controller understands, and how far the program's Z is above the face's. */
export interface Printing {
  readonly controller: Pick<Controller, "arcs" | "helix" | "fullCircle" | "cannedDrilling" | "decimals">;
  readonly zShift: number;
  /** The quickest that the machine goes down, mm/min; absent: no limit. */
  readonly mostDown?: number;
}

/**
 * The blocks of `moves`, rounded once and for all: what the text says, what the time model sees.
 *
 * Moves that end where they start are left out. `start` is where the cutter stands in the face's frame, unrounded.
 */
export function motionsOf(moves: readonly Move[], start: Position, printing: Printing): readonly Motion[] {
  const motions: Motion[] = [];
  const shifted = withFullCircles(moves, start, printing.controller).map((move) =>
    shiftedMove(move, printing.zShift),
  );
  let exact: Position = { ...start, z: start.z + printing.zShift };
  let printed = roundedPosition(exact, printing.controller);
  for (const move of shifted) {
    const blocks = blocksOf(move, exact, printed, printing.controller);
    for (const block of blocks) {
      motions.push(noQuickerDown(block, printed, printing));
      printed = endOfMotion(block, printed);
    }
    exact = endOf(move, exact);
  }
  return motions;
}

/**
 * The blocks of moves that begin wherever the cutter stands: their first move, a rapid, is stated even where it
 * goes nowhere. Errors: RangeError if they begin with anything else.
 */
export function motionsFromAnywhere(moves: readonly Move[], printing: Printing): readonly Motion[] {
  const first = moves.findIndex(({ kind }) => kind !== "comment");
  const move = moves[first];
  if (move?.kind !== "rapid") throw new RangeError(`moves must begin with a rapid, not with ${move?.kind}`);
  const to = { ...move.to, z: move.to.z + printing.zShift };
  return [
    ...motionsOf(moves.slice(0, first), move.to, printing),
    { kind: "rapid", to: roundedPosition(to, printing.controller) },
    ...motionsOf(moves.slice(first + 1), move.to, printing),
  ];
}

/** Where the cutter stands after a motion that began at `from`. */
export function endOfMotion(motion: Motion, from: Position): Position {
  if (motion.kind === "dwell" || motion.kind === "pass") return from;
  return motion.kind === "drill" ? { ...motion.at, z: motion.back } : motion.to;
}

/** In the frame of the moves: a drill ends at the height from which it came, if that is above its own start. */
function endOf(move: Move, from: Position): Position {
  if (move.kind === "comment") return from;
  return move.kind === "drill" ? { x: move.at.x, y: move.at.y, z: Math.max(from.z, move.from) } : move.to;
}

/** A short slope is printed steeper than it is meant by up to a step: fed so that it still sinks no quicker than it may. */
function noQuickerDown(motion: Motion, from: Position, { mostDown }: Printing): Motion {
  if (mostDown === undefined || (motion.kind !== "line" && motion.kind !== "arc")) return motion;
  const down = from.z - motion.to.z;
  if (down <= 0) return motion;
  const level =
    motion.kind === "arc"
      ? Math.sqrt(motion.i * motion.i + motion.j * motion.j) * Math.abs(motion.sweep)
      : distance(from, motion.to);
  const most = (mostDown * Math.sqrt(level * level + down * down)) / down;
  return motion.feed <= most ? motion : { ...motion, feed: Math.floor(most * FEED_STEPS) / FEED_STEPS };
}

/** Feeds are printed in tenths of a mm/min. */
const FEED_STEPS = 10;

function blocksOf(
  move: Move,
  exact: Position,
  printed: Position,
  controller: Printing["controller"],
): readonly Motion[] {
  switch (move.kind) {
    case "comment":
      return [{ kind: "pass", text: move.text }];
    case "rapid":
      return moved(printed, roundedPosition(move.to, controller), (to) => ({ kind: "rapid", to }));
    case "line":
      return moved(printed, roundedPosition(move.to, controller), (to) => ({
        kind: "line",
        to,
        feed: move.feed,
      }));
    case "arc":
      return arcBlocks({ ...move, from: exact }, move.feed, printed, controller);
    case "drill": {
      const drill = drillMotion(move, printed, controller);
      // G83 has no dwell, so a pecked and dwelling hole is written out.
      const canned = controller.cannedDrilling && (drill.peck === null || drill.dwellSeconds === 0);
      return canned ? [drill] : writtenOut(drill, printed, controller);
    }
  }
}

function moved(from: Position, to: Position, motion: (to: Position) => Motion): readonly Motion[] {
  return samePosition(from, to) ? [] : [motion(to)];
}

function arcBlocks(
  arc: ArcMove,
  feed: number,
  printed: Position,
  controller: Printing["controller"],
): readonly Motion[] {
  const lines = (points: readonly Position[]): readonly Motion[] =>
    points.map((to) => ({ kind: "line", to, feed }));
  const flat = rounded(arc.to.z, controller) === printed.z;
  if (!controller.arcs || (!flat && !controller.helix)) return lines(printedChords(arc, printed, controller));
  const result = printedArc(arc, printed, controller);
  return "kind" in result ? [{ ...result, feed }] : lines(result);
}

function drillMotion(
  move: Move & { kind: "drill" },
  from: Position,
  controller: Printing["controller"],
): DrillMotion {
  const at = roundedPosition(move.at, controller);
  const retract = rounded(move.from, controller);
  if (at.z > retract) throw new RangeError(`a hole must end below its start: ${at.z} is above ${retract}`);
  return {
    kind: "drill",
    at: { x: at.x, y: at.y },
    retract,
    bottom: at.z,
    peck: move.peck,
    dwellSeconds: move.dwellSeconds,
    feed: move.feed,
    back: Math.max(from.z, retract),
  };
}

/** The cycle in plain blocks, as NISTIR 6556 3.5.16 describes G81 to G83. */
export function writtenOut(
  drill: DrillMotion,
  from: Position,
  grid: { readonly decimals: number },
): readonly Motion[] {
  const { x, y } = drill.at;
  const motions: Motion[] = [];
  let at = from;
  const go = (to: Position, feed: number | null): void => {
    if (samePosition(at, to)) return;
    motions.push(feed === null ? { kind: "rapid", to } : { kind: "line", to, feed });
    at = to;
  };
  if (at.z < drill.retract) go({ ...at, z: drill.retract }, null);
  go({ x, y, z: at.z }, null);
  go({ x, y, z: drill.retract }, null);
  const floors = pecks(drill).map((z) => rounded(z, grid));
  floors.forEach((floor, k) => {
    const above = floors[k - 1];
    if (above !== undefined) {
      go({ x, y, z: drill.retract }, null);
      go({ x, y, z: rounded(Math.min(above + PECK_CLEARANCE_MM, drill.retract), grid) }, null);
    }
    go({ x, y, z: floor }, drill.feed);
  });
  if (drill.dwellSeconds > 0) motions.push({ kind: "dwell", seconds: drill.dwellSeconds });
  go({ x, y, z: drill.back }, null);
  return motions;
}

/** "Backed off a bit" before the next peck; the value of the published reference interpreter (0.010 inch). */
const PECK_CLEARANCE_MM = 0.254;

function pecks({ peck, retract, bottom }: DrillMotion): readonly number[] {
  if (peck === null) return [bottom];
  if (!(peck > 0)) throw new RangeError(`a peck must be positive, not ${peck}`);
  const count = Math.max(1, Math.ceil((retract - bottom) / peck - 1e-9));
  return Array.from({ length: count }, (_, k) => (k === count - 1 ? bottom : retract - (k + 1) * peck));
}

function shiftedMove(move: Move, by: number): Move {
  const up = (p: Position): Position => ({ ...p, z: p.z + by });
  if (move.kind === "comment") return move;
  if (move.kind === "drill") return { ...move, at: up(move.at), from: move.from + by };
  return { ...move, to: up(move.to) };
}

/** Where the controller takes a whole turn in one block, two halves of one circle become one. */
function withFullCircles(
  moves: readonly Move[],
  start: Position,
  controller: Printing["controller"],
): readonly Move[] {
  if (!controller.arcs || !controller.fullCircle) return moves;
  const joined: Move[] = [];
  let [before, at] = [start, start];
  for (const move of moves) {
    const last = joined.at(-1);
    const whole = last === undefined ? null : wholeTurn(last, move, before);
    if (whole === null) before = at;
    if (whole === null) joined.push(move);
    else joined[joined.length - 1] = whole;
    at = endOf(move, at);
  }
  return joined;
}

function wholeTurn(first: Move, second: Move, from: Position): Move | null {
  if (first.kind !== "arc" || second.kind !== "arc" || first.feed !== second.feed) return null;
  const sweep = first.sweep + second.sweep;
  if (!isFullCircle({ sweep }) || Math.sign(first.sweep) !== Math.sign(second.sweep)) return null;
  const apart = Math.hypot(first.centre.x - second.centre.x, first.centre.y - second.centre.y);
  const rise = second.to.z - from.z;
  const even = Math.abs(first.to.z - from.z - rise * (first.sweep / sweep));
  if (apart > SAME_POINT_MM || even > SAME_POINT_MM) return null;
  return arcRadius({ from, centre: first.centre }) > SAME_POINT_MM
    ? { ...second, centre: first.centre, sweep }
    : null;
}
