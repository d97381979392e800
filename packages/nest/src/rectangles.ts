/** A rectangle's least corner and size, mm. */
export interface Rect {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

/** How a free rectangle is judged for a blank: smaller is better. */
export type Fit = "short-side" | "long-side" | "area" | "bottom-left" | "contact";

/** A place for a blank: which of its turns, and its least corner. */
export interface Spot {
  readonly turn: number;
  readonly x: number;
  readonly y: number;
}

/** What a sheet still offers: every largest empty rectangle, and the blanks that bound them. */
export interface FreeSpace {
  readonly w: number;
  readonly h: number;
  free: Rect[];
  used: Rect[];
}

/**
 * The maximal-rectangles method: a sheet is held as all its largest empty rectangles.
 * Source: J. Jylänki, "A thousand ways to pack the bin", 2010; "contact" is its contact-point rule.
 */
export function freeSpace(w: number, h: number, taken: readonly Rect[] = []): FreeSpace {
  const space: FreeSpace = { w, h, free: [{ x: 0, y: 0, w, h }], used: [] };
  for (const rect of taken) occupy(space, rect);
  return space;
}

/** Rectangles closer than this count as touching, mm: float noise of sums at 3 m, far below what we print. */
const SLACK = 1e-7;

/** The best place for a blank of one of these sizes, with its score; null where none fits. */
export function bestSpot(
  space: FreeSpace,
  sizes: readonly (readonly [number, number])[],
  fit: Fit,
): { spot: Spot; score: number; second: number } | null {
  let best: Spot | null = null;
  let bestScore = Infinity;
  let bestSecond = Infinity;
  for (const [turn, [w, h]] of sizes.entries()) {
    for (const free of space.free) {
      if (w > free.w + SLACK || h > free.h + SLACK) continue;
      const [score, second] = judge(space, free, w, h, fit);
      if (score < bestScore || (score === bestScore && second < bestSecond)) {
        best = { turn, x: free.x, y: free.y };
        bestScore = score;
        bestSecond = second;
      }
    }
  }
  return best && { spot: best, score: bestScore, second: bestSecond };
}

/** Takes the rectangle out of the free space. */
export function occupy(space: FreeSpace, rect: Rect): void {
  const kept: Rect[] = [];
  const fresh: Rect[] = [];
  for (const free of space.free) {
    if (!overlaps(free, rect)) {
      kept.push(free);
      continue;
    }
    const right = rect.x + rect.w;
    const top = rect.y + rect.h;
    if (rect.x > free.x + SLACK) fresh.push({ ...free, w: rect.x - free.x });
    if (right < free.x + free.w - SLACK) fresh.push({ ...free, x: right, w: free.x + free.w - right });
    if (rect.y > free.y + SLACK) fresh.push({ ...free, h: rect.y - free.y });
    if (top < free.y + free.h - SLACK) fresh.push({ ...free, y: top, h: free.y + free.h - top });
  }
  const largest = fresh.filter(
    (a, i) =>
      !kept.some((b) => holds(b, a)) &&
      !fresh.some((b, j) => i !== j && holds(b, a) && (!holds(a, b) || j < i)),
  );
  space.free = kept.concat(largest);
  space.used.push(rect);
}

function judge(space: FreeSpace, free: Rect, w: number, h: number, fit: Fit): [number, number] {
  const across = free.w - w;
  const up = free.h - h;
  if (fit === "short-side") return [Math.min(across, up), Math.max(across, up)];
  if (fit === "long-side") return [Math.max(across, up), Math.min(across, up)];
  if (fit === "area") return [free.w * free.h - w * h, Math.min(across, up)];
  if (fit === "bottom-left") return [free.x + w, free.y];
  return [-contactLength(space, free.x, free.y, w, h), Math.min(across, up)];
}

/** How much of the blank's edge would lie on the sheet's edge or on other blanks. */
function contactLength(space: FreeSpace, x: number, y: number, w: number, h: number): number {
  let length = 0;
  if (x <= SLACK) length += h;
  if (y <= SLACK) length += w;
  if (x + w >= space.w - SLACK) length += h;
  if (y + h >= space.h - SLACK) length += w;
  for (const other of space.used) {
    if (Math.abs(other.x + other.w - x) < SLACK || Math.abs(x + w - other.x) < SLACK)
      length += common(other.y, other.y + other.h, y, y + h);
    if (Math.abs(other.y + other.h - y) < SLACK || Math.abs(y + h - other.y) < SLACK)
      length += common(other.x, other.x + other.w, x, x + w);
  }
  return length;
}

function common(a: number, b: number, c: number, d: number): number {
  return Math.max(0, Math.min(b, d) - Math.max(a, c));
}

function overlaps(a: Rect, b: Rect): boolean {
  return (
    a.x < b.x + b.w - SLACK && b.x < a.x + a.w - SLACK && a.y < b.y + b.h - SLACK && b.y < a.y + a.h - SLACK
  );
}

function holds(outer: Rect, inner: Rect): boolean {
  return (
    inner.x >= outer.x - SLACK &&
    inner.y >= outer.y - SLACK &&
    inner.x + inner.w <= outer.x + outer.w + SLACK &&
    inner.y + inner.h <= outer.y + outer.h + SLACK
  );
}
