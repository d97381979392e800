import { type Loop, offset, placeCurve, rectangle, segments } from "@dryfit/geometry";
import type { Face, Thickness } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import { type AirProgram, airProgram } from "./air.ts";
import type { Cutter } from "./cutter.ts";
import { setupFrames } from "./flip.ts";
import { keepOutsOf, travelHeight } from "./keep-outs.ts";
import type { Machine } from "./machine.ts";
import type { Flip } from "./program.ts";
import { mm } from "./sum.ts";
import type { Move, Position } from "./toolpath.ts";

export interface WalkJob {
  readonly name: string;
  readonly sheet: Sheet;
  readonly setup: Face;
  readonly flip: Flip | null;
  readonly thickness: Thickness;
  readonly machine: Machine;
  /** All that this setup uses; the widest decides how far keep-outs are passed. */
  readonly cutters: readonly Cutter[];
}

/**
 * A program that shows where everything is before anything is cut: at the height of rapids, spindle still, it goes
 * round the sheet's edge and then round every keep-out, as near as the widest cutter may come, and over it elsewhere.
 */
export function walkProgram(job: WalkJob): AirProgram {
  const { name, sheet, setup, machine, thickness } = job;
  const rounds = roundsOf(job);
  const air = mm(machine.safeHeight);
  return airProgram({
    file: `${sheet.id}-${setup.toLowerCase()}-walk.nc`,
    header: (seconds) => [
      `${name}: ${sheet.id}, face ${setup} up, a walk in the air. Cuts nothing.`,
      `Goes round the sheet's edge, ${air} over it${around(rounds.length - 1)}.`,
      "The spindle stays off. Zero as for the programs that cut; any cutter will do.",
      `Takes about ${Math.ceil(seconds)} seconds. Stop it if the tip leaves the edge or a clamp is in its way.`,
    ],
    moves: rounds.flatMap((round) => roundMoves(round, job)),
    height: travelHeight(machine, sheet),
    zShift: machine.zZero === "bed" ? thickness.mean : 0,
    machine,
  });
}

function around(keepOuts: number): string {
  if (keepOuts === 0) return "";
  const what = keepOuts === 1 ? "one keep-out" : `${keepOuts} keep-outs`;
  return `, then round ${what}, as near as a cutter may come`;
}

/** Share of the greatest feed at which it walks: an eye must follow. */
const WALKING = 0.5;

function roundsOf({ sheet: { stock }, setup, flip, cutters }: WalkJob): readonly Loop<"setup">[] {
  const frame = setupFrames(flip)[setup];
  const [x, y] = stock.size;
  const edge: readonly Loop<"sheet">[] =
    stock.outline === null ? [rectangle({ x: 0, y: 0 }, { x, y })] : [stock.outline.outer];
  const around = offset<"sheet">(stock.keepOuts, widest(cutters)).map(({ outer }) => outer);
  return [...edge, ...around].map((loop) => placeCurve(frame, loop));
}

const widest = (cutters: WalkJob["cutters"]): number =>
  Math.max(0, ...cutters.map(({ diameter }) => diameter / 2));

/** Round once near the sheet, but over what stands in the way; there and back over everything. */
function roundMoves(loop: Loop<"setup">, job: WalkJob): readonly Move[] {
  const { sheet, setup, flip, machine, cutters } = job;
  const [near, over] = [machine.safeHeight, travelHeight(machine, sheet)];
  const keepOuts = keepOutsOf(sheet, setupFrames(flip)[setup], machine);
  const feed = WALKING * machine.maxFeedMmPerMin.xy;
  const pieces = segments(loop);
  const at = (p: Pick<Position, "x" | "y">, z: number): Position => ({ x: p.x, y: p.y, z });
  const rapid = (to: Position): Move => ({ kind: "rapid", to });
  let z = over;
  const moves = [rapid(at(pieces[0]!.from, over))];
  for (const piece of pieces) {
    const own = keepOuts === null || keepOuts.entries(piece, widest(cutters)).length === 0 ? near : over;
    if (own !== z) moves.push(rapid(at(piece.from, own)));
    z = own;
    moves.push(
      piece.kind === "line"
        ? { kind: "line", to: at(piece.to, z), feed }
        : { kind: "arc", to: at(piece.to, z), centre: piece.centre, sweep: piece.sweep, feed },
    );
  }
  if (z !== over) moves.push(rapid(at(pieces[0]!.from, over)));
  return moves;
}
