import {
  areaOf,
  type Box,
  boundsOf,
  contains,
  distanceTo,
  type Loop,
  lengthOf,
  type Point,
  pointAt,
  type Region,
  regionsOf,
  signedArea,
  tangentAt,
} from "@dryfit/geometry";
import type { Face } from "@dryfit/joinery";
import type { ReadDrawing } from "./picture.ts";

/** A part as the exported drawing shows it. */
export interface DrawnPart {
  /** From its label; "" where the file holds none. */
  readonly id: string;
  /** The rest of the label: "face A up (inside)". */
  readonly remark: string;
  readonly outline: Loop;
  readonly size: readonly [number, number];
  readonly labelAt: Point;
  readonly labelHeight: number;
  readonly labelTurned: boolean;
}

export interface DrawnRecess {
  readonly depth: number;
  readonly face: Face;
  readonly region: Region;
  /** A point well inside, for a note to point at. */
  readonly middle: Point;
}

export interface DrawnBore {
  readonly diameter: number;
  readonly depth: number | null;
  readonly face: Face | null;
  readonly centre: Point;
  readonly loop: Loop;
}

/** Everything on a sheet, told apart by what its layer means. */
export interface Wood {
  readonly parts: readonly DrawnPart[];
  readonly openings: readonly Loop[];
  readonly recesses: readonly DrawnRecess[];
  readonly bores: readonly DrawnBore[];
  readonly edge: readonly Loop[];
}

export function woodOf(drawing: ReadDrawing): Wood {
  const of = (kind: string) =>
    drawing.loops.filter((found) => found.meaning?.kind === kind).map((f) => f.loop);
  return {
    parts: of("outside").map((outline) => partOf(outline, drawing)),
    openings: of("inside"),
    recesses: recessesOf(drawing),
    bores: drawing.loops.flatMap(({ meaning, loop }) => {
      if (meaning?.kind !== "bore") return [];
      const { diameter, depth, face = null } = meaning;
      return [{ diameter, depth, face, loop, centre: middleOf(boundsOf(loop)) }];
    }),
    edge: of("sheet-edge"),
  };
}

function middleOf(box: Box): Point {
  return { x: (box.min.x + box.max.x) / 2, y: (box.min.y + box.max.y) / 2 };
}

/** A point of the region as far from its edges as a coarse search finds; the middle of its box if it will do. */
export function innerPoint(region: Region): Point {
  const centre = middleOf(boundsOf(region.outer));
  const loops = [region.outer, ...region.holes];
  const room = (p: Point) =>
    contains(region, p) === "inside" ? Math.min(...loops.map((loop) => distanceTo(loop, p))) : -1;
  const choices = [...gridOver(region.outer), ...stepsInward(region.outer)];
  const best = choices.reduce(
    (found, p) => {
      const here = room(p);
      return here > found.room + 1e-6 ? { p, room: here } : found;
    },
    { p: centre, room: room(centre) * 1.2 },
  );
  return best.p;
}

/** Points tried along each side of a region's box, and along its edge. */
const SEARCH = 15;

function gridOver(outer: Loop): readonly Point[] {
  const { min, max } = boundsOf(outer);
  const share = (i: number) => (i + 0.5) / SEARCH;
  return Array.from({ length: SEARCH * SEARCH }, (_, i) => ({
    x: min.x + (max.x - min.x) * share(i % SEARCH),
    y: min.y + (max.y - min.y) * share(Math.floor(i / SEARCH)),
  }));
}

/** Points a little way in from the edge: a narrow frame slips through any grid. */
function stepsInward(outer: Loop): readonly Point[] {
  const round = lengthOf(outer);
  const inward = Math.sign(signedArea(outer));
  return Array.from({ length: SEARCH }, (_, i) => (round * (i + 0.5)) / SEARCH).flatMap((s) => {
    const [p, way] = [pointAt(outer, s), tangentAt(outer, s)];
    return [1, 2, 3.5, 5, 8].map((step) => ({
      x: p.x - way.y * inward * step,
      y: p.y + way.x * inward * step,
    }));
  });
}

function partOf(outline: Loop, drawing: ReadDrawing): DrawnPart {
  const { min, max } = boundsOf(outline);
  const label = drawing.texts.find((text) => contains(outline, text.at) === "inside");
  const [id = "", remark = ""] = (label?.text ?? "").split(": ");
  return {
    id,
    remark,
    outline,
    size: [max.x - min.x, max.y - min.y],
    labelAt: label?.at ?? middleOf({ min, max }),
    labelHeight: label?.height ?? 0,
    labelTurned: label !== undefined && Math.abs(label.rotationDeg) === 90,
  };
}

function recessesOf(drawing: ReadDrawing): readonly DrawnRecess[] {
  const byKind = new Map<string, { depth: number; face: Face; loops: Loop[] }>();
  for (const { meaning, loop } of drawing.loops) {
    if (meaning?.kind !== "recess") continue;
    const { depth, face } = meaning;
    const kind = byKind.get(`${face} ${depth}`) ?? { depth, face, loops: [] };
    kind.loops.push(loop);
    byKind.set(`${face} ${depth}`, kind);
  }
  return [...byKind.values()].flatMap(({ depth, face, loops }) =>
    regionsOf(loops)
      .filter((region) => areaOf([region]) > 0)
      .map((region) => ({ depth, face, region, middle: innerPoint(region) })),
  );
}
