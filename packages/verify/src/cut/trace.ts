import { cosine, type Point, type Segment, sine } from "@dryfit/geometry";

/** A segment, with what asking for distances to it again and again needs at hand. */
export interface Trace {
  readonly from: Point;
  readonly to: Point;
  readonly circle: Circle | null;
}

interface Circle {
  readonly centre: Point;
  readonly radius: number;
  /** The direction of the arc's middle, and the cosine of half its sweep: a place beyond is nearest to an end. */
  readonly middle: Point;
  readonly open: number;
}

export function traceOf(path: Segment): Trace {
  const { from, to } = path;
  if (path.kind === "line") return { from, to, circle: null };
  const { centre, radius, sweep } = path;
  const half = Math.min(Math.PI, Math.abs(sweep) / 2);
  const [cos, sin] = [cosine(sweep / 2), sine(sweep / 2)];
  const [x, y] = [(from.x - centre.x) / radius, (from.y - centre.y) / radius];
  const middle = { x: x * cos - y * sin, y: x * sin + y * cos };
  return { from, to, circle: { centre, radius, middle, open: cosine(half) } };
}

/** How far a place is from the nearest of a trace. */
export function traceGap({ from, to, circle }: Trace, p: Point): number {
  if (circle === null) {
    const [x, y] = [to.x - from.x, to.y - from.y];
    const length = x * x + y * y;
    const t = length === 0 ? 0 : ((p.x - from.x) * x + (p.y - from.y) * y) / length;
    const share = Math.max(0, Math.min(1, t));
    return root(from.x + x * share - p.x, from.y + y * share - p.y);
  }
  const { centre, radius, middle, open } = circle;
  const [x, y] = [p.x - centre.x, p.y - centre.y];
  const far = root(x, y);
  if (x * middle.x + y * middle.y >= far * open) return Math.abs(far - radius);
  return Math.min(root(p.x - from.x, p.y - from.y), root(p.x - to.x, p.y - to.y));
}

const root = (x: number, y: number): number => Math.sqrt(x * x + y * y);
