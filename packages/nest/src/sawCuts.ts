import { SAME_POINT_MM } from "@dryfit/geometry";
import type { Rect } from "./rectangles.ts";
import type { DraftSheet } from "./sawDraft.ts";
import type { Board, SawCut, SawJob, SawnBlank } from "./sawJob.ts";
import type { Stack } from "./sawStack.ts";

/** What a sheet is sawn into, and how: strips first, then lengths, then what is sawn narrower once more. */
export interface Sawn {
  readonly blanks: readonly SawnBlank[];
  readonly cuts: readonly SawCut[];
  readonly rests: readonly Rect[];
  /** How often the fence has to be set. */
  readonly settings: number;
}

/**
 * A stack as cuts in order. Within a stage the widest come first whichever board they are in, so that every setting
 * of the fence serves for all cuts that want it.
 */
export function sawn(job: SawJob, { stock, stack }: DraftSheet, sheet: string): Sawn {
  const { trim } = job.rules;
  const out: Collected = { job, grain: stock.grain, blanks: [], cuts: [], rests: [] };
  let board: Board = { name: sheet, blank: null, x: 0, y: 0, w: stock.size[0], h: stock.size[1] };
  if (trim > 0)
    for (const axis of stack.axis === "x" ? (["x", "y"] as const) : (["y", "x"] as const))
      board = trimmed(out, board, axis);
  let now: Pending[] = [{ stack, board, next: 0, named: 0, names: STRIPS }];
  while (now.length > 0) now = stage(out, now);
  let settings = 0;
  let last = Number.NaN;
  for (const { stage, setting } of out.cuts) {
    if (stage === 0 || Math.abs(setting - last) <= SAME_POINT_MM) continue;
    settings++;
    last = setting;
  }
  return { ...out, settings };
}

interface Collected {
  readonly job: SawJob;
  readonly grain: "x" | "y";
  readonly blanks: SawnBlank[];
  readonly cuts: SawCut[];
  readonly rests: Rect[];
}

/** A board on its way, and the slab that is cut off it next. */
interface Pending {
  readonly stack: Stack;
  board: Board;
  next: number;
  /** How many of its slabs have a name of their own so far. */
  named: number;
  readonly names: (board: string, k: number) => string;
}

type Names = Pending["names"];
const STRIPS: Names = (_, k) => (k < 26 ? String.fromCharCode(65 + k) : `Z${k - 24}`);
const LENGTHS: Names = (board, k) => `${board}${k + 1}`;
const NARROWER: Names = (board, k) => `${board}${String.fromCharCode(97 + (k % 26))}`;

function trimmed(out: Collected, board: Board, axis: "x" | "y"): Board {
  const { trim, kerf } = out.job.rules;
  const far =
    axis === "x" ? { ...board, x: trim, w: board.w - trim } : { ...board, y: trim, h: board.h - trim };
  const setting = Math.max(0, trim - kerf);
  const grain = axis === out.grain ? "across" : "along";
  out.cuts.push({ stage: 0, grain, board: board.name, axis, at: trim - kerf, setting, near: null, far });
  return far;
}

/** All cuts of one direction; returns the boards that are cut the other way. */
function stage(out: Collected, boards: readonly Pending[]): Pending[] {
  const after: Pending[] = [];
  for (const pending of boards) pending.stack.slabs.sort((a, b) => b.thick - a.thick);
  for (;;) {
    const pending = boards
      .filter(({ stack, next }) => next < stack.slabs.length)
      .reduce<Pending | null>((a, b) => (a && thickest(a) >= thickest(b) - SAME_POINT_MM ? a : b), null);
    if (!pending) return after;
    cutSlab(out, pending, after);
    if (pending.next === pending.stack.slabs.length) keepRest(out, pending);
  }
}

function thickest({ stack, next }: Pending): number {
  return stack.slabs[next]!.thick;
}

function cutSlab(out: Collected, pending: Pending, after: Pending[]): void {
  const { stack, board } = pending;
  const slab = stack.slabs[pending.next]!;
  const length = stack.axis === "x" ? board.w : board.h;
  const blank = "slabs" in slab.inside ? null : out.job.blanks[slab.inside.blank]!.id;
  const name = blank ?? pending.names(board.name, pending.named++);
  pending.next++;
  const { kerf } = out.job.rules;
  // What is left may be just what is wanted.
  const whole = Math.abs(length - slab.thick) <= SAME_POINT_MM;
  const near: Board = whole
    ? { ...board, name, blank }
    : stack.axis === "x"
      ? { ...board, name, blank, w: slab.thick }
      : { ...board, name, blank, h: slab.thick };
  const rest = length - slab.thick - kerf;
  if (whole) rename(out, board, near);
  else {
    const gone = slab.thick + kerf;
    const far =
      rest <= SAME_POINT_MM
        ? null
        : stack.axis === "x"
          ? { ...board, x: board.x + gone, w: rest }
          : { ...board, y: board.y + gone, h: rest };
    const { stage, axis } = stack;
    const grain = axis === out.grain ? "across" : "along";
    const at = (axis === "x" ? board.x : board.y) + slab.thick;
    out.cuts.push({ stage, grain, board: board.name, axis, at, setting: slab.thick, near, far });
    if (far) pending.board = far;
  }
  if ("slabs" in slab.inside)
    after.push({
      stack: slab.inside,
      board: near,
      next: 0,
      named: 0,
      names: stack.stage === 1 ? LENGTHS : NARROWER,
    });
  else out.blanks.push({ id: name, x: near.x, y: near.y, w: near.w, h: near.h, turned: slab.inside.turned });
}

/** The cut that left a board behind knows it by the name that it gets. */
function rename({ cuts }: Collected, from: Board, to: Board): void {
  const k = cuts.findLastIndex(({ near, far }) => near === from || far === from);
  const cut = cuts[k];
  if (!cut) return;
  cuts[k] = cut.near === from ? { ...cut, near: to } : { ...cut, far: to };
}

/** Narrower rests are firewood, mm. Common practice, no source. */
const LEAST_REST_MM = 100;

function keepRest(out: Collected, { stack, board }: Pending): void {
  const left = stack.length - stack.used;
  if (Math.min(left, stack.across) < LEAST_REST_MM) return;
  out.rests.push(
    stack.axis === "x"
      ? { x: board.x, y: board.y, w: left, h: stack.across }
      : { x: board.x, y: board.y, w: stack.across, h: left },
  );
}
