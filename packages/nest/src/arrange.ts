import { compose, inverse, type Placement, placeRegion } from "@dryfit/geometry";
import type { Part } from "@dryfit/joinery";
import { regionOfPart } from "./check.ts";
import type { NestJob, PlacedPart, Sheet, Stock } from "./layout.ts";
import type { Bin, ItemType, Obstacle } from "./problem.ts";
import { type Polygon, polygonArea, polygonOf, type Ring, ringArea } from "./ring.ts";
import type { SheetKind, SheetSpot, SheetsJob, SheetsResult } from "./sheets.ts";
import { radiansOf, type Turn, turnsAlongX } from "./turns.ts";

/** Parts and stocks of one material as the search sees them, and the way back to placed parts. */
export interface Arrangement {
  readonly job: SheetsJob;
  readonly parts: readonly Part[];
  readonly stocks: readonly Stock[];
  readonly turns: readonly (readonly Turn[])[];
}

/** Plywood parts are few and large: coarse tables are made quickly and serve them well. */
const RESOLUTION = 16;

/** Every sheet is looked at with its grain along x, so that a part's turns are the same on all. */
export function arrangementOf(job: NestJob, parts: readonly Part[], stocks: readonly Stock[]): Arrangement {
  const { spacing, margin } = job.rules;
  const turns = parts.map((part) => turnsAlongX(part, job.turns?.[part.id]));
  const types: ItemType[] = [];
  const items: number[] = [];
  const known = new Map<string, number>();
  for (const [i, part] of parts.entries()) {
    const polygon = polygonOf(regionOfPart(part));
    const key = JSON.stringify([polygon, turns[i]]);
    let type = known.get(key);
    if (type === undefined) {
      type = types.length;
      types.push({ polygon, turns: turns[i]!.map(radiansOf) });
      known.set(key, type);
    }
    items.push(type);
  }
  const kinds = stocks.map((stock) => kindOf(stock, spacing, margin));
  return { job: { types, items, gap: spacing, kinds, resolution: RESOLUTION }, parts, stocks, turns };
}

/** The search's result as sheets of placed parts. */
export function sheetsOf({ parts, stocks, turns }: Arrangement, result: SheetsResult): Omit<Sheet, "id">[] {
  return result.sheets.map((kind, k) => {
    const stock = stocks[kind]!;
    const own = result.spots.filter((spot) => spot.sheet === k);
    return {
      stock,
      parts: own.map(({ item, turn, x, y }): PlacedPart => {
        const grainFromPanel: Placement<"grain", "panel"> = {
          flip: false,
          ...turns[item]![turn]!,
          shift: { x, y },
        };
        return { part: parts[item]!.id, placement: compose(sheetFromGrain(stock), grainFromPanel) };
      }),
    };
  });
}

/** Sheets of placed parts as the search's result, to go on from. */
export function resultFrom(
  { job, parts, stocks, turns }: Arrangement,
  sheets: readonly Omit<Sheet, "id">[],
): SheetsResult {
  const index = new Map(parts.map((part, i) => [part.id, i]));
  const kinds = sheets.map((sheet) => stocks.findIndex((stock) => stock.id === sheet.stock.id));
  const spots = sheets.flatMap((sheet, k) =>
    sheet.parts.map(({ part, placement }): SheetSpot => {
      const item = index.get(part)!;
      const { quarters, angle, shift } = compose(inverse(sheetFromGrain(sheet.stock)), placement);
      const turn = turns[item]!.findIndex(
        (t) => t.quarters === quarters && Math.abs(t.angle - angle) < 1e-12,
      );
      return { item, sheet: k, turn, x: shift.x, y: shift.y };
    }),
  );
  const placed = new Set(spots.map((spot) => spot.item));
  return {
    sheets: kinds,
    spots,
    left: parts.flatMap((_, i) => (placed.has(i) ? [] : [i])),
    cost: kinds.reduce((sum, kind) => sum + job.kinds[kind]!.cost, 0),
    steps: 0,
  };
}

/** Where no price is known, wood is paid by area. */
export function priceOf(stock: Stock): number {
  return stock.price ?? stock.size[0] * stock.size[1];
}

/** Turns a sheet whose grain runs along x into the sheet as it is. */
function sheetFromGrain(stock: Stock): Placement<"sheet", "grain"> {
  if (stock.grain === "x") return { flip: false, quarters: 0, angle: 0, shift: { x: 0, y: 0 } };
  return { flip: false, quarters: 1, angle: 0, shift: { x: stock.size[0], y: 0 } };
}

function kindOf(stock: Stock, spacing: number, margin: number): SheetKind {
  const grainFromSheet = inverse(sheetFromGrain(stock));
  const [w, h] = stock.grain === "x" ? stock.size : [stock.size[1], stock.size[0]];
  const obstacles: Obstacle[] = stock.keepOuts.map((keepOut) => ({
    polygon: polygonOf(placeRegion(grainFromSheet, keepOut)),
    gap: spacing,
  }));
  let area = w * h;
  if (stock.outline) {
    const wood = placeRegion(grainFromSheet, stock.outline);
    area = polygonArea(polygonOf(wood));
    obstacles.unshift(...aroundOutline(wood, w, h).map((polygon) => ({ polygon, gap: margin })));
  }
  const bin: Bin = { x0: margin, y0: margin, x1: w - margin, y1: h - margin, obstacles };
  return { bin, cost: priceOf(stock), area, count: stock.count };
}

/** All that is no wood: the frame around the outline, and its holes. */
function aroundOutline(wood: Parameters<typeof polygonOf>[0], w: number, h: number): Polygon[] {
  const pad = 0.05 * Math.max(w, h) + 1;
  const frame = [-pad, -pad, w + pad, -pad, w + pad, h + pad, -pad, h + pad];
  // Seen from outside, the sheet's bulges are hollows: the loop is turned round before its arcs become lines.
  const outside = [wood.outer, ...wood.holes].map(
    (loop) => polygonOf({ outer: reversedLoop(loop), holes: [] })[0]!,
  );
  return [[frame, clockwise(outside[0]!)], ...outside.slice(1).map((ring) => [counterClockwise(ring)])];
}

function reversedLoop(loop: Parameters<typeof polygonOf>[0]["outer"]): typeof loop {
  const n = loop.vertices.length;
  return {
    closed: true,
    vertices: loop.vertices.map((_, i) => {
      const here = loop.vertices[n - 1 - i]!;
      return { ...here, bulge: 0 - loop.vertices[(2 * n - 2 - i) % n]!.bulge };
    }),
  };
}

function clockwise(ring: Ring): Ring {
  return ringArea(ring) < 0 ? ring : turnedRound(ring);
}

function counterClockwise(ring: Ring): Ring {
  return ringArea(ring) > 0 ? ring : turnedRound(ring);
}

function turnedRound(ring: Ring): Ring {
  const out: number[] = [];
  for (let k = ring.length - 2; k >= 0; k -= 2) out.push(ring[k]!, ring[k + 1]!);
  return out;
}
