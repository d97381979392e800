import type { Position } from "./toolpath.ts";

/** Positions as a program prints them: multiples of 10^−decimals mm. */
export interface Grid {
  readonly decimals: number;
}

/** The nearest number that `decimals` digits can print; never −0. */
export function rounded(value: number, { decimals }: Grid): number {
  if (!Number.isFinite(value)) throw new RangeError(`a coordinate must be finite, not ${value}`);
  // From the digits, not by division: 0.1 + 0.2 must round as the printed 0.3 does.
  return Number(value.toFixed(decimals)) + 0;
}

export function roundedPosition({ x, y, z }: Position, grid: Grid): Position {
  return { x: rounded(x, grid), y: rounded(y, grid), z: rounded(z, grid) };
}

export function samePosition(a: Position, b: Position): boolean {
  return a.x === b.x && a.y === b.y && a.z === b.z;
}

/** "X12.5": at least one decimal, since some controllers read a bare integer in thousandths; no exponent, no −0. */
export function coordinateWord(letter: string, value: number, grid: Grid): string {
  const text = (rounded(value, grid) + 0).toFixed(grid.decimals);
  return letter + text.replace(/(\.\d+?)0+$/, "$1");
}

/** "F3000" or "P2.5": no more decimals than it needs, at most `decimals`. */
export function plainWord(letter: string, value: number, decimals: number): string {
  if (!Number.isFinite(value) || value < 0)
    throw new RangeError(`${letter} must be a number from 0, not ${value}`);
  return `${letter}${Number(value.toFixed(decimals))}`;
}
