/** An instance file of the nesting set: see the README beside the data. */
export interface Instance {
  readonly name: string;
  readonly kind:
    | "strip"
    | "bin"
    | "irregular-sheets"
    | "variable-size-bins"
    | "guillotine-knapsack"
    | "keep-out";
  readonly stripWidth: number | null;
  readonly items: readonly InstanceItem[];
  readonly bin?: { readonly width: number; readonly height: number };
  readonly sheetSizes?: readonly { readonly width: number; readonly height: number; readonly cost: number }[];
  readonly sheets?: readonly {
    readonly id: string;
    readonly stock?: number;
    readonly polygon: readonly Point[];
    readonly holes?: readonly (readonly Point[])[];
  }[];
  readonly keepOuts?: readonly { readonly id: string; readonly polygon: readonly Point[] }[];
  readonly knownOptimalLength?: number;
  readonly knownOptimalBins?: number;
  readonly publishedBestValueGuillotine?: number;
}

export type Point = readonly [number, number];

export interface InstanceItem {
  readonly id: string;
  readonly demand: number;
  readonly allowedRotationsDeg: readonly number[];
  readonly polygon: readonly Point[];
  readonly value?: number;
}

/** A result as the bench writes it: the item's polygon turned about its own origin, then shifted. */
export interface Solution {
  readonly sheets: readonly {
    readonly size: readonly [number, number];
    readonly placements: readonly SolutionPlacement[];
  }[];
  readonly steps: number;
  /** Best so far over time: seconds and the measure of `worth` below. */
  readonly curve: readonly (readonly [number, number])[];
}

export interface SolutionPlacement {
  readonly id: string;
  readonly rotationDeg: number;
  readonly x: number;
  readonly y: number;
}

/** Least x and y, most x and y. */
export function boxOf(polygon: readonly Point[]): [number, number, number, number] {
  const xs = polygon.map(([x]) => x);
  const ys = polygon.map(([, y]) => y);
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}

/** A rectangle square to its axes? */
export function isBox(polygon: readonly Point[]): boolean {
  const [x0, y0, x1, y1] = boxOf(polygon);
  return polygon.length === 4 && Math.abs(areaOf(polygon) - (x1 - x0) * (y1 - y0)) < 1e-9 * areaOf(polygon);
}

export function areaOf(polygon: readonly Point[]): number {
  let sum = 0;
  polygon.forEach(([x, y], i) => {
    const [u, v] = polygon[(i + 1) % polygon.length]!;
    sum += x * v - u * y;
  });
  return sum / 2;
}

export function itemArea(instance: Instance): number {
  return instance.items.reduce((sum, item) => sum + item.demand * areaOf(item.polygon), 0);
}

/** The polygon turned by whole degrees about the origin; exact for quarter turns. */
export function turned(polygon: readonly Point[], degrees: number): Point[] {
  const quarter = (((degrees / 90) % 4) + 4) % 4;
  const exact = Number.isInteger(quarter);
  const cos = exact ? [1, 0, -1, 0][quarter]! : Math.cos((degrees * Math.PI) / 180);
  const sin = exact ? [0, 1, 0, -1][quarter]! : Math.sin((degrees * Math.PI) / 180);
  return polygon.map(([x, y]) => [x * cos - y * sin, x * sin + y * cos]);
}
