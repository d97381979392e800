import { passWeight, runsOf, strokesOf } from "@dryfit/drawing";
import { lengthOfMotion, type Motion, positionAt } from "@dryfit/verify";
import type { Colours } from "../page-colours.ts";
import type { CutProgram } from "./cut-program.ts";
import { type Tab, tabsIn } from "./tabs-in.ts";
import { type Place, toPixel, type Window } from "./window.ts";

/** The way of the cutter, sorted into what is drawn alike. */
export interface CutterPath {
  readonly rapids: readonly Motion[];
  readonly passes: readonly { readonly weight: number; readonly moves: readonly Motion[] }[];
  readonly entries: readonly Place[];
  readonly ends: readonly Motion[];
  readonly tabs: readonly TabMark[];
}

/** A tab's two bars across the cutter's way. */
interface TabMark {
  readonly ends: readonly (readonly [at: Place, along: Place])[];
  readonly reach: number;
}

export function cutterPathOf(program: CutProgram): CutterPath {
  const { motions } = program.read;
  const runs = runsOf(motions) as readonly (readonly Motion[])[];
  return {
    rapids: motions.filter((motion) => motion.kind === "rapid" && travels(motion)),
    passes: strokesOf(runs).map(({ pass, moves }) => ({
      weight: passWeight(pass),
      moves: moves as readonly Motion[],
    })),
    entries: runs.map(([first]) => first!.from),
    ends: runs.flatMap((run) => run.findLast(travels) ?? []),
    tabs: tabsIn(motions, program.tooling.depthOf).map((tab) => tabMark(tab, program)),
  };
}

/** Draws the path by the line kinds of the sheet: rapids dotted, heavier with every pass, entries open, ends barred. */
export function drawPath(
  context: CanvasRenderingContext2D,
  window: Window,
  path: CutterPath,
  colours: Colours,
): void {
  context.lineJoin = "round";
  context.lineCap = "round";
  const isNear = (motion: Motion): boolean => isInSight(window, motion);
  stroke(context, colours.pencil, 0.35 * MM, [0, 1.1 * MM], () => {
    for (const motion of path.rapids) if (isNear(motion)) follow(context, window, motion, null);
  });
  for (const { weight, moves } of path.passes) {
    stroke(context, colours.path, weight * MM, [], () => {
      let before: Motion | null = null;
      for (const move of moves) {
        if (isNear(move)) {
          follow(context, window, move, before);
          before = move;
        } else before = null;
      }
    });
  }
  context.fillStyle = colours.ink;
  for (const { moves } of path.passes) arrows(context, window, moves);
  stroke(context, colours.ink, 0.3 * MM, [], () => {
    for (const at of path.entries) ring(context, toPixel(window, at), 0.8 * MM);
  });
  stroke(context, colours.ink, 0.3 * MM, [], () => {
    for (const motion of path.ends) {
      const at = toPixel(window, motion.to);
      bar(context, at, wayAt(motion, 1), 1.2 * MM);
    }
  });
  stroke(context, colours.ink, 0.35 * MM, [], () => {
    for (const { ends, reach } of path.tabs)
      for (const [at, along] of ends)
        bar(context, toPixel(window, at), along, Math.max(1.2 * MM, reach * window.scale));
  });
}

/** Draws the way of one line of the program over the rest, so that it stands out in grey too. */
export function drawBlock(
  context: CanvasRenderingContext2D,
  window: Window,
  motions: readonly Motion[],
  colours: Colours,
): void {
  context.lineCap = "round";
  for (const [colour, width] of [
    [colours.paper, 1.5 * MM],
    [colours.ink, 0.8 * MM],
  ] as const)
    stroke(context, colour, width, [], () => {
      for (const motion of motions) if (isInSight(window, motion)) follow(context, window, motion, null);
    });
}

function isInSight(window: Window, { from, to, arc }: Motion): boolean {
  const [a, b] = [toPixel(window, from), toPixel(window, to)];
  const slack = arc ? 2 * window.scale * Math.hypot(from.x - arc.centre.x, from.y - arc.centre.y) : 0;
  return (
    Math.max(a.x, b.x) >= -slack &&
    Math.min(a.x, b.x) <= window.width + slack &&
    Math.max(a.y, b.y) >= -slack &&
    Math.min(a.y, b.y) <= window.height + slack
  );
}

/** CSS pixels to a millimetre of paper. */
export const MM: number = 96 / 25.4;
const ARROW_STEP_PX: number = 40 * MM;

function stroke(
  context: CanvasRenderingContext2D,
  colour: string,
  width: number,
  dash: number[],
  draw: () => void,
): void {
  context.strokeStyle = colour;
  context.lineWidth = width;
  context.setLineDash(dash);
  context.beginPath();
  draw();
  context.stroke();
  context.setLineDash([]);
}

/** Goes along a motion as it is seen from above; an arc that stands upright is a line. */
function follow(
  context: CanvasRenderingContext2D,
  window: Window,
  motion: Motion,
  before: Motion | null,
): void {
  const { from, to, arc } = motion;
  const [a, b] = [toPixel(window, from), toPixel(window, to)];
  if (before?.to.x !== from.x || before.to.y !== from.y) context.moveTo(a.x, a.y);
  if (arc === null || arc.plane !== "XY") {
    context.lineTo(b.x, b.y);
    return;
  }
  const centre = toPixel(window, arc.centre);
  const start = Math.atan2(from.y - arc.centre.y, from.x - arc.centre.x);
  const radius = Math.hypot(from.x - arc.centre.x, from.y - arc.centre.y) * window.scale;
  context.arc(centre.x, centre.y, radius, -start, -start - arc.sweep, arc.sweep > 0);
}

function arrows(context: CanvasRenderingContext2D, window: Window, moves: readonly Motion[]): void {
  let next = ARROW_STEP_PX / 2;
  let walked = 0;
  for (const move of moves) {
    const span = lengthOfMotion(move) * window.scale;
    for (; next <= walked + span; next += ARROW_STEP_PX) {
      const share = (next - walked) / span;
      const at = toPixel(window, positionAt(move, share));
      const { x, y } = wayAt(move, share);
      const [long, wide] = [2.1 * MM, 0.7 * MM];
      context.beginPath();
      context.moveTo(at.x + (x * long) / 2, at.y - (y * long) / 2);
      context.lineTo(at.x - (x * long) / 2 - y * wide, at.y + (y * long) / 2 - x * wide);
      context.lineTo(at.x - (x * long) / 2 + y * wide, at.y + (y * long) / 2 + x * wide);
      context.fill();
    }
    walked += span;
  }
}

function ring(context: CanvasRenderingContext2D, { x, y }: Place, radius: number): void {
  context.moveTo(x + radius, y);
  context.arc(x, y, radius, 0, 2 * Math.PI);
}

/** A short line across a way; the way is in mm, y up. */
function bar(context: CanvasRenderingContext2D, at: Place, along: Place, half: number): void {
  context.moveTo(at.x - along.y * half, at.y - along.x * half);
  context.lineTo(at.x + along.y * half, at.y + along.x * half);
}

/** Which way a motion goes in plan after a share of it; y up. */
function wayAt(motion: Motion, share: number): Place {
  const { from, to, arc } = motion;
  if (arc !== null && arc.plane === "XY") {
    const at = positionAt(motion, share);
    const [x, y] = [at.x - arc.centre.x, at.y - arc.centre.y];
    const size = Math.hypot(x, y) * Math.sign(arc.sweep) || 1;
    return { x: -y / size, y: x / size };
  }
  const size = Math.hypot(to.x - from.x, to.y - from.y) || 1;
  return { x: (to.x - from.x) / size, y: (to.y - from.y) / size };
}

function travels({ from, to, arc }: Motion): boolean {
  return arc !== null || from.x !== to.x || from.y !== to.y;
}

function tabMark({ over, from, to }: Tab, { tooling }: CutProgram): TabMark {
  const [first, last] = [over[0]!, over.at(-1)!];
  return {
    ends: [
      [from, wayAt(first, 0)],
      [to, wayAt(last, 1)],
    ],
    reach: tooling.radiusOf(first),
  };
}

/** A motion that passes a place in plan. */
interface Passing {
  readonly index: number;
  /** What share of it is done there. */
  readonly share: number;
  readonly distance: number;
}

/**
 * The motion that passes nearest to a place, within a reach. Of several passes over the same line the first one
 * after `after`, so that looking again and again goes through them all.
 */
export function passingAt(
  motions: readonly Motion[],
  place: Place,
  { within, after }: { readonly within: number; readonly after: number },
): Passing | null {
  const near: Passing[] = [];
  let least = within;
  for (let index = 0; index < motions.length; index++) {
    const motion = motions[index]!;
    if (!travels(motion)) continue;
    const share = nearestShare(motion, place);
    const at = positionAt(motion, share);
    const distance = Math.hypot(at.x - place.x, at.y - place.y);
    if (distance > least + SAME_LINE_MM) continue;
    least = Math.min(least, distance);
    near.push({ index, share, distance });
  }
  const same = near.filter(({ distance }) => distance <= least + SAME_LINE_MM);
  // A line that is cut is asked for rather than a rapid that crosses it.
  const cuts = same.filter(({ index }) => motions[index]!.kind === "feed");
  const asked = cuts.length > 0 ? cuts : same;
  return asked.find(({ index }) => index > after) ?? asked[0] ?? null;
}

const SAME_LINE_MM = 0.01;

function nearestShare({ from, to, arc }: Motion, { x, y }: Place): number {
  if (arc !== null && arc.plane === "XY") {
    const start = Math.atan2(from.y - arc.centre.y, from.x - arc.centre.x);
    const turn = Math.atan2(y - arc.centre.y, x - arc.centre.x) - start;
    const full = 2 * Math.PI;
    const way = arc.sweep > 0 ? ((turn % full) + full) % full : -(((-turn % full) + full) % full);
    const share = way / arc.sweep;
    if (share <= 1) return share;
    // Off the arc: the nearer end.
    const far = (p: Place) => Math.hypot(p.x - x, p.y - y);
    return far(from) < far(to) ? 0 : 1;
  }
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const square = dx * dx + dy * dy;
  if (square === 0) return 1;
  return Math.min(1, Math.max(0, ((x - from.x) * dx + (y - from.y) * dy) / square));
}
