/** Finds boxes that meet a box, quickly, among boxes in an order where neighbours lie near each other. */
export interface BoxTree {
  /** Calls back with every box that meets the one from (x0, y0) to (x1, y1), in order. */
  readonly visit: (x0: number, y0: number, x1: number, y1: number, found: (box: number) => void) => void;
}

/** Boxes in one box of the next level. */
const FAN = 8;

/**
 * Boxes over runs of boxes, level by level: what lies along an outline is near its neighbours already, so
 * nothing needs sorting. `boxes` has four numbers each: x and y of the lower left and of the upper right corner.
 */
export function boxTree(boxes: Float64Array): BoxTree {
  const levels = [boxes];
  for (let below = boxes; below.length > 4 * FAN; below = levels.at(-1)!) levels.push(levelOver(below));
  return {
    visit: (x0, y0, x1, y1, found) => visitRun(levels, levels.length - 1, 0, x0, y0, x1, y1, found),
  };
}

/** A function of its own: a closure made anew for each visit costs more than the visit. */
function visitRun(
  levels: readonly Float64Array[],
  level: number,
  first: number,
  x0: number,
  y0: number,
  x1: number,
  y1: number,
  found: (box: number) => void,
): void {
  const run = levels[level]!;
  const end = Math.min(first + FAN, run.length / 4);
  for (let box = first; box < end; box++) {
    const i = 4 * box;
    if (x1 < run[i]! || y1 < run[i + 1]! || x0 > run[i + 2]! || y0 > run[i + 3]!) continue;
    if (level === 0) found(box);
    else visitRun(levels, level - 1, box * FAN, x0, y0, x1, y1, found);
  }
}

function levelOver(below: Float64Array): Float64Array {
  const above = new Float64Array(4 * Math.ceil(below.length / (4 * FAN)));
  for (let i = 0; i < above.length; i += 4) {
    let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
    const end = Math.min(FAN * (i + 4), below.length);
    for (let k = FAN * i; k < end; k += 4) {
      if (below[k]! < x0) x0 = below[k]!;
      if (below[k + 1]! < y0) y0 = below[k + 1]!;
      if (below[k + 2]! > x1) x1 = below[k + 2]!;
      if (below[k + 3]! > y1) y1 = below[k + 3]!;
    }
    above[i] = x0;
    above[i + 1] = y0;
    above[i + 2] = x1;
    above[i + 3] = y1;
  }
  return above;
}
