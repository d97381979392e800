import {
  type Box,
  boundsOf,
  type Curve,
  circle,
  flatten,
  type Loop,
  type Point,
  placeCurve,
  placement,
} from "@dryfit/geometry";
import type { Feature, Part } from "@dryfit/joinery";
import { type Note, placeNotes, type Stroke } from "./notes.ts";
import type { PdfMark, PdfPage, PdfStroke } from "./pdf/mark.ts";
import { MARGIN, papers } from "./pdf/paper.ts";
import { flowed, rowMarks, SIDE, spaceRow, textAt, wordRows } from "./pdf/rows.ts";
import { tableRows } from "./pdf/table.ts";
import { textWidth } from "./pdf/text.ts";
import { line } from "./pdf/write.ts";
import { wallToWall } from "./wall-to-wall.ts";
import { innerPoint } from "./wood.ts";

/** What a person at a cutting service reads beside the files, lengths in mm. */
export interface OrderPages {
  readonly name: string;
  readonly revision: string;
  /** Paragraphs of the first page: material, kerf, faces. */
  readonly facts: readonly string[];
  readonly parts: readonly OrderedPart[];
  readonly sheets: readonly OrderedSheet[];
}

export interface OrderedPart {
  /** Names of all that are cut by this contour. */
  readonly ids: readonly string[];
  readonly file: string;
  /** As it should be when finished. */
  readonly part: Part;
  /** "leave 7 mm of wood under it", by feature; absent: its depth says all. */
  readonly depths: Readonly<Record<string, string>>;
}

export interface OrderedSheet {
  readonly id: string;
  readonly file: string;
  readonly size: readonly [number, number];
  readonly outlines: readonly { readonly id: string; readonly loop: Loop }[];
}

/** The order on paper: what and how many, the sheets as laid out, and every part with its finished sizes. */
export function orderPages(order: OrderPages): readonly PdfPage[] {
  const bodies: readonly (readonly PdfMark[])[] = [
    ...firstPage(order),
    ...order.sheets.map(sheetPage),
    ...order.parts.flatMap(partPages),
  ];
  return bodies.map((marks, i) => ({
    size: papers.a4,
    marks: [...head(order, i + 1, bodies.length), ...marks],
  }));
}

const [WIDTH, HEIGHT] = papers.a4;
const ROOM = WIDTH - 2 * SIDE;
const TOP = HEIGHT - MARGIN - 16;
const FOOT = MARGIN + 8;

/** The box that a drawing is fitted into, dimensions round it left out. */
const PICTURE = { left: SIDE + 16, width: ROOM - 24, top: TOP - 20, height: 118 };

const EDGE: PdfStroke = { width: 0.35 };
const CUT: PdfStroke = { width: 0.25 };
const POCKET: PdfStroke = { width: 0.18, dash: [2, 1] };
const FINE: PdfStroke = { width: 0.13 };

function head({ name, revision }: OrderPages, page: number, pages: number): readonly PdfMark[] {
  const y = HEIGHT - MARGIN - 6;
  return [
    { ...textAt(`${name}: order`, SIDE, y, 5.4), bold: true },
    { ...textAt(`revision ${revision}`, WIDTH - SIDE, y, 3.2), anchor: "end" },
    line(SIDE, y - 3.5, WIDTH - SIDE, y - 3.5, { width: 0.5 }),
    { ...textAt(`${page} of ${pages}`, WIDTH - SIDE, MARGIN, 2.8), anchor: "end" },
    textAt(
      "Lengths in mm, finished sizes. Seen from face A. Round holes by their middle, all else from edge to edge.",
      SIDE,
      MARGIN,
      2.8,
    ),
  ];
}

function firstPage({ facts, parts }: OrderPages): readonly (readonly PdfMark[])[] {
  const rows = [
    ...facts.flatMap((fact) => [...wordRows(fact, ROOM, 3.6), spaceRow(1.6)]),
    spaceRow(3),
    ...tableRows(
      [
        { title: "part" },
        { title: "count", figures: true },
        { title: "finished" },
        { title: "face A up" },
        { title: "file" },
      ],
      parts.map(({ ids, part, file }) => {
        const { x, y } = boundsOf(part.outline).max;
        return [ids.join(", "), String(ids.length), `${mm(x)} × ${mm(y)}`, part.faceNames.A, file];
      }),
      ROOM,
    ),
  ];
  return flowed(
    rows.map((row) => [row]),
    TOP - FOOT,
  ).map((page) => rowMarks(page, TOP));
}

function sheetPage({ id, file, size, outlines }: OrderedSheet): readonly PdfMark[] {
  const view = fitted({ min: { x: 0, y: 0 }, max: { x: size[0], y: size[1] } });
  const rim: Loop = {
    closed: true,
    vertices: [
      [0, 0],
      [size[0], 0],
      [size[0], size[1]],
      [0, size[1]],
    ].map(([x, y]) => ({ x: x!, y: y!, bulge: 0 })),
  };
  return [
    { ...textAt(`${id}, once: ${file}`, SIDE, TOP - 6, 4), bold: true },
    textAt(`Scale 1 : ${ratio(view)}`, SIDE, TOP - 12, 3),
    stroke(view, [rim], EDGE),
    stroke(
      view,
      outlines.map(({ loop }) => loop),
      CUT,
    ),
    ...outlines.map(({ id: name, loop }): PdfMark => {
      const { min, max } = boundsOf(loop);
      const at = onPage(view, { x: (min.x + max.x) / 2, y: (min.y + max.y) / 2 });
      const size = Math.min(3, (3 * (max.x - min.x) * view.scale) / Math.max(1, textWidth(name, 3)));
      return { ...textAt(name, at.x, at.y, size), anchor: "middle" };
    }),
    ...overall(view, size[0], size[1]),
  ];
}

function partPages({ ids, part, file, depths }: OrderedPart): readonly (readonly PdfMark[])[] {
  const { x, y } = boundsOf(part.outline).max;
  const view = fitted({ min: { x: 0, y: 0 }, max: { x, y } });
  const features = part.features;
  const marks: readonly PdfMark[] = [
    { ...textAt(`${part.title}, ${ids.length} ×`, SIDE, TOP - 6, 4.4), bold: true },
    textAt(`${ids.join(", ")}; ${file}`, SIDE, TOP - 11, 3),
    { ...textAt(`Scale 1 : ${ratio(view)}`, WIDTH - SIDE, TOP - 6, 3), anchor: "end" },
    { ...textAt(`Face A up: ${part.faceNames.A}`, WIDTH - SIDE, TOP - 11, 3), anchor: "end" },
    stroke(view, [part.outline], EDGE),
    ...features.map((f) => stroke(view, loopsOf(f), f.kind === "recess" ? POCKET : CUT)),
    ...numberMarks(view, part),
    ...overall(view, x, y),
  ];
  const table =
    features.length === 0
      ? wordRows("Nothing but its outline.", ROOM, 3.2)
      : tableRows(
          [{ title: "no." }, { title: "what" }, { title: "size" }, ...FIGURES, { title: "depth" }],
          features.map((f, i) => [String(i + 1), ...featureWords(f, depths)]),
          ROOM,
        );
  const under = onPage(view, { x: 0, y: 0 }).y - 18;
  const [first = [], ...more] = flowed(
    table.map((row) => [row]),
    TOP - FOOT,
    under - FOOT,
  );
  return [[...marks, ...rowMarks(first, under)], ...more.map((rows) => rowMarks(rows, TOP))];
}

const FIGURES = [
  { title: "from left", figures: true },
  { title: "from bottom", figures: true },
] as const;

/** Each feature's number on it, or beside it with a leader. */
function numberMarks(view: View, { outline, features }: Part): readonly PdfMark[] {
  const strokes = [outline, ...features.flatMap(loopsOf)].flatMap((loop): Stroke[] => {
    const points = flatten(loop, 0.5).map((p) => onPage(view, p));
    return points.map((p, i) => [p, points[(i + 1) % points.length]!]);
  });
  const notes = features.map((f, i): Note => {
    const [outer, ...holes] = loopsOf(f);
    return { at: onPage(view, innerPoint({ outer: outer!, holes })), lines: [String(i + 1)], size: NUMBER };
  });
  const within = { min: { x: SIDE, y: FOOT }, max: { x: WIDTH - SIDE, y: TOP } };
  return placeNotes(notes, [], strokes, within).flatMap(({ at, middle, lines, leader }): PdfMark[] => {
    const away = Math.hypot(at.x - middle.x, at.y - middle.y);
    const from = {
      x: middle.x + ((at.x - middle.x) * CLEAR) / away,
      y: middle.y + ((at.y - middle.y) * CLEAR) / away,
    };
    return [
      ...(leader && away > CLEAR
        ? [
            line(from.x, from.y, at.x, at.y, FINE),
            stroke({ scale: 1, shift: { x: 0, y: 0 } }, [circle(at, 0.35)], EDGE),
          ]
        : []),
      { ...textAt(lines[0]!, middle.x, middle.y - 0.9, NUMBER), anchor: "middle", bold: true },
    ];
  });
}

const NUMBER = 2.6;

/** Kept free of its leader round a number, mm. */
const CLEAR = 1.9;

/** What, size, where from left and from bottom, depth. */
function featureWords(f: Feature, depths: Readonly<Record<string, string>>): readonly string[] {
  const { min, max } = boundsOf(loopsOf(f));
  const depth =
    f.kind === "opening" || f.depth === null
      ? "through"
      : (depths[f.id] ?? `${mm(f.depth)} from face ${f.face}`);
  const what = f.kind === "opening" ? f.title : f.kind === "bore" ? "Hole" : sentence(f.purpose);
  if (isRound(f))
    return [what, `dia. ${mm(max.x - min.x)}`, mm((min.x + max.x) / 2), mm((min.y + max.y) / 2), depth];
  const wide = f.kind === "recess" ? wallToWall(f.region) : null;
  const over = `${mm(max.x - min.x)} × ${mm(max.y - min.y)}`;
  return [
    what,
    wide === null ? over : `${mm(wide)} wide`,
    `${mm(min.x)} to ${mm(max.x)}`,
    `${mm(min.y)} to ${mm(max.y)}`,
    depth,
  ];
}

function isRound(f: Feature): boolean {
  if (f.kind === "bore") return true;
  const loop = f.kind === "opening" ? f.loop : f.region.outer;
  const { min, max } = boundsOf(loop);
  return loop.vertices.every(({ bulge }) => bulge !== 0) && Math.abs(max.x - min.x - (max.y - min.y)) < 0.001;
}

function sentence(word: string): string {
  return word.charAt(0).toUpperCase() + word.slice(1);
}

function loopsOf(f: Feature): readonly Loop[] {
  if (f.kind === "opening") return [f.loop];
  return f.kind === "bore" ? [circle(f.at, f.diameter / 2)] : [f.region.outer, ...f.region.holes];
}

interface View {
  readonly scale: number;
  readonly shift: Point;
}

/** As large as fits, at most full size, in a scale that a rule can follow. */
function fitted({ min, max }: Box): View {
  const [x, y] = [max.x - min.x, max.y - min.y];
  const least = Math.max(x / PICTURE.width, y / PICTURE.height, 1);
  const scale = 1 / (SCALES.find((one) => one >= least) ?? Math.ceil(least));
  return {
    scale,
    shift: {
      x: PICTURE.left + (PICTURE.width - x * scale) / 2 - min.x * scale,
      y: PICTURE.top - y * scale - min.y * scale,
    },
  };
}

const SCALES = [1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 15, 20] as const;

function ratio({ scale }: View): string {
  return mm(1 / scale);
}

function onPage({ scale, shift }: View, { x, y }: Point): Point {
  return { x: shift.x + x * scale, y: shift.y + y * scale };
}

function stroke({ scale, shift }: View, curves: readonly Curve[], style: PdfStroke): PdfMark {
  const move = placement<string, string>(shift);
  const moved = curves.map(
    (curve) =>
      placeCurve(move, {
        ...curve,
        vertices: curve.vertices.map((v) => ({ ...v, x: v.x * scale, y: v.y * scale })),
      } as Curve) as Curve,
  );
  return { kind: "stroke", curves: moved, style };
}

/** Over all, across under the drawing and up beside it. ISO 129: figures above the line, read from below and right. */
function overall(view: View, x: number, y: number): readonly PdfMark[] {
  const [low, high] = [onPage(view, { x: 0, y: 0 }), onPage(view, { x, y })];
  const across = low.y - 8;
  const beside = low.x - 8;
  return [
    line(low.x, low.y - 1, low.x, across - 1.5, FINE),
    line(high.x, low.y - 1, high.x, across - 1.5, FINE),
    line(low.x, across, high.x, across, FINE),
    ...tick(low.x, across),
    ...tick(high.x, across),
    { ...textAt(mm(x), (low.x + high.x) / 2, across + 1.2, 3.4), anchor: "middle" },
    line(low.x - 1, low.y, beside - 1.5, low.y, FINE),
    line(low.x - 1, high.y, beside - 1.5, high.y, FINE),
    line(beside, low.y, beside, high.y, FINE),
    ...tick(beside, low.y),
    ...tick(beside, high.y),
    { ...textAt(mm(y), beside - 1.2, (low.y + high.y) / 2, 3.4), anchor: "middle", angle: Math.PI / 2 },
  ];
}

/** An oblique stroke ends a dimension line: ISO 129. */
function tick(x: number, y: number): readonly PdfMark[] {
  return [line(x - 1.1, y - 1.1, x + 1.1, y + 1.1, { width: 0.3 })];
}

function mm(length: number): string {
  return String(Number(length.toFixed(2)));
}
