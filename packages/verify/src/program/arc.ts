import { arcsine, arctangent, cosine } from "@dryfit/geometry";
import type { Words } from "./block.ts";
import { AXES_OF, type Axis, type Plane, type Position, type Turn } from "./motion.ts";
import { type Problem, problem } from "./problem.ts";

/** How far start and end radius may differ, mm (NISTIR 6556, 3.5.3: 0.002 mm, 0.0002 inch). */
const MISMATCH_MM = 0.002;
const MISMATCH_INCH_MM = 0.0002 * 25.4;
/** How far half a chord may exceed the radius, as a share (reference interpreter). */
const REACH = 1e-12;
/** Start and end closer than this are one point, mm: float noise of adding offsets, far below any printed digit. */
const SAME_MM = 1e-9;

const OFFSET: Readonly<Record<Axis, "i" | "j" | "k">> = { x: "i", y: "j", z: "k" };

/** What an arc line says, all in mm. */
export interface ArcLine {
  readonly plane: Plane;
  readonly from: Position;
  readonly to: Position;
  readonly clockwise: boolean;
  readonly inch: boolean;
  readonly words: Words;
  readonly mmPerUnit: number;
}

/** The turn that a G2 or G3 line asks for, or why a strict reader refuses it (NISTIR 6556, 3.5.3). */
export function turnOf(arc: ArcLine): Turn | Problem {
  const [u, v, normal] = AXES_OF[arc.plane];
  const { words } = arc;
  if (words[u] === undefined && words[v] === undefined)
    return problem("arc_end_missing", `An arc in ${arc.plane} must name its end in ${u} or ${v}.`);
  const centred = words[OFFSET[u]] !== undefined || words[OFFSET[v]] !== undefined;
  if (words[OFFSET[normal]] !== undefined)
    return problem(
      "arc_mixed_formats",
      `${OFFSET[normal].toUpperCase()} has no meaning in an ${arc.plane} arc.`,
    );
  if (words.r !== undefined && centred)
    return problem("arc_mixed_formats", "An arc is given by R or by its centre, not by both.");
  if (words.r !== undefined) return byRadius(arc, words.r * arc.mmPerUnit);
  if (!centred) return problem("arc_centre_missing", "An arc needs its centre (I, J, K) or a radius R.");
  return byCentre(arc);
}

function byCentre(arc: ArcLine): Turn | Problem {
  const [u, v] = AXES_OF[arc.plane];
  const { from, to, words } = arc;
  const centre = {
    ...from,
    [u]: from[u] + (words[OFFSET[u]] ?? 0) * arc.mmPerUnit,
    [v]: from[v] + (words[OFFSET[v]] ?? 0) * arc.mmPerUnit,
  };
  const start = Math.hypot(from[u] - centre[u], from[v] - centre[v]);
  const end = Math.hypot(to[u] - centre[u], to[v] - centre[v]);
  if (start === 0) return problem("arc_zero_radius", "An arc's centre stands on its start.");
  const mismatch = Math.abs(end - start);
  const most = arc.inch ? MISMATCH_INCH_MM : MISMATCH_MM;
  if (mismatch > most)
    return problem(
      "arc_mismatch",
      `The arc starts ${start.toFixed(4)} mm from its centre and ends ${end.toFixed(4)} mm from it: ` +
        `${mismatch.toFixed(4)} mm apart, at most ${most.toFixed(4)} mm are allowed.`,
      { start, end, mismatch, most },
    );
  return { plane: arc.plane, centre, sweep: sweepOf(arc, centre) };
}

/** A positive radius turns half a turn or less, a negative one more. */
function byRadius(arc: ArcLine, r: number): Turn | Problem {
  const [u, v] = AXES_OF[arc.plane];
  const { from, to } = arc;
  const [du, dv] = [to[u] - from[u], to[v] - from[v]];
  const chord = Math.hypot(du, dv);
  const radius = Math.abs(r);
  if (radius === 0) return problem("arc_zero_radius", "An arc's radius is 0.");
  if (chord <= SAME_MM)
    return problem("arc_end_missing", "An arc by radius must end elsewhere than it starts.");
  if (chord / 2 / radius > 1 + REACH)
    return problem(
      "arc_radius_too_small",
      `Radius ${radius} mm cannot reach an end ${chord.toFixed(4)} mm away.`,
      { radius, chord },
    );
  // The centre stands on the chord's bisector: left of it for a short counter-clockwise or a long clockwise arc.
  const half = arcsine(Math.min(1, chord / 2 / radius));
  const height = radius * cosine(half);
  const left = arc.clockwise === r < 0 ? 1 : -1;
  const centre = {
    ...from,
    [u]: from[u] + du / 2 - (left * height * dv) / chord,
    [v]: from[v] + dv / 2 + (left * height * du) / chord,
  };
  const size = r > 0 ? 2 * half : 2 * (Math.PI - half);
  return { plane: arc.plane, centre, sweep: arc.clockwise ? -size : size };
}

/** An arc that ends where it starts is a full turn. */
function sweepOf({ plane, from, to, clockwise }: ArcLine, centre: Position): number {
  const [u, v] = AXES_OF[plane];
  if (Math.hypot(to[u] - from[u], to[v] - from[v]) <= SAME_MM) return clockwise ? -2 * Math.PI : 2 * Math.PI;
  const start = arctangent(from[v] - centre[v], from[u] - centre[u]);
  const end = arctangent(to[v] - centre[v], to[u] - centre[u]);
  const turn = end - start;
  if (clockwise) return turn >= 0 ? turn - 2 * Math.PI : turn;
  return turn <= 0 ? turn + 2 * Math.PI : turn;
}
