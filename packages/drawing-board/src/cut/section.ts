import { DEPTH_STEP_MM, depthStepsAt } from "./raster.ts";
import type { Place } from "./window.ts";
import type { Wood } from "./wood.ts";

/** A line through the sheet, mm of the program's frame: it is looked at from its right hand. */
export interface SectionLine {
  readonly from: Place;
  readonly to: Place;
}

/** A stretch of the section where the wood stands alike, mm along its line. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  /** Cut away from the face that is up, and from the one that lies down; null beside the sheet. */
  readonly depth: number | null;
  readonly under: number;
}

/** The wood along a line, pixel by pixel. */
export function sectionThrough({ replay, under, program }: Wood, line: SectionLine): readonly Stretch[] {
  const { raster } = replay;
  const [left, low] = program.corner;
  const length = lengthOf(line);
  const count = Math.max(1, Math.ceil(length / raster.pixel));
  const step = length / count;
  const [dx, dy] = [(line.to.x - line.from.x) / count, (line.to.y - line.from.y) / count];
  const stretches: Stretch[] = [];
  let first = 0;
  let [depth, below] = [NOWHERE, 0];
  for (let i = 0; i <= count; i++) {
    const column = Math.floor((line.from.x + dx * (i + 0.5) - left) / raster.pixel);
    const row = Math.floor((line.from.y + dy * (i + 0.5) - low) / raster.pixel);
    const isOn = column >= 0 && row >= 0 && column < raster.columns && row < raster.rows;
    const here = i === count ? NOWHERE : isOn ? depthStepsAt(raster, column, row) : BESIDE;
    const down = isOn && i < count && under ? depthStepsAt(under, column, row) : 0;
    if (here === depth && down === below) continue;
    if (i > 0)
      stretches.push({
        from: first * step,
        to: i * step,
        depth: depth === BESIDE ? null : depth * DEPTH_STEP_MM,
        under: below * DEPTH_STEP_MM,
      });
    first = i;
    [depth, below] = [here, down];
  }
  return stretches;
}

const NOWHERE = -2;
const BESIDE = -1;

export function lengthOf({ from, to }: SectionLine): number {
  return Math.hypot(to.x - from.x, to.y - from.y);
}

/** How much wood stands in a stretch, mm. */
export function leftIn({ depth, under }: Stretch, thickness: number): number {
  if (depth === null) return 0;
  const left = thickness - depth - under;
  return left < NOTHING_MM ? 0 : left;
}

/** The section in words, for those who do not see it. */
export function sectionWords(
  stretches: readonly Stretch[],
  thickness: number,
  length: (mm: number) => string,
): string {
  const on = stretches.filter(({ depth }) => depth !== null);
  if (on.length === 0) return "The line lies beside the sheet.";
  const through = on.filter(
    (each, i) => leftIn(each, thickness) === 0 && (i === 0 || leftIn(on[i - 1]!, thickness) > 0),
  ).length;
  const standing = on.map((each) => leftIn(each, thickness)).filter((mm) => mm > 0);
  const thinnest = Math.min(...standing);
  if (standing.length === 0) return "Nothing stands along the line.";
  if (thinnest > thickness - NOTHING_MM && through === 0) return "Whole wood all along.";
  const times = ["Not cut through", "Cut through once"][through] ?? `Cut through ${through} times`;
  return `${times}; where wood stands, the thinnest is ${length(thinnest)} of ${length(thickness)}.`;
}

/** Less wood than this is none: two steps of depth, and what rounding leaves. */
const NOTHING_MM = 0.01;
