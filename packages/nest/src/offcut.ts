import { placeCurve, type Region } from "@dryfit/geometry";
import type { Part } from "@dryfit/joinery";
import { freeRectangles } from "./largestEmpty.ts";
import type { Layout, NestJob, Sheet } from "./layout.ts";
import type { Rect } from "./rectangles.ts";
import { ringBounds, ringOf } from "./ring.ts";
import { runsAt } from "./scan.ts";

/** A rectangle of a sheet worth keeping, in the sheet frame, mm. */
export interface Offcut extends Rect {
  readonly sheet: string;
}

/** Narrower rests are firewood, mm. Common practice, no source. */
const LEAST_OFFCUT_MM = 100;

/**
 * What a maker can keep of every sheet: rectangles clear of all parts by the spacing (so that cutting the parts
 * leaves them whole), of keep-outs, and of the edge of an irregular sheet. Largest first.
 */
export function offcutsOf(job: NestJob, layout: Layout): Offcut[] {
  const parts = new Map(job.parts.map((part) => [part.id, part]));
  return layout.sheets
    .flatMap((sheet) => sheetOffcuts(sheet, parts, job.rules.spacing))
    .sort((a, b) => b.w * b.h - a.w * a.h);
}

export function sheetOffcuts(
  sheet: Omit<Sheet, "id"> & { readonly id?: string },
  parts: ReadonlyMap<string, Part>,
  spacing: number,
): Offcut[] {
  const [w, h] = sheet.stock.size;
  const taken = sheet.parts.flatMap(({ part, placement }) => {
    const outline = parts.get(part)?.outline;
    return outline ? [boxAround(ringBounds(ringOf(placeCurve(placement, outline))), spacing)] : [];
  });
  for (const keepOut of sheet.stock.keepOuts) taken.push(boxAround(ringBounds(ringOf(keepOut.outer)), 0));
  if (sheet.stock.outline) taken.push(...missingWood(sheet.stock.outline, w, h));
  return freeRectangles(w, h, taken, LEAST_OFFCUT_MM).map((r) => ({ ...r, sheet: sheet.id ?? "" }));
}

function boxAround([x0, y0, x1, y1]: readonly number[], by: number): Rect {
  return { x: x0! - by, y: y0! - by, w: x1! - x0! + 2 * by, h: y1! - y0! + 2 * by };
}

/** How fine an irregular outline is read for offcuts, mm. */
const ROW_MM = 10;

/** Boxes that hold everything of the bounding rectangle that is no wood, row by row. */
function missingWood(outline: Region<"sheet">, w: number, h: number): Rect[] {
  const rings = [outline.outer, ...outline.holes].map((loop) => ringOf(loop));
  const rows = Math.ceil(h / ROW_MM);
  const missing: Rect[] = [];
  for (let row = 0; row < rows; row++) {
    const y0 = (row * h) / rows;
    const y1 = ((row + 1) * h) / rows;
    // Corners inside the row widen the gaps; its two edges tell the rest.
    const gaps = [y0 + 1e-6, y1 - 1e-6].flatMap((y) => gapsAt(runsAt(rings, y), w));
    for (const ring of rings)
      for (let k = 0; k < ring.length; k += 2)
        if (ring[k + 1]! >= y0 && ring[k + 1]! <= y1) gaps.push([ring[k]!, ring[k]!]);
    for (const [from, to] of merged(gaps)) missing.push({ x: from, y: y0, w: to - from, h: y1 - y0 });
  }
  return missing;
}

function gapsAt(runs: readonly number[], w: number): [number, number][] {
  const ends = [0, ...runs, w];
  const gaps: [number, number][] = [];
  for (let k = 0; k + 1 < ends.length; k += 2)
    if (ends[k + 1]! > ends[k]!) gaps.push([ends[k]!, ends[k + 1]!]);
  return gaps;
}

/** Overlapping gaps together; a corner between two of them is at most ROW_MM of slope away and joins the nearer. */
function merged(gaps: readonly [number, number][]): [number, number][] {
  const out: [number, number][] = [];
  for (const [from, to] of [...gaps].sort((a, b) => a[0] - b[0])) {
    const last = out[out.length - 1];
    if (last && from <= last[1] + ROW_MM) last[1] = Math.max(last[1], to);
    else out.push([from, to]);
  }
  return out;
}
