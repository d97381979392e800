import {
  along,
  arctangent,
  cosine,
  directionAt,
  distance,
  type Point,
  type Region,
  type Segment,
  segmentLength,
  segments,
  sine,
} from "@dryfit/geometry";
import type { Disc } from "./clear-discs.ts";

/** A region's middle lines: largest discs within it, in chains that grow from a root. */
export interface Skeleton {
  readonly root: Disc;
  /** Each starts at the root or on a chain before it; the discs of a chain follow each other closely. */
  readonly chains: readonly (readonly Disc[])[];
  /** How far a place within the region is from its boundary. */
  readonly clearance: (p: Point) => number;
}

/**
 * The middle lines of a region: for places `spacing` apart along its boundary, the largest disc within that touches it
 * there. Neighbours along the boundary, and the two sides that one disc touches, are joined to a net; its shortest
 * ways from the root are the chains. The root is as roomy as any place and lies at one end of the region.
 */
export function skeletonOf(region: Region, spacing: number): Skeleton {
  const edges = [region.outer, ...region.holes].map((loop) => segments(loop));
  const all = edges.flat();
  const round = all.reduce((sum, edge) => sum + segmentLength(edge), 0);
  const step = Math.max(spacing, round / MOST_PLACES);
  const touches = edges.flatMap((loop, k) => touchesOf(loop, k, step));
  const balls = touches.map((touch) => largestAt(touch, all, round));
  const links = linksOf(touches, balls, all, edges);
  const widest = balls.reduce((best, ball, i) => (ball.radius > balls[best]!.radius ? i : best), 0);
  const from = shortestWays(balls, links, widest);
  const roomy = balls.flatMap((ball, i) => (ball.radius >= ROOMY * balls[widest]!.radius ? [i] : []));
  const root = roomy.reduce((best, i) => (from.way[i]! > from.way[best]! + step ? i : best), widest);
  const { parent, way } = shortestWays(balls, links, root);
  return {
    root: balls[root]!,
    chains: chainsFrom(root, balls, parent, way),
    clearance: (p) => nearestTo(all, p).distance,
  };
}

/** At most so many places along the boundary are looked at. */
const MOST_PLACES = 2500;

/** A disc of this share of the largest is as good to start in. */
const ROOMY = 0.97;

/** A place on the boundary and the way in from there; of a sharp corner that holds no disc, null. */
interface Touch {
  readonly at: Point;
  readonly inward: Point | null;
  readonly loop: number;
  readonly edge: number;
}

function touchesOf(loop: readonly Segment[], k: number, step: number): Touch[] {
  return loop.flatMap((edge, i) => {
    const before = directionAt(loop[(i + loop.length - 1) % loop.length]!, 1);
    const first = directionAt(edge, 0);
    const turn = arctangent(before.x * first.y - before.y * first.x, before.x * first.x + before.y * first.y);
    const many = Math.max(2, Math.ceil(segmentLength(edge) / step));
    const own = Array.from(
      { length: many },
      (_, j): Touch => ({
        at: along(edge, j / many),
        inward: j === 0 && turn > SHARP ? null : leftOf(directionAt(edge, j / many)),
        loop: k,
        edge: i,
      }),
    );
    // Round a corner that juts in, discs touch it under every direction.
    const fan = turn < -SHARP ? Math.ceil(-turn / FAN) : 0;
    const about = Array.from({ length: fan }, (_, j): Touch => {
      const angle = turn * (j / fan);
      const [cos, sin] = [cosine(angle), sine(angle)];
      const ahead = { x: before.x * cos - before.y * sin, y: before.x * sin + before.y * cos };
      return { at: edge.from, inward: leftOf(ahead), loop: k, edge: i };
    });
    return [...about, ...own];
  });
}

/** Less is no corner, radians. */
const SHARP = 1e-3;
const FAN = Math.PI / 12;

/** The largest disc within that touches the boundary at a place: shrunk until nothing is nearer to its middle. */
function largestAt({ at, inward }: Touch, edges: readonly Segment[], most: number): Disc {
  if (inward === null) return { at, radius: 0 };
  let radius = most;
  for (let i = 0; i < MOST_SHRINKS; i++) {
    const middle = { x: at.x + inward.x * radius, y: at.y + inward.y * radius };
    const near = nearestTo(edges, middle);
    if (near.distance >= radius - CLOSE_MM) return { at: middle, radius: Math.min(radius, near.distance) };
    const [x, y] = [near.at.x - at.x, near.at.y - at.y];
    const ahead = x * inward.x + y * inward.y;
    const next = ahead > 0 ? (x * x + y * y) / (2 * ahead) : 0;
    if (!(next < radius)) break;
    radius = next;
  }
  return { at: { x: at.x + inward.x * radius, y: at.y + inward.y * radius }, radius };
}

const MOST_SHRINKS = 40;
const CLOSE_MM = 1e-6;

type Links = readonly (readonly number[])[];

function linksOf(
  touches: readonly Touch[],
  balls: readonly Disc[],
  all: readonly Segment[],
  loops: readonly (readonly Segment[])[],
): Links {
  const links: number[][] = touches.map(() => []);
  const join = (a: number, b: number): void => {
    if (a === b) return;
    links[a]!.push(b);
    links[b]!.push(a);
  };
  const first = loops.map((_, k) => touches.findIndex(({ loop }) => loop === k));
  const after = (i: number): number => {
    const { loop } = touches[i]!;
    return touches[i + 1]?.loop === loop ? i + 1 : first[loop]!;
  };
  const ofEdge = new Map<Segment, number[]>();
  const nearestTouch = (edge: Segment, on: Point, otherwise: number): number => {
    const others = ofEdge.get(edge) ?? [otherwise];
    const far = (k: number): number => distance(touches[others[k]!]!.at, on);
    // They lie along the edge in order, so the nearest is where they begin to lie farther.
    let [low, high] = [0, others.length - 1];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (far(middle) <= far(middle + 1)) high = middle;
      else low = middle + 1;
    }
    return others[low]!;
  };
  touches.forEach(({ loop, edge }, i) => {
    const next = after(i);
    // A sharp corner is an end, no way through: it hangs on the larger of its neighbours.
    const before = touches[i - 1]?.loop === loop ? i - 1 : touches.findLastIndex((one) => one.loop === loop);
    if (touches[i]!.inward === null) join(i, balls[before]!.radius > balls[next]!.radius ? before : next);
    else if (touches[next]!.inward !== null) join(i, next);
    const key = loops[loop]![edge]!;
    if (touches[i]!.inward !== null) ofEdge.set(key, [...(ofEdge.get(key) ?? []), i]);
  });
  balls.forEach((ball, i) => {
    if (ball.radius < CLOSE_MM) return;
    // The other side that this disc touches: the nearest edge's place that is not about its own.
    for (const edge of all) {
      const on = nearestOn(edge, ball.at);
      if (distance(on, ball.at) > ball.radius + TOUCH_MM || distance(on, touches[i]!.at) < ball.radius / 2)
        continue;
      join(i, nearestTouch(edge, on, i));
    }
  });
  return links;
}

/** A disc touches what is this close, mm. */
const TOUCH_MM = 1e-4;

/** From one disc to all others, along links: the disc before each, and the way. */
function shortestWays(
  balls: readonly Disc[],
  links: Links,
  root: number,
): { readonly parent: readonly number[]; readonly way: readonly number[] } {
  const parent = balls.map(() => -1);
  const way = balls.map(() => Number.POSITIVE_INFINITY);
  const open = new Set([root]);
  way[root] = 0;
  while (open.size > 0) {
    let at = -1;
    for (const i of open) if (at < 0 || way[i]! < way[at]!) at = i;
    open.delete(at);
    for (const next of links[at]!) {
      const far = way[at]! + distance(balls[at]!.at, balls[next]!.at);
      if (far >= way[next]! - CLOSE_MM) continue;
      way[next] = far;
      parent[next] = at;
      open.add(next);
    }
  }
  return { parent, way };
}

/** The tree's longest way first, then the branches beside it, from its end back. */
function chainsFrom(
  root: number,
  balls: readonly Disc[],
  parent: readonly number[],
  way: readonly number[],
): (readonly Disc[])[] {
  const children: number[][] = balls.map(() => []);
  parent.forEach((p, i) => {
    if (p >= 0) children[p]!.push(i);
  });
  const farthest = way.map((far) => (Number.isFinite(far) ? far : 0));
  const byWay = [...way.keys()].filter((i) => Number.isFinite(way[i]!)).sort((a, b) => way[b]! - way[a]!);
  for (const i of byWay)
    if (parent[i]! >= 0) farthest[parent[i]!] = Math.max(farthest[parent[i]!]!, farthest[i]!);
  const chains: (readonly Disc[])[] = [];
  const visit = (from: readonly number[]): void => {
    const chain = [...from];
    for (let at = chain.at(-1)!; children[at]!.length > 0; ) {
      at = children[at]!.reduce((best, i) => (farthest[i]! > farthest[best]! ? i : best));
      chain.push(at);
    }
    chains.push(chain.map((i) => balls[i]!));
    for (let k = chain.length - 2; k >= from.length - 1; k--)
      for (const child of children[chain[k]!]!) if (child !== chain[k + 1]) visit([chain[k]!, child]);
  };
  visit([root]);
  return chains;
}

function nearestTo(edges: readonly Segment[], p: Point): { readonly at: Point; readonly distance: number } {
  let [at, best] = [p, Number.POSITIVE_INFINITY];
  for (const edge of edges) {
    const on = nearestOn(edge, p);
    const far = Math.hypot(on.x - p.x, on.y - p.y);
    if (far < best) [at, best] = [on, far];
  }
  return { at, distance: best };
}

function nearestOn(edge: Segment, p: Point): Point {
  const { from, to } = edge;
  if (edge.kind === "line") {
    const [x, y] = [to.x - from.x, to.y - from.y];
    const t = Math.max(0, Math.min(1, ((p.x - from.x) * x + (p.y - from.y) * y) / (x * x + y * y)));
    return { x: from.x + x * t, y: from.y + y * t };
  }
  const { centre, radius, sweep } = edge;
  const [x, y] = [p.x - centre.x, p.y - centre.y];
  const [ax, ay] = [from.x - centre.x, from.y - centre.y];
  const turn = arctangent(ax * y - ay * x, ax * x + ay * y) * Math.sign(sweep);
  const far = Math.hypot(x, y);
  if (far > 0 && (turn < 0 ? turn + 2 * Math.PI : turn) <= Math.abs(sweep))
    return { x: centre.x + (x * radius) / far, y: centre.y + (y * radius) / far };
  return distance(p, from) <= distance(p, to) ? from : to;
}

const leftOf = ({ x, y }: Point): Point => ({ x: -y, y: x });
