import { arctangent, cosine, sine } from "@dryfit/geometry";
/** A position of the cutter's tip in the program's own frame, mm. */
export interface Position {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

export type Plane = "XY" | "XZ" | "YZ";

/** How an arc bends: `centre` shares the start's place along the plane's normal. `sweep` up to a full turn. */
export interface Turn {
  readonly plane: Plane;
  readonly centre: Position;
  /** Radians, signed: positive is counter-clockwise seen from the positive end of the plane's normal. */
  readonly sweep: number;
}

/** One straight or circular travel of the cutter, as the controller carries it out. */
export interface Motion {
  /** The program line that asks for it, from 1. */
  readonly line: number;
  readonly kind: "rapid" | "feed";
  readonly from: Position;
  readonly to: Position;
  /** Null where the travel is straight. An arc that also moves along the plane's normal is a helix. */
  readonly arc: Turn | null;
  /** mm/min along the path; 0 for a rapid. */
  readonly feed: number;
  readonly spindle: "off" | "cw" | "ccw";
  /** 0 where the spindle is off. */
  readonly rpm: number;
  /** The number in the spindle; 0 where the program never says. */
  readonly cutter: number;
}

/** The axes of a plane in right-handed order: first, second, normal (NISTIR 6556, 3.5.2). */
export const AXES_OF: Readonly<Record<Plane, readonly [Axis, Axis, Axis]>> = {
  XY: ["x", "y", "z"],
  XZ: ["z", "x", "y"],
  YZ: ["y", "z", "x"],
};

export type Axis = "x" | "y" | "z";

type Shape = Pick<Motion, "from" | "to" | "arc">;

export function lengthOfMotion(motion: Shape): number {
  const { from, to, arc } = motion;
  if (arc === null) return Math.hypot(to.x - from.x, to.y - from.y, to.z - from.z);
  const normal = AXES_OF[arc.plane][2];
  return Math.hypot(Math.abs(arc.sweep) * radiusOf(motion), to[normal] - from[normal]);
}

/** Minutes at the programmed feed, without acceleration. A rapid has no programmed feed: NaN. */
export function minutesOf(motion: Motion): number {
  return motion.kind === "rapid" ? Number.NaN : lengthOfMotion(motion) / motion.feed;
}

/** The radius at an arc's start, mm; 0 for a straight travel. */
export function radiusOf({ from, arc }: Shape): number {
  if (arc === null) return 0;
  const [u, v] = AXES_OF[arc.plane];
  return Math.hypot(from[u] - arc.centre[u], from[v] - arc.centre[v]);
}

/** Where the tip is after a share `t` of the travel. Exact at both ends. */
export function positionAt(motion: Motion, t: number): Position {
  const { from, to, arc } = motion;
  if (t <= 0) return from;
  if (t >= 1) return to;
  const straight = {
    x: from.x + (to.x - from.x) * t,
    y: from.y + (to.y - from.y) * t,
    z: from.z + (to.z - from.z) * t,
  };
  if (arc === null) return straight;
  const [u, v] = AXES_OF[arc.plane];
  const [cu, cv] = [arc.centre[u], arc.centre[v]];
  const start = Math.hypot(from[u] - cu, from[v] - cv);
  const end = Math.hypot(to[u] - cu, to[v] - cv);
  // A small disagreement between the radii is spread along the arc, as a controller does.
  const radius = start + (end - start) * t;
  const angle = arctangent(from[v] - cv, from[u] - cu) + arc.sweep * t;
  return { ...straight, [u]: cu + radius * cosine(angle), [v]: cv + radius * sine(angle) };
}

/** The box that the tip travels in, arcs' bulges included. */
export function extentsOf(motion: Motion): { readonly min: Position; readonly max: Position } {
  const { from, to, arc } = motion;
  if (arc === null)
    return {
      min: { x: Math.min(from.x, to.x), y: Math.min(from.y, to.y), z: Math.min(from.z, to.z) },
      max: { x: Math.max(from.x, to.x), y: Math.max(from.y, to.y), z: Math.max(from.z, to.z) },
    };
  const corners = [from, to, ...quadrantsOf(motion)];
  const least = (axis: Axis) => Math.min(...corners.map((c) => c[axis]));
  const most = (axis: Axis) => Math.max(...corners.map((c) => c[axis]));
  return {
    min: { x: least("x"), y: least("y"), z: least("z") },
    max: { x: most("x"), y: most("y"), z: most("z") },
  };
}

/** Where an arc stands farthest along an axis of its plane. */
function quadrantsOf(motion: Motion): Position[] {
  const { from, arc } = motion;
  if (arc === null) return [];
  const [u, v] = AXES_OF[arc.plane];
  const start = arctangent(from[v] - arc.centre[v], from[u] - arc.centre[u]);
  const found: Position[] = [];
  const quarter = Math.PI / 2;
  const [low, high] = arc.sweep > 0 ? [start, start + arc.sweep] : [start + arc.sweep, start];
  for (let k = Math.ceil(low / quarter); k * quarter <= high; k++)
    found.push(positionAt(motion, (k * quarter - start) / arc.sweep));
  return found;
}
