import {
  boundsOf,
  circle,
  difference,
  differenceFlat,
  intersection,
  inverse,
  offset,
  type Placement,
  type Point,
  placeRegion,
  type Region,
  rectangle,
  type Segment,
} from "@dryfit/geometry";
import type { Part } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import { boxOfSegment, grown, touch } from "./grid.ts";
import { chains, depthOf, pieceOf, placeSegment, type Stroke } from "./stroke.ts";
import { swept } from "./swept.ts";

/** The wood at one depth, its arcs as chords. */
export type Section = readonly Region<"panel">[];

/** A part with all the strokes that come near it, in its panel frame. */
export interface Bench {
  readonly part: Part;
  readonly sheet: string;
  readonly sheetFromPanel: Placement<"sheet", "panel">;
  readonly strokes: readonly Stroke<"panel">[];
  /** The widest wood beside an edge that must be gone, mm. */
  readonly band: number;
  /** The part without what is cut right through it: tabs and skin stand outside this. */
  readonly body: readonly Region<"panel">[];
  /** Where wood is looked for: the body and the band along its edges, as far as there is stock. */
  readonly field: readonly Region<"panel">[];
  /** Sections found before, by what cuts them. */
  readonly known: Map<string, Section>;
  /** What of tabs and skin is sanded off, by which of them are there. */
  readonly sanded: Map<string, Section>;
}

/** What falls free farther than this from a cut edge is nobody's business, mm: less than any cutter's width. */
const BAND_MM = 1;

export function benchOf(part: Part, { sheet, sheetFromPanel }: Place, strokes: readonly Stroke[]): Bench {
  const panelFromSheet = inverse(sheetFromPanel);
  const box = grown(boundsOf(part.outline), BAND_MM);
  const near = strokes.flatMap((stroke) => {
    const path = placeSegment(panelFromSheet, stroke.path);
    return touch(grown(boxOfSegment(path), stroke.radius), box) ? [{ ...stroke, path }] : [];
  });
  const band = near.reduce((least, { radius }) => Math.min(least, radius), BAND_MM);
  const whole = [{ outer: part.outline, holes: [] }];
  const through = throughCuts(part);
  const around = difference(offset(whole, band), offset(through, -band));
  const stock = sheet.stock.outline ?? { outer: rectangle({ x: 0, y: 0 }, cornerOf(sheet)), holes: [] };
  return {
    part,
    sheet: sheet.id,
    sheetFromPanel,
    strokes: near,
    band,
    body: difference(whole, through),
    field: intersection(around, [placeRegion(panelFromSheet, stock)]),
    known: new Map(),
    sanded: new Map(),
  };
}

/** Where a part lies. */
export interface Place {
  readonly sheet: Sheet;
  readonly sheetFromPanel: Placement<"sheet", "panel">;
}

function cornerOf({ stock }: Sheet): Point<"sheet"> {
  return { x: stock.size[0], y: stock.size[1] };
}

function throughCuts(part: Part): Region<"panel">[] {
  return part.features.flatMap((feature): Region<"panel">[] => {
    if (feature.kind === "opening") return [{ outer: feature.loop, holes: [] }];
    return feature.kind === "bore" && feature.depth === null
      ? [{ outer: circle(feature.at, feature.diameter / 2), holes: [] }]
      : [];
  });
}

/** A depth seen from both sides: strokes on face A must reach `a`, strokes on face B must reach up to `b`. */
export interface Level {
  readonly a: number;
  readonly b: number;
}

/** A stretch of a stroke whose tip is at some level or beyond it. */
export interface Reaching {
  readonly radius: number;
  readonly path: Segment<"panel">;
  /** The same for the same stretch of the same stroke, and for no other. */
  readonly name: string;
}

export function reaching({ strokes }: Bench, level: Level, thickness: number): Reaching[] {
  return strokes.flatMap((stroke, index) => {
    const path = reach(stroke, level, thickness);
    return path === null ? [] : [{ radius: stroke.radius, path, name: nameOf(index, stroke, path) }];
  });
}

/** Strokes that reach a level whole are named by their place in the list; a ramp, by where it enters, too. */
function nameOf(index: number, stroke: Stroke<"panel">, path: Segment<"panel">): string {
  if (path === stroke.path) return `${index}`;
  const { from, to } = path;
  return `${index}:${from.x},${from.y},${to.x},${to.y}`;
}

/** The stretch of one stroke that is at the level or beyond; sloped ones are cut where they cross it. */
export function reach<F extends string>(
  stroke: Stroke<F>,
  level: Level,
  thickness: number,
): Segment<F> | null {
  const sense = stroke.program.setup === "A" ? 1 : -1;
  const asked = stroke.program.setup === "A" ? level.a : level.b;
  // How far beyond the level the tip is, at both ends.
  const [start, end] = stroke.z.map(
    (z) => (depthOf(stroke.program, z, thickness) - asked) * sense,
  ) as unknown as [number, number];
  if (start >= 0 && end >= 0) return stroke.path;
  if (start < 0 && end < 0) return null;
  const crossing = start / (start - end);
  return start < 0 ? pieceOf(stroke.path, crossing, 1) : pieceOf(stroke.path, 0, crossing);
}

/** The wood of the field that is left at a level, on a sheet of this thickness: one section where other strokes leave the same. */
export function woodAt(bench: Bench, level: Level, thickness: number): Section {
  const cut = reaching(bench, level, thickness);
  const key = cut.map(({ name }) => name).join(" ");
  const known = bench.known.get(key);
  if (known !== undefined) return known;
  const radii = [...new Set(cut.map(({ radius }) => radius))];
  const gone = radii.flatMap((radius) =>
    swept(chains(cut.filter((one) => one.radius === radius).map(({ path }) => path)), radius),
  );
  const left = differenceFlat(bench.field, gone);
  const wood = [...bench.known.values()].find((other) => isDrawnAlike(other, left)) ?? left;
  bench.known.set(key, wood);
  return wood;
}

/** Corner for corner. */
function isDrawnAlike(a: Section, b: Section): boolean {
  const [these, those] = [ringsOf(a), ringsOf(b)];
  const isOne = (p: Point<"panel">, q: Point<"panel"> | undefined): boolean => p.x === q?.x && p.y === q.y;
  return (
    these.length === those.length &&
    these.every((ring, i) => {
      const other = those[i]!;
      return ring.length === other.length && ring.every((p, k) => isOne(p, other[k]));
    })
  );
}

function ringsOf(section: Section): (readonly Point<"panel">[])[] {
  return section.flatMap(({ outer, holes }) => [outer, ...holes].map(({ vertices }) => vertices));
}
