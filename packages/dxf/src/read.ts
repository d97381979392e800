import { type Curve, type Loop, type Path, type Point, type Region, regionsOf } from "@dryfit/geometry";
import type { Finding } from "@dryfit/joinery";
import { drawnBy } from "./entities.ts";
import { type DxfRecord, type NotDxf, numberOf, recordsOf, wordOf } from "./groups.ts";
import { headerVariable, mmPerUnitOf } from "./units.ts";

/** Where in the file a thing stands: the line of its type, and its handle where it has one. */
export interface DxfPlace {
  readonly line: number;
  readonly handle: string | null;
}

export interface DxfLoop extends DxfPlace {
  readonly layer: string;
  readonly loop: Loop;
}

/** A line or curve that closes on nothing. */
export interface DxfPath extends DxfPlace {
  readonly layer: string;
  readonly path: Path;
}

export interface DxfText extends DxfPlace {
  readonly layer: string;
  readonly at: Point;
  readonly height: number;
  readonly rotationDeg: number;
  readonly text: string;
}

/** An entity that we do not read: a spline, a block reference, a dimension … */
export interface DxfUnread extends DxfPlace {
  readonly layer: string;
  readonly type: string;
  readonly reason: string;
}

/** What a DXF file holds, in millimetres, in the file's order. */
export interface DxfReading {
  /** "AC1015", or null where the header does not say. */
  readonly release: string | null;
  /** The header's unit code (4: mm, 1: inch); null where it has none. */
  readonly unitCode: number | null;
  /** What the file's numbers were multiplied by; 1 where it states no unit. */
  readonly mmPerUnit: number;
  /** Layers that hold something, in order of appearance. */
  readonly layers: readonly string[];
  readonly loops: readonly DxfLoop[];
  readonly paths: readonly DxfPath[];
  readonly texts: readonly DxfText[];
  readonly unread: readonly DxfUnread[];
  /** An error where the text is no DXF file at all; then the rest is empty. */
  readonly findings: readonly Finding[];
}

/**
 * Reads DXF text of any release from R12 on. Shares no code with the writer.
 *
 * Lengths come out in mm where the header names a unit; a file without one is taken as mm, and
 * `unitCode` tells that. Never throws on bad text: `findings` says what is wrong and where.
 */
export function readDxf(text: string, file = "drawing.dxf"): DxfReading {
  const records = recordsOf(text);
  if (!Array.isArray(records)) return { ...nothing, findings: [notDxf(file, records as NotDxf)] };
  const all = records as readonly DxfRecord[];
  const release = headerVariable(all, "$ACADVER");
  const unitText = headerVariable(all, "$INSUNITS");
  const unitCode = unitText === null ? null : Number(unitText);
  const mmPerUnit = mmPerUnitOf(unitText) ?? 1;
  const things = entitiesOf(all).map((entity) => readEntity(entity, mmPerUnit));
  const loops = things.filter((thing) => "loop" in thing);
  return {
    release,
    unitCode,
    mmPerUnit,
    layers: [...new Set(things.map((thing) => thing.layer))],
    loops,
    paths: things.filter((thing) => "path" in thing),
    texts: things.filter((thing) => "text" in thing),
    unread: things.filter((thing) => "reason" in thing),
    findings: [],
  };
}

/** The closed contours of one layer as areas: contours inside contours are holes. */
export function regionsOnLayer(reading: DxfReading, layer: string): readonly Region[] {
  return regionsOf(reading.loops.filter((found) => found.layer === layer).map((found) => found.loop));
}

const nothing: DxfReading = {
  release: null,
  unitCode: null,
  mmPerUnit: 1,
  layers: [],
  loops: [],
  paths: [],
  texts: [],
  unread: [],
  findings: [],
};

interface Entity {
  readonly record: DxfRecord;
  readonly vertices: readonly DxfRecord[];
}

/** The records of the ENTITIES section, each polyline with the vertices that follow it. */
function entitiesOf(records: readonly DxfRecord[]): readonly Entity[] {
  const start = records.findIndex((r) => r.type === "SECTION" && wordOf(r, 2) === "ENTITIES");
  if (start < 0) return [];
  const end = records.findIndex((r, i) => i > start && r.type === "ENDSEC");
  const entities: { record: DxfRecord; vertices: DxfRecord[] }[] = [];
  for (const record of records.slice(start + 1, end < 0 ? undefined : end)) {
    if (record.type === "VERTEX" && entities.at(-1)?.record.type === "POLYLINE")
      entities.at(-1)!.vertices.push(record);
    else if (record.type !== "SEQEND") entities.push({ record, vertices: [] });
  }
  return entities;
}

function readEntity(
  { record, vertices }: Entity,
  mmPerUnit: number,
): DxfLoop | DxfPath | DxfText | DxfUnread {
  const layer = wordOf(record, 8) ?? "0";
  const place = { layer, line: record.line, handle: wordOf(record, 5) ?? null };
  if (numberOf(record, 67, 0) === 1)
    return { ...place, type: record.type, reason: "it lies on a paper page, not in the drawing" };
  const drawn = drawnBy(record, vertices);
  if (drawn.kind === "unread") return { ...place, type: record.type, reason: drawn.reason };
  if (drawn.kind === "text") {
    const { text, rotationDeg } = drawn;
    return { ...place, at: scaled(drawn.at, mmPerUnit), height: drawn.height * mmPerUnit, rotationDeg, text };
  }
  if (drawn.curve.vertices.length < 2)
    return { ...place, type: record.type, reason: "it has no length: fewer than two points" };
  const curve = {
    ...drawn.curve,
    vertices: drawn.curve.vertices.map((v) => ({ ...scaled(v, mmPerUnit), bulge: v.bulge })),
  } as Curve;
  return curve.closed ? { ...place, loop: curve } : { ...place, path: curve };
}

function scaled(p: Point, mmPerUnit: number): Point {
  return { x: p.x * mmPerUnit, y: p.y * mmPerUnit };
}

function notDxf(file: string, { line, reason }: NotDxf): Finding {
  return {
    code: "dxf_unreadable",
    severity: "error",
    path: `${file}:${line}`,
    message: `This is not a DXF file that can be read: ${reason}.`,
    numbers: { line },
    wayOut: "Export it again as text DXF, release R12 or later.",
  };
}
