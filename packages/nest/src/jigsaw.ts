import { arctangent } from "@dryfit/geometry";
import type { Budget } from "./budget.ts";
import { depthOf, type ItemType, type Problem, problemOf } from "./problem.ts";
import { type Ring, ringBounds, turnRing } from "./ring.ts";
import { type Rng, rngFrom } from "./rng.ts";
import type { SheetSpot } from "./sheets.ts";

export interface JigsawJob {
  readonly types: readonly ItemType[];
  readonly items: readonly number[];
  readonly width: number;
  readonly height: number;
  /** How many equal sheets the items fill without waste. */
  readonly sheets: number;
}

/**
 * Items that fill their sheets to the last corner, put together like a jigsaw; null where the budget ran out.
 *
 * Without waste, the lowest free corner leaves no choice of place: whichever item covers it has its own lowest
 * corner there and one edge along the wood below. So only items of that edge's direction are tried, depth first.
 */
export function solveJigsaw(
  job: JigsawJob,
  { seed, budget }: { seed: number; budget: Budget },
): readonly SheetSpot[] | null {
  const { types, items, width, height } = job;
  const bin = { x0: 0, y0: 0, x1: width, y1: height, obstacles: [] };
  const problem = problemOf({ types, items, gap: 0, bins: [bin] });
  const search: Search = {
    job,
    problem,
    tabs: problem.shapes.map((shape) => tabOf(types[shape.type]!, shape.turn)),
    slack: 1e-7 * Math.max(width, height),
    used: new Uint8Array(items.length),
    laid: [],
    steps: 0,
    nodesLeft: 0,
    rng: rngFrom(seed),
  };
  for (let nodes = 500; budget.spent(search.steps) < 1; nodes = Math.min(200_000, nodes * 1.5)) {
    search.nodesLeft = nodes;
    search.laid = [];
    search.used.fill(0);
    if (descend(search, 0, budget))
      return search.laid.map(({ item, sheet, shape, x, y }) => ({
        item,
        sheet,
        turn: problem.shapes[shape]!.turn,
        x,
        y,
      }));
    // Everything was tried: there is no such packing.
    if (search.nodesLeft > 0) return null;
  }
  return null;
}

/** An outline's lowest (then leftmost) corner and the directions of its two edges, first < last. */
interface Tab {
  readonly ring: Ring;
  readonly x: number;
  readonly y: number;
  readonly first: number;
  readonly last: number;
}

interface LaidItem {
  readonly item: number;
  readonly sheet: number;
  readonly shape: number;
  readonly x: number;
  readonly y: number;
}

interface Search {
  readonly job: JigsawJob;
  readonly problem: Problem;
  readonly tabs: readonly Tab[];
  readonly slack: number;
  readonly used: Uint8Array;
  laid: LaidItem[];
  steps: number;
  nodesLeft: number;
  readonly rng: Rng;
}

/** A free corner: the wood around it leaves the directions from `from` to `to`. */
interface Corner {
  readonly x: number;
  readonly y: number;
  readonly from: number;
  readonly to: number;
}

const SAME_ANGLE = 1e-7;

function descend(search: Search, sheet: number, budget: Budget): boolean {
  if (search.laid.length === search.job.items.length) return true;
  const corner = lowestCorner(search, sheet);
  if (!corner) return sheet + 1 < search.job.sheets && descend(search, sheet + 1, budget);
  for (const { item, shape } of candidates(search, corner)) {
    if (search.nodesLeft-- <= 0 || budget.spent(search.steps) >= 1) return false;
    const tab = search.tabs[shape]!;
    const laid = { item, sheet, shape, x: corner.x - tab.x, y: corner.y - tab.y };
    if (!fits(search, laid)) continue;
    search.laid.push(laid);
    search.used[item] = 1;
    if (descend(search, sheet, budget)) return true;
    search.laid.pop();
    search.used[item] = 0;
  }
  return false;
}

/** Items with an edge along the corner's first side, no wider than it; those that fill it exactly come first. */
function candidates(search: Search, corner: Corner): { item: number; shape: number }[] {
  const { job, problem, tabs, used, rng } = search;
  const found: { item: number; shape: number; rank: number }[] = [];
  const seen = new Set<number>();
  for (let item = 0; item < used.length; item++) {
    const type = job.items[item]!;
    if (used[item] || seen.has(type)) continue;
    seen.add(type);
    for (const shape of problem.shapesOf[type]!) {
      const { first, last } = tabs[shape]!;
      if (Math.abs(first - corner.from) > SAME_ANGLE || last > corner.to + SAME_ANGLE) continue;
      const exact = Math.abs(last - corner.to) <= SAME_ANGLE ? 0 : 1;
      found.push({ item, shape, rank: exact + rng() });
    }
  }
  search.steps += found.length;
  return found.sort((a, b) => a.rank - b.rank);
}

function fits({ problem, job, laid, slack }: Search, { sheet, shape, x, y }: LaidItem): boolean {
  const s = problem.shapes[shape]!;
  if (x + s.x0 < -slack || y + s.y0 < -slack || x + s.x1 > job.width + slack || y + s.y1 > job.height + slack)
    return false;
  return laid.every((o) => o.sheet !== sheet || depthOf(problem, o.shape, shape, x - o.x, y - o.y) <= slack);
}

/** The first corner, by height then from the left, that is not all wood or sheet's end around. */
function lowestCorner(search: Search, sheet: number): Corner | null {
  const here = search.laid.filter((o) => o.sheet === sheet);
  const points: [number, number][] = [[0, 0]];
  for (const o of here) {
    const { ring } = search.tabs[o.shape]!;
    for (let k = 0; k < ring.length; k += 2) points.push([ring[k]! + o.x, ring[k + 1]! + o.y]);
  }
  const { slack } = search;
  points.sort((a, b) => (Math.abs(a[1] - b[1]) > slack ? a[1] - b[1] : a[0] - b[0]));
  for (const [x, y] of points) {
    const gap = freeSector(search, here, x, y);
    if (gap) return { x, y, from: gap[0], to: gap[1] };
  }
  return null;
}

/** The first free directions at a point, counter-clockwise from the right; null where there are none. */
function freeSector(
  search: Search,
  here: readonly LaidItem[],
  x: number,
  y: number,
): [number, number] | null {
  const { job, slack } = search;
  const sectors: [number, number][] = [];
  const cover = (from: number, to: number): void => {
    const start = turned(from);
    const end = start + (to - from);
    sectors.push([start, end]);
    if (end > 2 * Math.PI) sectors.push([start - 2 * Math.PI, end - 2 * Math.PI]);
  };
  if (y <= slack) cover(Math.PI, 2 * Math.PI);
  if (y >= job.height - slack) cover(0, Math.PI);
  if (x <= slack) cover(Math.PI / 2, 1.5 * Math.PI);
  if (x >= job.width - slack) cover(-Math.PI / 2, Math.PI / 2);
  for (const o of here) if (coverAt(search.tabs[o.shape]!.ring, x - o.x, y - o.y, slack, cover)) return null;
  sectors.sort((a, b) => a[0] - b[0]);
  let reached = 0;
  for (const [start, end] of sectors) {
    if (start > reached + SAME_ANGLE) return [reached, start];
    reached = Math.max(reached, end);
  }
  return reached < 2 * Math.PI - SAME_ANGLE ? [reached, 2 * Math.PI] : null;
}

/** Covers the directions into a ring from a point on its edge; true where the point lies inside. */
function coverAt(
  ring: Ring,
  x: number,
  y: number,
  slack: number,
  cover: (from: number, to: number) => void,
): boolean {
  const n = ring.length;
  let inside = false;
  for (let k = 0; k < n; k += 2) {
    const [ax, ay] = [ring[k]! - x, ring[k + 1]! - y];
    const [bx, by] = [ring[(k + 2) % n]! - x, ring[(k + 3) % n]! - y];
    const length = Math.hypot(bx - ax, by - ay);
    if (Math.hypot(ax, ay) <= slack) {
      const [px, py] = [ring[(k + n - 2) % n]! - x, ring[(k + n - 1) % n]! - y];
      const out = arctangent(by, bx);
      cover(out, out + turned(arctangent(py, px) - out));
      return false;
    }
    const along = -(ax * (bx - ax) + ay * (by - ay)) / length;
    const off = Math.abs(ax * by - ay * bx) / length;
    if (off <= slack && along > slack && along < length - slack) {
      const direction = arctangent(by - ay, bx - ax);
      cover(direction, direction + Math.PI);
      return false;
    }
    if (ay > 0 !== by > 0 && ax + (ay / (ay - by)) * (bx - ax) > 0) inside = !inside;
  }
  return inside;
}

function tabOf(type: ItemType, turn: number): Tab {
  const ring = turnRing(type.polygon[0]!, type.turns[turn]!);
  const n = ring.length;
  const slack = 1e-9 * Math.max(...ringBounds(ring).map(Math.abs));
  let low = 0;
  for (let k = 2; k < n; k += 2) {
    const dy = ring[k + 1]! - ring[low + 1]!;
    if (dy < -slack || (dy <= slack && ring[k]! < ring[low]!)) low = k;
  }
  const [x, y] = [ring[low]!, ring[low + 1]!];
  const towards = (k: number): number => turned(arctangent(ring[k + 1]! - y, ring[k]! - x));
  return { ring, x, y, first: towards((low + 2) % n), last: towards((low + n - 2) % n) };
}

/** The angle in [0, 2π); a hair below 0 counts as 0. */
function turned(angle: number): number {
  const whole = 2 * Math.PI;
  const positive = ((angle % whole) + whole) % whole;
  return positive > whole - SAME_ANGLE ? 0 : positive;
}
