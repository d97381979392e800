import {
  arccosine,
  arctangent,
  type Curve,
  cosine,
  FLATTENING_MM,
  type Path,
  type Placement,
  type Point,
  pathOf,
  place,
  placement,
  SAME_POINT_MM,
  type Segment,
  sine,
} from "@dryfit/geometry";
import type { Face } from "@dryfit/joinery";
import { lengthOfMotion, type Motion, type Position, positionAt } from "../program/motion.ts";
import type { CutterFacts, ProgramFile } from "../proof.ts";

/**
 * One feed motion of a cylindrical cutter, laid on the sheet: where its axis goes in plan, and how high its tip.
 * A plunge is a line of no length.
 */
export interface Stroke<Frame extends string = "sheet"> {
  readonly program: ProgramFile;
  /** Which of the program's motions it is, from 0. */
  readonly index: number;
  readonly line: number;
  readonly cutter: CutterFacts;
  readonly radius: number;
  readonly path: Segment<Frame>;
  /** The tip's z at both ends, in the program's own zero. It changes evenly along the path. */
  readonly z: readonly [start: number, end: number];
}

/** How a sheet is turned over, as `JobToProve.flips` says it. */
export interface Turnover {
  readonly axis: "x" | "y";
  readonly at: number;
}

/** Where a place of the program lies on the sheet: the same in setup A, mirrored about the flip's line in B. */
export function sheetFromMachine(face: Face, flip: Turnover | undefined): Placement<"sheet", "machine"> {
  if (face === "A" || flip === undefined) return placement({ x: 0, y: 0 });
  return flip.axis === "y"
    ? placement({ x: 2 * flip.at, y: 0 }, { flip: true })
    : placement({ x: 0, y: 2 * flip.at }, { flip: true, quarters: 2 });
}

export function strokesOf(
  program: ProgramFile,
  motions: readonly Motion[],
  cutterOf: (motion: Motion) => CutterFacts,
  flip: Turnover | undefined,
): Stroke[] {
  const toSheet = sheetFromMachine(program.setup, flip);
  return motions.flatMap((motion, index) => {
    if (motion.kind === "rapid") return [];
    const cutter = cutterOf(motion);
    const radius = cutter.diameter / 2;
    return flatPieces(motion).map(
      ({ path, z }): Stroke => ({
        program,
        index,
        line: motion.line,
        cutter,
        radius,
        path: placeSegment(toSheet, path),
        // A plunge has been as low as its lower end.
        z: path.kind === "line" && same(path.from, path.to) ? [Math.min(...z), Math.min(...z)] : z,
      }),
    );
  });
}

/**
 * The depth of a tip at height `z` below face A of a sheet that is `thickness` thick, mm.
 * With the bed as zero what is left under a cut is constant; with the top as zero its depth is.
 */
export function depthOf({ setup, zZero }: ProgramFile, z: number, thickness: number): number {
  if (setup === "A") return zZero === "bed" ? thickness - z : -z;
  return zZero === "bed" ? z : thickness + z;
}

export function placeSegment<To extends string, From extends string>(
  toFrom: Placement<To, From>,
  s: Segment<NoInfer<From>>,
): Segment<To> {
  const ends = { from: place(toFrom, s.from), to: place(toFrom, s.to) };
  if (s.kind === "line") return { kind: "line", ...ends };
  return { ...s, ...ends, centre: place(toFrom, s.centre), sweep: toFrom.flip ? -s.sweep : s.sweep };
}

/** The part of a stroke between two shares of its way. */
export function pieceOf<F extends string>(path: Segment<F>, from: number, to: number): Segment<F> {
  if (from <= 0 && to >= 1) return path;
  const ends = { from: pointOn(path, from), to: pointOn(path, to) };
  return path.kind === "line" ? { ...path, ...ends } : { ...path, ...ends, sweep: path.sweep * (to - from) };
}

export function pointOn<F extends string>(path: Segment<F>, t: number): Point<F> {
  if (t <= 0) return path.from;
  if (t >= 1) return path.to;
  if (path.kind === "line")
    return {
      x: path.from.x + (path.to.x - path.from.x) * t,
      y: path.from.y + (path.to.y - path.from.y) * t,
    };
  const angle = arctangent(path.from.y - path.centre.y, path.from.x - path.centre.x) + path.sweep * t;
  return {
    x: path.centre.x + path.radius * cosine(angle),
    y: path.centre.y + path.radius * sine(angle),
  };
}

/** Segments in order, joined to curves wherever one starts where the last ended. */
export function chains<F extends string>(list: readonly Segment<F>[]): Curve<F>[] {
  const found: Segment<F>[][] = [];
  for (const s of list) {
    const end = found.at(-1)?.at(-1)?.to;
    if (end !== undefined && same(end, s.from)) found.at(-1)!.push(s);
    else found.push([s]);
  }
  return found.map((run): Path<F> => {
    const moving = run.filter((s) => s.kind === "arc" || !same(s.from, s.to));
    const [{ from }] = run as [Segment<F>];
    return moving.length > 0 ? pathOf(moving) : { closed: false, vertices: [{ ...from, bulge: 0 }] };
  });
}

function same(a: Point, b: Point): boolean {
  return Math.abs(a.x - b.x) <= SAME_POINT_MM && Math.abs(a.y - b.y) <= SAME_POINT_MM;
}

/** A stretch of a motion in plan, and how high its tip is at both ends. */
export interface FlatPiece {
  readonly path: Segment<"machine">;
  readonly z: readonly [number, number];
}

/** A motion in plan. An arc that stands upright becomes short lines. */
export function flatPieces(motion: Motion): FlatPiece[] {
  const { from, to, arc } = motion;
  const flat = ({ x, y }: Position): Point<"machine"> => ({ x, y });
  if (arc === null) return [{ path: { kind: "line", from: flat(from), to: flat(to) }, z: [from.z, to.z] }];
  const centre = flat(arc.centre);
  if (arc.plane === "XY") {
    const radius = Math.hypot(from.x - centre.x, from.y - centre.y);
    const path = { kind: "arc", from: flat(from), to: flat(to), centre, radius, sweep: arc.sweep } as const;
    return [{ path, z: [from.z, to.z] }];
  }
  const radius = lengthOfMotion(motion) / Math.abs(arc.sweep);
  const step = 2 * arccosine(Math.max(0, 1 - FLATTENING_MM / Math.max(radius, FLATTENING_MM)));
  const count = Math.ceil(Math.abs(arc.sweep) / step);
  return Array.from({ length: count }, (_, i) => {
    const [a, b] = [positionAt(motion, i / count), positionAt(motion, (i + 1) / count)];
    return { path: { kind: "line", from: flat(a), to: flat(b) }, z: [a.z, b.z] };
  });
}
