import { type Curve, distanceTo, type Point, SAME_POINT_MM } from "@dryfit/geometry";
import type { Finding } from "@dryfit/joinery";

/** A stroke in mm, and the line of the file that drew it. */
export interface PlacedCurve {
  readonly curve: Curve;
  readonly line: number;
}

/** How the file's numbers became mm. */
export interface Reading {
  readonly file: string;
  readonly mm: number;
  readonly isSvg: boolean;
}

/** The line of the stroke nearest to a point. */
export function lineOf(placed: readonly PlacedCurve[], p: Point): number {
  const nearest = placed.reduce<{ line: number; off: number }>(
    (best, { curve, line }) => {
      const off = distanceTo(curve, p);
      return off < best.off - SAME_POINT_MM ? { line, off } : best;
    },
    { line: 1, off: Number.POSITIVE_INFINITY },
  );
  return nearest.line;
}

/** In the file's own numbers, as whoever drew it sees them. */
export function at({ x, y }: Point, { mm, isSvg }: Reading): string {
  return `at x ${figure(x / mm)}, y ${figure((isSvg ? -y : y) / mm)}`;
}

export function figure(value: number): string {
  return String(Number(value.toFixed(3)) + 0);
}

export function told(
  file: string,
  line: number,
  code: string,
  message: string,
  severity: Finding["severity"] = "error",
): Finding {
  return { code, severity, path: `${file}:${line}`, message, numbers: { line } };
}

export function isError({ severity }: Finding): boolean {
  return severity === "error";
}
