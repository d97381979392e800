import type { Point } from "@dryfit/geometry";
import { type Assembly, caseFromPanel, type Pose } from "@dryfit/joinery";
import type { CutPart } from "@dryfit/verify";
import { runsOn } from "./plane-section.ts";
import { loopsOf } from "./solid-faces.ts";

/** The least air round a lid at an angle, and beside which part. */
export interface Air {
  readonly mm: number;
  readonly part: string;
}

type Hinge = NonNullable<Assembly["hinge"]>;

/** A stretch of wood along x with one section all the way; loops in y (as x) and z (as y), mm of the case. */
interface Bar {
  readonly part: string;
  readonly from: number;
  readonly to: number;
  readonly loops: readonly (readonly Point[])[];
  readonly box: readonly [number, number, number, number];
}

/** A lid and what it swings past, ready to be asked at any angle. */
export interface LidAir {
  /** 1 where the lid lifts by turning from y to z, −1 where the other way round. */
  readonly lift: 1 | -1;
  readonly at: (deg: number) => Air | null;
}

/**
 * The least distance between the hinged parts and all others, as they swing.
 *
 * The axis is parallel to x, so a turn changes no x: two bars are as far apart as their sections are and the
 * gap between them along x. Openings of parts that lie across x count as wood.
 */
export function lidAir(assembly: Assembly, hinge: Hinge, cutParts: readonly CutPart[]): LidAir {
  const bars = cutParts.flatMap((cut) => {
    const pose = assembly.poses[cut.part];
    return pose ? barsOf(cut, pose) : [];
  });
  const lid = bars.filter(({ part }) => hinge.parts.includes(part));
  const rest = bars.filter(({ part }) => !hinge.parts.includes(part));
  const middle = lid.reduce((sum, { box }) => sum + (box[0] + box[2]) / 2, 0) / Math.max(1, lid.length);
  const lift = middle < hinge.axis.y ? -1 : 1;
  return {
    lift,
    at(deg) {
      const turned = lid.map((bar) => turnedBar(bar, hinge, lift * deg));
      const pairs = turned.flatMap((a) =>
        rest.map((b) => {
          const aside = Math.max(0, a.from - b.to, b.from - a.to);
          return { a, b, aside, least: Math.hypot(aside, boxGap(a.box, b.box)) };
        }),
      );
      let best: Air | null = null;
      for (const { a, b, aside, least } of pairs.sort((p, q) => p.least - q.least)) {
        if (best && least >= best.mm) break;
        const mm = Math.hypot(aside, sectionGap(a.loops, b.loops));
        if (!best || mm < best.mm) best = { mm, part: b.part };
      }
      return best;
    },
  };
}

function barsOf(cut: CutPart, pose: Pose): readonly Bar[] {
  const { part, thickness } = cut;
  const at = (x: number, y: number, depth: number) => caseFromPanel(pose, { x, y }, depth, thickness);
  return cut.layers.flatMap(({ from, to, solid }) => {
    if (pose.into[1] === "x") {
      const [a, b] = [at(0, 0, from).x, at(0, 0, to).x];
      return solid.map(({ outer, holes }) =>
        bar(
          part,
          [a, b],
          [outer, ...holes].map(({ vertices }) =>
            vertices.map((v) => {
              const { y, z } = at(v.x, v.y, from);
              return { x: y, y: z };
            }),
          ),
        ),
      );
    }
    const over = pose.x[1] === "x" ? "x" : "y";
    const outers = loopsOf(solid.map(({ outer }) => ({ outer, holes: [] })));
    const spot = (line: number, s: number, depth: number) =>
      over === "x" ? at(line, s, depth) : at(s, line, depth);
    return stretches(outers, over).flatMap(({ ends: [p, q], runs }) =>
      runs.map(([low, high]) => {
        const corners = [spot(p, low, from), spot(p, high, from), spot(p, high, to), spot(p, low, to)];
        return bar(
          part,
          [spot(p, low, from).x, spot(q, low, from).x],
          [corners.map(({ y, z }) => ({ x: y, y: z }))],
        );
      }),
    );
  });
}

interface Stretch {
  readonly ends: readonly [number, number];
  readonly runs: readonly (readonly [number, number])[];
}

/** From corner to corner of the outlines, as wide as the wood is anywhere between; alike neighbours together. */
function stretches(outers: readonly (readonly Point[])[], over: "x" | "y"): readonly Stretch[] {
  const stops = [...new Set(outers.flatMap((loop) => loop.map((p) => p[over])))].sort((a, b) => a - b);
  const found: Stretch[] = [];
  stops.slice(1).forEach((to, i) => {
    const from = stops[i]!;
    if (to - from < 2 * NUDGE_MM) return;
    const [a, b] = [runsOn(outers, over, from + NUDGE_MM), runsOn(outers, over, to - NUDGE_MM)];
    const runs = a.map(([low, high], k): readonly [number, number] => [
      Math.min(low, b[k]?.[0] ?? low),
      Math.max(high, b[k]?.[1] ?? high),
    ]);
    const last = found.at(-1);
    const alike =
      last?.runs.length === runs.length &&
      last.ends[1] >= from - 3 * NUDGE_MM &&
      runs.every((run, k) => run.every((s, e) => Math.abs(s - last.runs[k]![e]!) < ALIKE_MM));
    if (last && alike) found[found.length - 1] = { ends: [last.ends[0], to], runs: last.runs };
    else found.push({ ends: [from, to], runs });
  });
  return found;
}

/** A line this far from a corner passes it, mm. */
const NUDGE_MM = 1e-4;
/** Sections that differ by less are one, mm: a hundredth is the last figure shown. */
const ALIKE_MM = 0.002;

function bar(part: string, [a, b]: readonly [number, number], loops: Bar["loops"]): Bar {
  return { part, from: Math.min(a, b), to: Math.max(a, b), loops, box: boxOf(loops) };
}

function turnedBar(from: Bar, { axis }: Hinge, deg: number): Bar {
  const [sin, cos] = [Math.sin((deg * Math.PI) / 180), Math.cos((deg * Math.PI) / 180)];
  const loops = from.loops.map((loop) =>
    loop.map(({ x, y }) => {
      const [dy, dz] = [x - axis.y, y - axis.z];
      return { x: axis.y + dy * cos - dz * sin, y: axis.z + dy * sin + dz * cos };
    }),
  );
  return { ...from, loops, box: boxOf(loops) };
}

function boxOf(loops: Bar["loops"]): Bar["box"] {
  const points = loops.flat();
  return points.reduce<[number, number, number, number]>(
    ([x0, y0, x1, y1], { x, y }) => [Math.min(x0, x), Math.min(y0, y), Math.max(x1, x), Math.max(y1, y)],
    [Infinity, Infinity, -Infinity, -Infinity],
  );
}

function boxGap(a: Bar["box"], b: Bar["box"]): number {
  return Math.hypot(Math.max(0, a[0] - b[2], b[0] - a[2]), Math.max(0, a[1] - b[3], b[1] - a[3]));
}

/** 0 where the sections share wood. */
function sectionGap(a: Bar["loops"], b: Bar["loops"]): number {
  if (a.some((loop) => isIn(b, loop[0]!)) || b.some((loop) => isIn(a, loop[0]!))) return 0;
  let least = Infinity;
  for (const one of a)
    for (const other of b)
      for (let i = 0; i < one.length; i++)
        for (let k = 0; k < other.length; k++) {
          const gap = chordGap(
            one[i]!,
            one[(i + 1) % one.length]!,
            other[k]!,
            other[(k + 1) % other.length]!,
          );
          if (gap === 0) return 0;
          if (gap < least) least = gap;
        }
  return least;
}

function isIn(loops: Bar["loops"], p: Point): boolean {
  return runsOn(loops, "y", p.y).some(([from, to]) => from < p.x && p.x < to);
}

function chordGap(a: Point, b: Point, c: Point, d: Point): number {
  const side = (p: Point, q: Point, r: Point): number =>
    (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
  if (side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0) return 0;
  return Math.min(toChord(a, c, d), toChord(b, c, d), toChord(c, a, b), toChord(d, a, b));
}

function toChord(p: Point, a: Point, b: Point): number {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const size = dx * dx + dy * dy;
  const t = size === 0 ? 0 : Math.min(1, Math.max(0, ((p.x - a.x) * dx + (p.y - a.y) * dy) / size));
  return Math.hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}
