import { contains, cosine, type Point, type Region, type Segment, sine } from "@dryfit/geometry";
import { nearestOn } from "./gap.ts";

/** The edge of a cutter seen from above; angles on it count from the way ahead, counter-clockwise, to half a turn. */
export interface Rim {
  readonly at: Point;
  /** The direction of the way ahead, radians. */
  readonly ahead: number;
  readonly radius: number;
}

/** A stretch of a rim, radians; `from` is less than `to`. */
export type Stretch = readonly [from: number, to: number];

/** What a round cutter has passed over: everything within `radius` of `path`. */
export interface Swath {
  readonly path: Segment;
  readonly radius: number;
}

/** What of these stretches lies outside a swath. */
export function outsideSwath(rim: Rim, stretches: readonly Stretch[], swath: Swath): readonly Stretch[] {
  const { path, radius } = swath;
  const away = gap(path, rim.at);
  if (away >= rim.radius + radius) return stretches;
  if (away + rim.radius < radius) return [];
  const crossings = [path.from, path.to].flatMap((end) => onCircle(rim, end, radius));
  if (path.kind === "line") crossings.push(...onLine(rim, path, radius), ...onLine(rim, path, -radius));
  else
    for (const round of [path.radius + radius, Math.abs(path.radius - radius)])
      crossings.push(...onCircle(rim, path.centre, round));
  return kept(rim, stretches, crossings, (p) => gap(path, p) >= radius);
}

/** What of these stretches lies in a region. */
export function insideRegion(
  rim: Rim,
  stretches: readonly Stretch[],
  region: Region,
  edges: readonly Segment[],
): readonly Stretch[] {
  const near = edges.filter((edge) => gap(edge, rim.at) <= rim.radius);
  if (near.length === 0) return contains(region, rim.at) === "outside" ? [] : stretches;
  const crossings = near.flatMap((edge) =>
    edge.kind === "line" ? onLine(rim, edge, 0) : onCircle(rim, edge.centre, edge.radius),
  );
  return kept(rim, stretches, crossings, (p) => contains(region, p) === "inside");
}

/** Between two crossings all of a rim lies on one side: its middle tells which. */
function kept(
  rim: Rim,
  stretches: readonly Stretch[],
  crossings: readonly number[],
  keeps: (p: Point) => boolean,
): readonly Stretch[] {
  const sorted = crossings.filter((angle) => !Number.isNaN(angle)).sort((a, b) => a - b);
  const left: [number, number][] = [];
  for (const [from, to] of stretches) {
    const ends = [from, ...sorted.filter((angle) => angle > from && angle < to), to];
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
  const far = Math.hypot(x, y);
  const cosine = (far * far + radius * radius - other * other) / (2 * far * radius);
  return either(Math.atan2(y, x) - ahead, cosine);
}

/** Where the rim meets the line that runs `left` of a segment. */
function onLine({ at, ahead, radius }: Rim, { from, to }: Segment, left: number): readonly number[] {
  const [x, y] = [to.x - from.x, to.y - from.y];
  const length = Math.hypot(x, y);
  const off = ((at.y - from.y) * x - (at.x - from.x) * y) / length;
  return either(Math.atan2(x, -y) - ahead, (left - off) / radius);
}

function either(middle: number, cosine: number): readonly number[] {
  if (!(Math.abs(cosine) < 1)) return [];
  const half = Math.acos(cosine);
  return [wrapped(middle - half), wrapped(middle + half)];
}

function wrapped(angle: number): number {
  return angle - 2 * Math.PI * Math.ceil(angle / (2 * Math.PI) - 0.5);
}

function gap(path: Segment, p: Point): number {
  const on = nearestOn(path, p);
  return Math.hypot(on.x - p.x, on.y - p.y);
}
