import type { Budget } from "./budget.ts";
import type { Rng } from "./rng.ts";
import type { StripBox, StripSpot } from "./skyline.ts";

/**
 * Rectangles that fill a strip of this width and length without waste; null where the budget ran out, or where there
 * is no such packing. Without waste, the lowest notch's near corner belongs to some rectangle: all are tried there,
 * depth first, those that level with the notch first; again and again in another order, with more patience each time.
 */
export function perfectStrip(
  boxes: readonly StripBox[],
  width: number,
  length: number,
  rng: Rng,
  budget: Budget,
): readonly StripSpot[] | null {
  const search: Search = {
    boxes,
    length,
    slack: 1e-9 * (width + length),
    rng,
    budget,
    spots: new Array<StripSpot>(boxes.length),
    used: new Uint8Array(boxes.length),
    left: boxes.length,
    steps: 0,
    nodesLeft: 0,
  };
  for (let nodes = 300; budget.spent(search.steps) < 1; nodes = Math.min(100_000, nodes * 1.3)) {
    search.nodesLeft = nodes;
    search.left = boxes.length;
    search.used.fill(0);
    if (descend(search, [{ x: 0, y: 0, w: width }])) return search.spots;
    if (search.nodesLeft > 0) return null;
  }
  return null;
}

/** A level stretch: from y, `w` wide, filled up to x. */
interface Level {
  readonly x: number;
  readonly y: number;
  readonly w: number;
}

interface Search {
  readonly boxes: readonly StripBox[];
  readonly length: number;
  readonly slack: number;
  readonly rng: Rng;
  readonly budget: Budget;
  readonly spots: StripSpot[];
  readonly used: Uint8Array;
  left: number;
  steps: number;
  nodesLeft: number;
}

function descend(search: Search, levels: readonly Level[]): boolean {
  if (search.left === 0) return true;
  const at = levels.reduce((low, level, k) => (level.x < levels[low]!.x - search.slack ? k : low), 0);
  const level = levels[at]!;
  for (const { box, turn } of candidates(search, levels, at)) {
    if (search.nodesLeft-- <= 0 || search.budget.spent(search.steps) >= 1) return false;
    search.used[box] = 1;
    search.left--;
    search.spots[box] = { turn, x: level.x, y: level.y };
    if (descend(search, raised(search, levels, at, search.boxes[box]!.sizes[turn]!))) return true;
    search.used[box] = 0;
    search.left++;
  }
  return false;
}

function candidates(
  search: Search,
  levels: readonly Level[],
  at: number,
): readonly { box: number; turn: number }[] {
  const { boxes, length, slack, rng, used } = search;
  const level = levels[at]!;
  const steps = [levels[at - 1], levels[at + 1]].map((next) => (next ? next.x : length) - level.x);
  const narrowest = boxes.reduce(
    (least, { sizes }, k) => (used[k] ? least : Math.min(least, ...sizes.map(([, w]) => w))),
    Infinity,
  );
  const found: { box: number; turn: number; rank: number }[] = [];
  const seen = new Set<string>();
  for (let box = 0; box < boxes.length; box++) {
    if (used[box]) continue;
    for (const [turn, [l, w]] of boxes[box]!.sizes.entries()) {
      const beside = level.w - w;
      if (beside < -slack || level.x + l > length + slack) continue;
      if (beside > slack && beside < narrowest - slack) continue;
      const key = `${l} ${w}`;
      if (seen.has(key)) continue;
      seen.add(key);
      const levelsWith = steps.some((step) => Math.abs(step - l) <= slack) ? 1 : 0;
      const fills = beside <= slack ? 1 : 0;
      found.push({ box, turn, rank: fills + levelsWith + 0.5 * (w / level.w) + rng() });
    }
  }
  search.steps += found.length;
  return found.sort((a, b) => b.rank - a.rank);
}

/** The skyline with a box in the near corner of a notch. */
function raised(
  { slack }: Search,
  levels: readonly Level[],
  at: number,
  [l, w]: readonly [number, number],
): readonly Level[] {
  const { x, y, w: room } = levels[at]!;
  const fresh: Level[] = [{ x: x + l, y, w }];
  if (room - w > slack) fresh.push({ x, y: y + w, w: room - w });
  const out: Level[] = [];
  for (const level of [...levels.slice(0, at), ...fresh, ...levels.slice(at + 1)]) {
    const last = out.at(-1);
    if (last && Math.abs(last.x - level.x) <= slack) out[out.length - 1] = { ...last, w: last.w + level.w };
    else out.push(level);
  }
  return out;
}
