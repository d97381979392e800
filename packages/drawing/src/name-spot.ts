import { boxOf, type Stroke } from "./notes.ts";
import type { OnPaper } from "./outline.ts";

/** A face as it is seen: its edge, what is cut out of it, and what stands before it. */
export interface SeenFace {
  readonly edge: readonly OnPaper[];
  readonly openings: readonly (readonly OnPaper[])[];
  readonly before: readonly (readonly OnPaper[])[];
}

/**
 * Where a name of `size` stands best on a face: on what is seen of it, clear of lines, near `middle`.
 * `middle` itself where nothing is seen.
 */
export function nameSpot(
  { edge, openings, before }: SeenFace,
  strokes: readonly Stroke[],
  middle: OnPaper,
  name: string,
  size: number,
): OnPaper {
  const { max: half } = boxOf({ lines: [name], size, named: true }, { x: 0, y: 0 });
  const near = strokesNear(edge, strokes, half);
  const seen = gridOver(edge)
    .map((p) => ({ p, far: Math.hypot(p.x - middle.x, p.y - middle.y) }))
    .sort((a, b) => a.far - b.far);
  let best = { p: middle, worth: Number.NEGATIVE_INFINITY };
  for (const { p, far } of seen) {
    // The farther ones cannot be worth more.
    if (ROOM_WORTH - far <= best.worth) break;
    if (!isInside(edge, p) || [...openings, ...before].some((one) => isInside(one, p))) continue;
    let room = 1;
    for (const stroke of near) {
      room = Math.min(room, reach(p, stroke, half));
      if (room * ROOM_WORTH - far <= best.worth) break;
    }
    const worth = room * ROOM_WORTH - far;
    if (worth > best.worth) best = { p, worth };
  }
  return best.p;
}

/** So far, mm of paper, a name goes for a place that is clear of lines. */
const ROOM_WORTH = 60;

const ACROSS = 24;
const UP = 16;

/** Those that can come into the way of a name on the face. */
function strokesNear(edge: readonly OnPaper[], strokes: readonly Stroke[], half: OnPaper): readonly Stroke[] {
  const { left, low, wide, tall } = boxRound(edge);
  const [dx, dy] = [1.5 * half.x, 1.5 * half.y];
  return strokes.filter(
    ([a, b]) =>
      Math.max(a.x, b.x) > left - dx &&
      Math.min(a.x, b.x) < left + wide + dx &&
      Math.max(a.y, b.y) > low - dy &&
      Math.min(a.y, b.y) < low + tall + dy,
  );
}

function boxRound(points: readonly OnPaper[]) {
  const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)];
  const [left, low] = [Math.min(...xs), Math.min(...ys)];
  return { left, low, wide: Math.max(...xs) - left, tall: Math.max(...ys) - low };
}

function gridOver(points: readonly OnPaper[]): readonly OnPaper[] {
  const { left, low, wide, tall } = boxRound(points);
  return Array.from({ length: ACROSS * UP }, (_, i) => ({
    x: left + (wide * ((i % ACROSS) + 0.5)) / ACROSS,
    y: low + (tall * (Math.floor(i / ACROSS) + 0.5)) / UP,
  }));
}

/** How near the stroke comes, in half sizes of the name: less than 1 is in its way. */
function reach(p: OnPaper, [a, b]: Stroke, half: OnPaper): number {
  const [ax, ay] = [(a.x - p.x) / half.x, (a.y - p.y) / half.y];
  const [dx, dy] = [(b.x - a.x) / half.x, (b.y - a.y) / half.y];
  const long = dx * dx + dy * dy;
  const t = long === 0 ? 0 : Math.min(1, Math.max(0, -(ax * dx + ay * dy) / long));
  // The corner of a box is farther out than its sides.
  return Math.hypot(ax + t * dx, ay + t * dy) / CORNER;
}

/** Clears both well enough. */
const CORNER = 1.25;

function isInside(points: readonly OnPaper[], { x, y }: OnPaper): boolean {
  let inside = false;
  for (let i = 0, j = points.length - 1; i < points.length; j = i++) {
    const [a, b] = [points[i]!, points[j]!];
    if (a.y > y !== b.y > y && x < a.x + ((b.x - a.x) * (y - a.y)) / (b.y - a.y)) inside = !inside;
  }
  return inside;
}
