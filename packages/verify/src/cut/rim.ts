import { arccosine, arctangent, cosine, type Point, sine } from "@dryfit/geometry";
import { type Trace, traceGap } from "./trace.ts";

/** The edge of a cutter seen from above; angles on it count from the way ahead, counter-clockwise, to half a turn. */
export interface Rim {
  readonly at: Point;
  /** The direction of the way ahead, radians. */
  readonly ahead: number;
  readonly radius: number;
}

/** A stretch of a rim, radians; `from` is less than `to`. */
export type Stretch = readonly [from: number, to: number];

/** What of these stretches lies farther than `reach` from all traces: where a cutter of that radius has not been. */
export function outsideTraces(
  rim: Rim,
  stretches: readonly Stretch[],
  traces: readonly Trace[],
  reach: number,
): readonly Stretch[] {
  let left = stretches.map((stretch) => spanOf(rim, stretch));
  for (const trace of traces) {
    if (left.every(({ middle, half }) => traceGap(trace, middle) > reach + half)) continue;
    const { from, to, circle } = trace;
    const crossings = [...onCircle(rim, from, reach), ...onCircle(rim, to, reach)];
    if (circle === null) crossings.push(...onLine(rim, from, to, reach), ...onLine(rim, from, to, -reach));
    else
      for (const round of [circle.radius + reach, Math.abs(circle.radius - reach)])
        crossings.push(...onCircle(rim, circle.centre, round));
    const open = left.map(({ stretch }) => stretch);
    left = kept(rim, open, crossings, (p) => traceGap(trace, p) >= reach).map((one) => spanOf(rim, one));
    if (left.length === 0) break;
  }
  return left.map(({ stretch }) => stretch);
}

/** A stretch with its middle, and how far it reaches from there. */
function spanOf(
  rim: Rim,
  stretch: Stretch,
): { readonly stretch: Stretch; readonly middle: Point; readonly half: number } {
  const [from, to] = stretch;
  const half = 2 * rim.radius * sine(Math.min(Math.PI, (to - from) / 2) / 2);
  return { stretch, middle: pointOn(rim, (from + to) / 2), half };
}

/** What of these stretches lies on one side of edges: `keeps` tells of which. */
export function besideEdges(
  rim: Rim,
  stretches: readonly Stretch[],
  edges: readonly Trace[],
  keeps: (p: Point) => boolean,
): readonly Stretch[] {
  const crossings = edges
    .filter((edge) => traceGap(edge, rim.at) <= rim.radius)
    .flatMap(({ from, to, circle }) =>
      circle === null ? onLine(rim, from, to, 0) : onCircle(rim, circle.centre, circle.radius),
    );
  return kept(rim, stretches, crossings, keeps);
}

/** Between two crossings all of a rim lies on one side: its middle tells which. */
function kept(
  rim: Rim,
  stretches: readonly Stretch[],
  crossings: readonly number[],
  keeps: (p: Point) => boolean,
): readonly Stretch[] {
  const left: [number, number][] = [];
  for (const [from, to] of stretches) {
    const ends = [from, ...crossings.filter((angle) => angle > from && angle < to).sort((a, b) => a - b), to];
    for (let i = 1; i < ends.length; i++) {
      const [a, b] = [ends[i - 1]!, ends[i]!];
      if (b - a < NO_ANGLE || !keeps(pointOn(rim, (a + b) / 2))) continue;
      const last = left.at(-1);
      if (last !== undefined && last[1] === a) last[1] = b;
      else left.push([a, b]);
    }
  }
  return left;
}

/** A stretch of less is float noise, radians. */
const NO_ANGLE = 1e-7;

function pointOn({ at, ahead, radius }: Rim, angle: number): Point {
  return { x: at.x + radius * cosine(ahead + angle), y: at.y + radius * sine(ahead + angle) };
}

/** Where the rim meets a circle. */
function onCircle({ at, ahead, radius }: Rim, centre: Point, other: number): readonly number[] {
  const [x, y] = [centre.x - at.x, centre.y - at.y];
  const away = x * x + y * y;
  const far = Math.sqrt(away);
  return either((away + radius * radius - other * other) / (2 * far * radius), x, y, ahead);
}

/** Where the rim meets the line that runs `left` of another. */
function onLine({ at, ahead, radius }: Rim, from: Point, to: Point, left: number): readonly number[] {
  const [x, y] = [to.x - from.x, to.y - from.y];
  const length = Math.sqrt(x * x + y * y);
  const off = ((at.y - from.y) * x - (at.x - from.x) * y) / length;
  return either((left - off) / radius, -y, x, ahead);
}

/** To both sides of the direction (x, y), as far as the cosine says. */
function either(share: number, x: number, y: number, ahead: number): readonly number[] {
  if (!(Math.abs(share) < 1)) return [];
  const middle = arctangent(y, x) - ahead;
  const half = arccosine(share);
  return [wrapped(middle - half), wrapped(middle + half)];
}

function wrapped(angle: number): number {
  return angle - 2 * Math.PI * Math.ceil(angle / (2 * Math.PI) - 0.5);
}
