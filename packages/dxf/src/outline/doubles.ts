import { boundsOf, type Curve, distanceTo, lengthOf, pointAt } from "@dryfit/geometry";
import type { Finding } from "@dryfit/joinery";
import { at, type PlacedCurve, type Reading, told } from "./place.ts";

/** The same stroke drawn twice, either way round, is one. */
export function withoutDoubles(
  placed: readonly PlacedCurve[],
  reading: Reading,
): { readonly curves: readonly PlacedCurve[]; readonly findings: readonly Finding[] } {
  const kept: PlacedCurve[] = [];
  const findings: Finding[] = [];
  for (const one of placed) {
    const twin = kept.find((other) => isSame(one.curve, other.curve));
    if (twin === undefined) kept.push(one);
    else
      findings.push({
        ...told(
          reading.file,
          one.line,
          "drawing_double",
          `This stroke lies on the one of line ${twin.line}, ${at(pointAt(one.curve, 0), reading)}: it counts once.`,
          "warning",
        ),
        wayOut: "Delete one of the two.",
      });
  }
  return { curves: kept, findings };
}

/** Strokes that differ by less are one that was drawn twice, mm. */
const DOUBLE_MM = 0.01;

function isSame(a: Curve, b: Curve): boolean {
  const [p, q] = [boundsOf(a), boundsOf(b)];
  const off = [p.min.x - q.min.x, p.min.y - q.min.y, p.max.x - q.max.x, p.max.y - q.max.y];
  if (off.some((value) => Math.abs(value) > DOUBLE_MM)) return false;
  const length = lengthOf(a);
  if (Math.abs(length - lengthOf(b)) > 2 * DOUBLE_MM) return false;
  return [0, 0.17, 0.37, 0.5, 0.71, 0.89, 1].every((t) => distanceTo(b, pointAt(a, t * length)) < DOUBLE_MM);
}
