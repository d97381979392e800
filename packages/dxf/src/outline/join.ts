import {
  boundsOf,
  type Chains,
  chainLoose,
  contains,
  type Defect,
  defects,
  distance,
  type Loop,
  lengthOf,
  meetings,
  type Path,
  type Point,
  pointAt,
  reversed,
  segments,
  signedArea,
} from "@dryfit/geometry";
import type { DrawnShape, Finding } from "@dryfit/joinery";
import { at, figure, lineOf, type PlacedCurve, type Reading, told } from "./place.ts";

/** Strokes joined end to end, small gaps closed, and judged for what was asked. */
export function joinedUp(
  placed: readonly PlacedCurve[],
  reading: Reading,
  wants: "contours" | "line",
): DrawnShape {
  const curves = placed.map(({ curve }) => curve);
  const exact = chainLoose(curves);
  // Exact joints first: where all is closed so, a stroke shorter than the reach is no gap to be bridged.
  const isWhole = exact.open.length === 0 && exact.forks.length === 0;
  const long = curves.filter((curve) => curve.closed || lengthOf(curve) > JOIN_MM);
  const chains = isWhole ? exact : chainLoose(long, JOIN_MM);
  const near = (p: Point): number => lineOf(placed, p);
  const closed = exact.open.length - chains.open.length;
  const findings: Finding[] = [];
  if (closed > 0)
    findings.push({
      ...told(
        reading.file,
        near(pointAt(exact.open[0]!, 0)),
        "drawing_gap_closed",
        `${closed} ${closed === 1 ? "gap" : "gaps"} of up to ${JOIN_MM} mm between strokes ${closed === 1 ? "was" : "were"} closed, the first ${at(pointAt(exact.open[0]!, 0), reading)}.`,
        "note",
      ),
      numbers: { gaps: closed, most: JOIN_MM },
    });
  for (const fork of chains.forks)
    findings.push({
      ...told(
        reading.file,
        near(fork),
        "drawing_fork",
        `More than two strokes meet ${at(fork, reading)}: nobody can say which belong together.`,
      ),
      wayOut: "Delete what does not belong to the contour.",
    });
  const loops = chains.loops.filter(isNoDust).map((loop) => (signedArea(loop) < 0 ? reversed(loop) : loop));
  const judged =
    wants === "contours"
      ? contourFindings(chains, loops, reading, near)
      : lineFindings(chains, loops, reading, near);
  return { loops, paths: chains.open, findings: [...findings, ...judged] };
}

/** Ends farther apart than float noise but no farther than this are one corner that was drawn carelessly, mm. */
const JOIN_MM = 0.1;

/** The narrowest contour that is cut, mm; less is dust from a drawing program. */
const DUST_MM = 0.1;

/** By its box: one that crosses itself may enclose as much one way as the other. */
function isNoDust(loop: Loop): boolean {
  const { min, max } = boundsOf(loop);
  return Math.min(max.x - min.x, max.y - min.y) > DUST_MM;
}

function contourFindings(
  { open, forks }: Chains,
  loops: readonly Loop[],
  reading: Reading,
  near: (p: Point) => number,
): readonly Finding[] {
  const { file } = reading;
  // Where strokes fork, open ends are the fork's doing.
  const ends = forks.length > 0 ? [] : open;
  return [
    ...ends.map((path): Finding => {
      const [first, last] = [pointAt(path, 0), pointAt(path, lengthOf(path))];
      const gap = distance(first, last);
      return {
        ...told(
          file,
          near(first),
          "drawing_open",
          `The contour that begins ${at(first, reading)} ends ${at(last, reading)}, ${figure(gap)} mm away: it does not close.`,
        ),
        numbers: { line: near(first), gap, most: JOIN_MM },
        wayOut: "Draw the missing stroke, or delete the line.",
      };
    }),
    ...loops.flatMap((loop) => crossings(defects(loop)).map((p) => crossing(p, "itself", reading, near))),
    ...pairs(loops).flatMap(([a, b]) => {
      const [meeting] = meetingsOf(a, b);
      return meeting ? [crossing(meeting, "another contour", reading, near)] : [];
    }),
    ...islands(loops).map(
      (loop): Finding => ({
        ...told(
          file,
          near(pointAt(loop, 0)),
          "drawing_island",
          `The contour ${at(pointAt(loop, 0), reading)} lies within another one: what is between them would fall out in one piece with it.`,
        ),
        wayOut: "Delete one of the two, or break the outer one with bridges of wood.",
      }),
    ),
    ...(loops.length === 0 && open.length === 0 && forks.length === 0
      ? [
          {
            ...told(file, 1, "drawing_empty", `${file} holds no contour.`),
            wayOut: "Draw it as closed lines.",
          },
        ]
      : []),
  ];
}

function lineFindings(
  { open, forks }: Chains,
  loops: readonly Loop[],
  reading: Reading,
  near: (p: Point) => number,
): readonly Finding[] {
  const { file } = reading;
  const [closed] = loops;
  const [line, other] = open;
  return [
    ...(closed
      ? [
          {
            ...told(
              file,
              near(pointAt(closed, 0)),
              "drawing_closed",
              `A crest is one open line from the front rail to the back rail; the contour ${at(pointAt(closed, 0), reading)} is closed.`,
            ),
            wayOut: "Leave the crest alone in the file, or on a layer of its own, and name that.",
          },
        ]
      : []),
    ...(other && forks.length === 0
      ? [
          {
            ...told(
              file,
              near(pointAt(other, 0)),
              "drawing_open",
              `A crest is one line; a second one begins ${at(pointAt(other, 0), reading)}.`,
            ),
            wayOut: "Join the lines, or delete one.",
          },
        ]
      : []),
    ...(line ? selfCrossings(line).map((p) => crossing(p, "itself", reading, near)) : []),
    ...(line || closed || forks.length > 0
      ? []
      : [{ ...told(file, 1, "drawing_empty", `${file} holds no line.`), wayOut: "Draw the crest." }]),
  ];
}

function selfCrossings(path: Path): readonly Point[] {
  const sides = segments(path);
  return sides.flatMap((a, i) => sides.slice(i + 2).flatMap((b) => meetings(a, b))).slice(0, 3);
}

function crossings(found: readonly Defect[]): readonly Point[] {
  return found
    .filter(({ kind }) => kind === "crossing" || kind === "touching")
    .slice(0, 3)
    .map(({ at: p }) => p);
}

function crossing(p: Point, what: string, reading: Reading, near: (p: Point) => number): Finding {
  return {
    ...told(
      reading.file,
      near(p),
      "drawing_crossing",
      `The contour crosses or touches ${what} ${at(p, reading)}.`,
    ),
    wayOut: "Trim it there.",
  };
}

function pairs(loops: readonly Loop[]): readonly (readonly [Loop, Loop])[] {
  return loops.flatMap((a, i) => loops.slice(i + 1).map((b) => [a, b] as const));
}

function meetingsOf(a: Loop, b: Loop): readonly Point[] {
  const [p, q] = [boundsOf(a), boundsOf(b)];
  if (p.min.x > q.max.x || q.min.x > p.max.x || p.min.y > q.max.y || q.min.y > p.max.y) return [];
  for (const s of segments(a))
    for (const t of segments(b)) {
      const found = meetings(s, t);
      if (found.length > 0) return found;
    }
  return [];
}

function islands(loops: readonly Loop[]): readonly Loop[] {
  return loops.filter((loop) =>
    loops.some((other) => {
      if (other === loop || Math.abs(signedArea(other)) <= Math.abs(signedArea(loop))) return false;
      return contains(other, pointAt(loop, 0)) === "inside";
    }),
  );
}
