import type { Curve } from "@dryfit/geometry";
import { cosine, sine, tangentOf } from "@dryfit/geometry";
import { arrowhead } from "./dimension.ts";
import { type OnPaper, pathData, spot, toPaper, type View } from "./outline.ts";
import type { Motion } from "./picture.ts";
import { el, figure, group, type Markup } from "./svg.ts";

/** The way of the cutter: rapids dotted, cuts by pass, each entry an open circle, each end a bar. */
export function cutterPath(view: View, program: readonly Motion[]): Markup {
  const motions = program.map(fromAbove);
  const runs = runsOf(motions);
  const strokes = strokesOf(runs);
  return [
    group("rapid", ...motions.filter((m) => m.kind === "rapid" && travels(m)).map((m) => rapid(view, m))),
    group("cut", ...strokes.map((stroke) => cutStroke(view, stroke))),
    group("cut-end", ...runs.flatMap((run) => ends(view, run))),
  ].join("");
}

/** A stretch of cutting at one depth; the first pass is 1. */
interface PassStroke {
  readonly pass: number;
  readonly moves: readonly Motion[];
}

/** The cuts between rapids, in order. */
export function runsOf(motions: readonly Motion[]): readonly (readonly Motion[])[] {
  const runs: Motion[][] = [];
  let open = false;
  for (const motion of motions) {
    if (motion.kind === "rapid") open = false;
    else if (open) runs.at(-1)!.push(motion);
    else {
      runs.push([motion]);
      open = true;
    }
  }
  return runs;
}

/**
 * Which pass each stretch belongs to. Where several passes run over the same line, only the deepest is
 * kept: its weight tells how many there were.
 */
export function strokesOf(runs: readonly (readonly Motion[])[]): readonly PassStroke[] {
  const deepest = new Map<string, number>();
  const passed = runs.flatMap((run) => {
    const levels = levelsOf(run);
    return run.filter(travels).map((move) => ({ move, pass: passAt(levels, move.to.z) }));
  });
  for (const { move, pass } of passed) {
    const key = track(move);
    deepest.set(key, Math.max(deepest.get(key) ?? 0, pass));
  }
  const strokes: { pass: number; moves: Motion[] }[] = [];
  for (const { move, pass } of passed) {
    if (deepest.get(track(move)) !== pass) continue;
    deepest.delete(track(move));
    const last = strokes.at(-1);
    if (last?.pass === pass && meets(last.moves.at(-1)!, move)) last.moves.push(move);
    else strokes.push({ pass, moves: [move] });
  }
  return strokes;
}

/** Weight of a pass's line, mm: 0.18 for the first, heavier by a step for each one below. */
export function passWeight(pass: number): number {
  return 0.18 + 0.14 * (Math.min(pass, 6) - 1);
}

/** Same place, mm: printed coordinates hold three decimals. */
const SAME = 0.002;

/** From arrowhead to arrowhead along a path, mm of paper. */
const ARROW_STEP = 40;

function fromAbove(motion: Motion): Motion {
  const level = motion.arc === null || (motion.arc.plane ?? "XY") === "XY";
  return level ? motion : { ...motion, arc: null };
}

function travels({ from, to, arc }: Motion): boolean {
  return arc !== null || Math.hypot(to.x - from.x, to.y - from.y) > SAME;
}

function meets(a: Motion, b: Motion): boolean {
  return Math.hypot(a.to.x - b.from.x, a.to.y - b.from.y) < SAME;
}

/** Heights at which the run cuts level, from the top. */
function levelsOf(run: readonly Motion[]): readonly number[] {
  const level = run.filter((m) => travels(m) && Math.abs(m.to.z - m.from.z) < SAME).map((m) => m.to.z);
  const sorted = [...level].sort((a, b) => b - a);
  return sorted.filter((z, i) => i === 0 || sorted[i - 1]! - z > SAME);
}

function passAt(levels: readonly number[], z: number): number {
  const at = levels.findIndex((level) => level <= z + SAME);
  return at < 0 ? Math.max(levels.length, 1) : at + 1;
}

/** Names the line on the sheet that a motion runs along, whatever its depth. */
function track({ from, to, arc }: Motion): string {
  const numbers = [from.x, from.y, to.x, to.y, arc?.centre.x, arc?.centre.y, arc?.sweep];
  return numbers.map((v) => (v === undefined ? "" : v.toFixed(2))).join(" ");
}

function rapid(view: View, { from, to }: Motion): Markup {
  return el("path", { d: `M${spot(toPaper(view, from))}L${spot(toPaper(view, to))}` });
}

function cutStroke(view: View, { pass, moves }: PassStroke): Markup {
  const first = toPaper(view, moves[0]!.from);
  const steps = moves.map((move) => pathData(view, [curveOf(move)]).replace(/^M[^LA]*/, ""));
  const path = el("path", { d: `M${spot(first)}${steps.join("")}`, "stroke-width": passWeight(pass) });
  return path + arrowsAlong(view, moves).join("");
}

function curveOf({ from, to, arc }: Motion): Curve {
  const end = { x: to.x, y: to.y, bulge: 0 };
  if (!arc) return { closed: false, vertices: [{ x: from.x, y: from.y, bulge: 0 }, end] };
  const pieces = Math.abs(arc.sweep) > Math.PI ? 3 : 1;
  const bulge = tangentOf(arc.sweep / pieces / 4);
  const vertices = Array.from({ length: pieces }, (_, i) => ({ ...onArc(from, arc, i / pieces), bulge }));
  return { closed: false, vertices: [...vertices, end] };
}

function onArc(from: OnPaper, arc: NonNullable<Motion["arc"]>, share: number): OnPaper {
  const angle = arc.sweep * share;
  const [cos, sin] = [cosine(angle), sine(angle)];
  const [x, y] = [from.x - arc.centre.x, from.y - arc.centre.y];
  return { x: arc.centre.x + x * cos - y * sin, y: arc.centre.y + x * sin + y * cos };
}

/** Where along a motion a share of the way lies, and which way it goes there, in the wood's frame. */
function alongMotion(motion: Motion, share: number): { at: OnPaper; way: OnPaper } {
  const { from, to, arc } = motion;
  if (!arc) {
    const span = Math.hypot(to.x - from.x, to.y - from.y);
    return {
      at: { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share },
      way: { x: (to.x - from.x) / span, y: (to.y - from.y) / span },
    };
  }
  const at = onArc(from, arc, share);
  const radius = Math.hypot(at.x - arc.centre.x, at.y - arc.centre.y);
  const sense = Math.sign(arc.sweep) / radius;
  return { at, way: { x: -(at.y - arc.centre.y) * sense, y: (at.x - arc.centre.x) * sense } };
}

function lengthOfMotion({ from, to, arc }: Motion): number {
  if (!arc) return Math.hypot(to.x - from.x, to.y - from.y);
  return Math.hypot(from.x - arc.centre.x, from.y - arc.centre.y) * Math.abs(arc.sweep);
}

function arrowsAlong(view: View, moves: readonly Motion[]): readonly Markup[] {
  const arrows: Markup[] = [];
  let next = ARROW_STEP / 2;
  let walked = 0;
  for (const move of moves) {
    const span = lengthOfMotion(move) * view.scale;
    for (; next <= walked + span; next += ARROW_STEP) {
      const { at, way } = alongMotion(move, (next - walked) / span);
      arrows.push(arrowhead(toPaper(view, at), { x: way.x, y: -way.y }, 2));
    }
    walked += span;
  }
  return arrows;
}

function ends(view: View, run: readonly Motion[]): readonly Markup[] {
  const entry = toPaper(view, run[0]!.from);
  const circle = el("circle", { cx: entry.x, cy: entry.y, r: 0.7 });
  const last = run.findLast(travels);
  if (!last) return [circle];
  const { at, way } = alongMotion(last, 1);
  const end = toPaper(view, at);
  const side = { x: way.y * 0.9, y: way.x * 0.9 };
  const bar = el("path", {
    d: `M${figure(end.x - side.x)} ${figure(end.y - side.y)}L${figure(end.x + side.x)} ${figure(end.y + side.y)}`,
  });
  return [circle, bar];
}
