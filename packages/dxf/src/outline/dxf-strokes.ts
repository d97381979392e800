import type { Point } from "@dryfit/geometry";
import { cosine, sine } from "@dryfit/geometry";
import { drawnBy } from "../entities.ts";
import { type DxfRecord, type NotDxf, numberOf, recordsOf, toNumber, wordOf } from "../groups.ts";
import { headerVariable, mmPerUnitOf } from "../units.ts";
import type { Leftover, NotRead, Stroke, Strokes } from "./drawing.ts";
import { type Affine, after, IDENTITY, movedPiece, type Piece, piecesOf } from "./piece.ts";
import { splineCurve } from "./spline.ts";

/** The strokes of a DXF file: blocks in blocks unfolded, splines and ellipses as the curves that they are. */
export function dxfStrokes(text: string): Strokes | NotRead {
  const records = recordsOf(text);
  if (!Array.isArray(records)) return records as NotDxf;
  const all = records as readonly DxfRecord[];
  const blocks = blocksOf(all);
  const strokes: Stroke[] = [];
  const leftovers: Leftover[] = [];
  const draw = (
    entities: readonly Entity[],
    by: Affine,
    outer: string | null,
    within: readonly string[],
  ): void => {
    for (const entity of entities) {
      const { record } = entity;
      const own = wordOf(record, 8) ?? "0";
      // What lies on layer 0 of a block takes the layer of its insertion.
      const layer = own === "0" && outer !== null ? outer : own;
      if (numberOf(record, 67, 0) === 1) continue;
      if (record.type === "INSERT") {
        const name = wordOf(record, 2) ?? "";
        const block = blocks.get(name);
        const reason =
          block === undefined
            ? `its block "${name}" is not in the file`
            : within.includes(name)
              ? `its block "${name}" holds itself`
              : within.length >= DEEPEST
                ? `blocks lie more than ${DEEPEST} deep in each other`
                : null;
        if (reason !== null || block === undefined) {
          leftovers.push({ what: "INSERT", layer, line: record.line, matters: true, reason: reason ?? "" });
          continue;
        }
        for (const place of insertions(record, block.base))
          draw(block.entities, after(by, place), layer, [...within, name]);
        continue;
      }
      const pieces = piecesIn(entity);
      if ("reason" in pieces) leftovers.push({ ...pieces, layer, line: record.line });
      else
        for (const piece of pieces.pieces)
          strokes.push({ piece: movedPiece(by, piece), layer, line: record.line });
    }
  };
  draw(entitiesIn(all, "ENTITIES"), IDENTITY, null, []);
  return { strokes, leftovers, mmPerUnit: mmPerUnitOf(headerVariable(all, "$INSUNITS")) };
}

/** Deeper nesting than any drawing has. */
const DEEPEST = 16;

interface Entity {
  readonly record: DxfRecord;
  readonly vertices: readonly DxfRecord[];
}

interface Block {
  readonly base: Point;
  readonly entities: readonly Entity[];
}

function blocksOf(records: readonly DxfRecord[]): ReadonlyMap<string, Block> {
  const blocks = new Map<string, Block>();
  let start = -1;
  records.forEach((record, i) => {
    if (record.type === "BLOCK") start = i;
    if (record.type !== "ENDBLK" || start < 0) return;
    const head = records[start]!;
    const base = { x: numberOf(head, 10, 0), y: numberOf(head, 20, 0) };
    blocks.set(wordOf(head, 2) ?? "", { base, entities: grouped(records.slice(start + 1, i)) });
    start = -1;
  });
  return blocks;
}

function entitiesIn(records: readonly DxfRecord[], section: string): readonly Entity[] {
  const start = records.findIndex((r) => r.type === "SECTION" && wordOf(r, 2) === section);
  if (start < 0) return [];
  const end = records.findIndex((r, i) => i > start && r.type === "ENDSEC");
  return grouped(records.slice(start + 1, end < 0 ? undefined : end));
}

/** Each polyline with the vertices that follow it. */
function grouped(records: readonly DxfRecord[]): readonly Entity[] {
  const entities: { record: DxfRecord; vertices: DxfRecord[] }[] = [];
  for (const record of records) {
    if (record.type === "VERTEX" && entities.at(-1)?.record.type === "POLYLINE")
      entities.at(-1)!.vertices.push(record);
    // Attributes of an insertion are words on it.
    else if (!["SEQEND", "ATTRIB", "ATTDEF"].includes(record.type)) entities.push({ record, vertices: [] });
  }
  return entities;
}

/** Where an insertion puts its block: once, or in rows and columns. */
function insertions(record: DxfRecord, base: Point): readonly Affine[] {
  const number = (code: number, otherwise: number): number => numberOf(record, code, otherwise);
  const turn = (number(50, 0) * Math.PI) / 180;
  const [cos, sin] = [cosine(turn), sine(turn)];
  const facing = number(230, 1) < 0 ? -1 : 1;
  const place: Affine = [cos, sin, -sin, cos, number(10, 0), number(20, 0)];
  const seen: Affine = [facing, 0, 0, 1, 0, 0];
  const inner: Affine = after([number(41, 1), 0, 0, number(42, 1), 0, 0], [1, 0, 0, 1, -base.x, -base.y]);
  const [columns, rows] = [Math.max(1, number(70, 1)), Math.max(1, number(71, 1))];
  return Array.from({ length: Math.min(columns * rows, MOST_COPIES) }, (_, i) => {
    const step: Affine = [1, 0, 0, 1, (i % columns) * number(44, 0), Math.floor(i / columns) * number(45, 0)];
    return after(seen, after(place, after(step, inner)));
  });
}

const MOST_COPIES = 1000;

type Found = { readonly pieces: readonly Piece[] } | Omit<Leftover, "layer" | "line">;

function piecesIn({ record, vertices }: Entity): Found {
  switch (record.type) {
    case "SPLINE":
      return splineIn(record);
    case "ELLIPSE":
      return ellipseIn(record);
    case "TEXT":
    case "MTEXT":
    case "POINT":
    case "DIMENSION":
    case "LEADER":
    case "HATCH":
    case "IMAGE":
    case "VIEWPORT":
      return { what: record.type, matters: false, reason: "it is no contour" };
    default: {
      const drawn = drawnBy(record, vertices);
      if (drawn.kind === "text") return { what: record.type, matters: false, reason: "it is no contour" };
      if (drawn.kind === "unread") return { what: record.type, matters: true, reason: drawn.reason };
      return { pieces: piecesOf(drawn.curve) };
    }
  }
}

/** Centre, end of the long axis from it, ratio of the short one, from and to parameter. DXF Reference, ELLIPSE. */
function ellipseIn(record: DxfRecord): Found {
  const n = (code: number, otherwise: number): number => numberOf(record, code, otherwise);
  const u = { x: n(11, 0), y: n(21, 0) };
  const ratio = n(40, 1);
  const [from, to] = [n(41, 0), n(42, 2 * Math.PI)];
  if (![u.x, u.y, ratio, from, to].every(Number.isFinite) || Math.hypot(u.x, u.y) === 0)
    return { what: "ELLIPSE", matters: true, reason: "its axes are no numbers above 0" };
  const facing = n(230, 1) < 0 ? -1 : 1;
  const turn = 2 * Math.PI;
  const sweep = (((to - from) % turn) + turn) % turn || turn;
  const v = { x: -u.y * ratio * facing, y: u.x * ratio * facing };
  return { pieces: [{ kind: "ellipse", centre: { x: n(10, 0), y: n(20, 0) }, u, v, from, sweep }] };
}

function splineIn(record: DxfRecord): Found {
  const many = (code: number): number[] =>
    record.groups.filter((group) => group.code === code).map(({ value }) => toNumber(value));
  const [xs, ys, weights, knots] = [many(10), many(20), many(41), many(40)];
  const degree = numberOf(record, 71, 3);
  const curve = splineCurve({
    degree,
    knots,
    points: xs.map((x, i) => ({ x, y: ys[i] ?? Number.NaN })),
    weights: weights.length === xs.length ? weights : xs.map(() => 1),
  });
  if ("reason" in curve) return { what: "SPLINE", matters: true, reason: curve.reason };
  return { pieces: [{ kind: "curve", ...curve }] };
}
