import { distance, type Point } from "@dryfit/geometry";

interface Stop {
  readonly gates: readonly Point[];
}

/**
 * Takes the nearest stop to a point and its nearest gate, each stop once; of equals the first.
 *
 * The gates lie in square cells about as many as there are gates, which are looked through ring by ring.
 * Errors: RangeError when all have been taken.
 */
export function nearestOf<S extends Stop>(
  stops: readonly S[],
): (from: Point) => { readonly stop: S; readonly gate: Point } {
  const gates = stops.flatMap((stop, order) => stop.gates.map((gate) => ({ stop, order, gate })));
  if (gates.length === 0) throw new RangeError("there is no stop to go to");
  const xs = gates.map(({ gate }) => gate.x);
  const ys = gates.map(({ gate }) => gate.y);
  const [left, right, low, high] = [least(xs), most(xs), least(ys), most(ys)];
  const size = Math.max(
    LEAST_CELL_MM,
    Math.max(right - left, high - low) / Math.ceil(Math.sqrt(gates.length)),
  );
  const [columns, rows] = [right - left, high - low].map((span) => Math.floor(span / size) + 1) as [
    number,
    number,
  ];
  const cells = Array.from({ length: columns * rows }, (): (typeof gates)[number][] => []);
  const cellOf = ({ x, y }: Point): [number, number] => [
    Math.min(columns - 1, Math.max(0, Math.floor((x - left) / size))),
    Math.min(rows - 1, Math.max(0, Math.floor((y - low) / size))),
  ];
  for (const one of gates) {
    const [column, row] = cellOf(one.gate);
    cells[row * columns + column]!.push(one);
  }
  const taken = new Set<S>();

  const nearestIn = (from: Point, ring: number, best: Found<S> | null): Found<S> | null => {
    const [column, row] = cellOf(from);
    for (let y = Math.max(0, row - ring); y <= Math.min(rows - 1, row + ring); y++) {
      const step = Math.abs(y - row) === ring ? 1 : Math.max(1, 2 * ring);
      for (let x = column - ring; x <= column + ring; x += step) {
        if (x < 0 || x >= columns) continue;
        const cell = cells[y * columns + x]!;
        const open = cell.filter(({ stop }) => !taken.has(stop));
        if (open.length < cell.length) cells[y * columns + x] = open;
        for (const one of open) {
          const away = distance(one.gate, from);
          if (best === null || away < best.away || (away === best.away && one.order < best.order))
            best = { ...one, away };
        }
      }
    }
    return best;
  };

  return (from) => {
    const [column, row] = cellOf(from);
    // How far `from` lies outside the cells counts on top of what a ring keeps away.
    const outside = distance(from, {
      x: Math.min(right, Math.max(left, from.x)),
      y: Math.min(high, Math.max(low, from.y)),
    });
    const last = Math.max(column, columns - 1 - column, row, rows - 1 - row);
    let best: Found<S> | null = null;
    for (let ring = 0; ring <= last; ring++) {
      best = nearestIn(from, ring, best);
      // What lies in later rings is farther than this ring is wide.
      if (best !== null && best.away <= ring * size - outside) break;
    }
    if (best === null) throw new RangeError("every stop has been taken");
    taken.add(best.stop);
    return { stop: best.stop, gate: best.gate };
  };
}

interface Found<S> {
  readonly stop: S;
  readonly order: number;
  readonly gate: Point;
  readonly away: number;
}

/** Cells are no smaller, however close the gates. */
const LEAST_CELL_MM = 1;

const least = (values: readonly number[]): number => values.reduce((a, b) => Math.min(a, b));
const most = (values: readonly number[]): number => values.reduce((a, b) => Math.max(a, b));
