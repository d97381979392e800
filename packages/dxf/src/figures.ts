import { type Box, boundsOf, type Loop, OUTPUT_STEP_MM, type Vertex } from "@dryfit/geometry";
import type { Mark } from "./marks.ts";

/**
 * A coordinate as the file holds it, rounded once, here.
 *
 * Errors: RangeError where it is not finite; a file must never hold NaN.
 */
export function printed(length: number): number {
  if (!Number.isFinite(length)) throw new RangeError(`a DXF coordinate is ${length}`);
  return Number((Math.round(length / OUTPUT_STEP_MM) * OUTPUT_STEP_MM).toFixed(DECIMALS)) + 0;
}

/**
 * A bulge as the file holds it. It needs more places than a length: over a chord of 3 m the last one
 * moves the arc by 0.0000015 mm. Below FLATTEST an arc is a line.
 */
export function printedBulge(bulge: number): number {
  if (!Number.isFinite(bulge)) throw new RangeError(`a DXF bulge is ${bulge}`);
  return Math.abs(bulge) < FLATTEST ? 0 : Number(bulge.toFixed(9));
}

/** A number as text, never with an exponent: "1e-7" is no DXF real. */
export function real(value: number): string {
  const text = value.toFixed(9).replace(/0+$/, "");
  return text.endsWith(".") ? `${text}0` : text;
}

/** The loop's vertices as printed; what rounding makes one point is one point. */
export function printedVertices(loop: Loop): readonly Vertex[] {
  const vertices = loop.vertices.map((v) => ({
    x: printed(v.x),
    y: printed(v.y),
    bulge: printedBulge(v.bulge),
  }));
  return vertices.filter((v, i) => {
    const next = vertices[(i + 1) % vertices.length]!;
    return v.x !== next.x || v.y !== next.y;
  });
}

/** The smallest box round all contours of a drawing. */
export function extents(marks: readonly Mark[]): Box {
  const boxes = marks.flatMap((mark): Box[] => {
    if (mark.kind === "text") return [];
    if (mark.kind === "loop") return [boundsOf(mark.loop)];
    const { centre, radius } = mark;
    return [
      {
        min: { x: centre.x - radius, y: centre.y - radius },
        max: { x: centre.x + radius, y: centre.y + radius },
      },
    ];
  });
  if (boxes.length === 0) return { min: { x: 0, y: 0 }, max: { x: 0, y: 0 } };
  return {
    min: { x: Math.min(...boxes.map((b) => b.min.x)), y: Math.min(...boxes.map((b) => b.min.y)) },
    max: { x: Math.max(...boxes.map((b) => b.max.x)), y: Math.max(...boxes.map((b) => b.max.y)) },
  };
}

/** Half a micrometre off the chord at 1 m; and no smaller number is ever written with an exponent. */
const FLATTEST = 1e-6;

const DECIMALS = Math.round(-Math.log10(OUTPUT_STEP_MM));
