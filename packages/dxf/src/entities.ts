import {
  arctangent,
  type Curve,
  circle,
  cosine,
  type Path,
  type Point,
  SAME_POINT_MM,
  sine,
  tangentOf,
  type Vertex,
} from "@dryfit/geometry";
import { type DxfRecord, type Group, numberOf, toNumber, wordOf } from "./groups.ts";

/** What an entity draws, in the file's units; `reason` where we cannot tell. */
export type Drawn =
  | { readonly kind: "curve"; readonly curve: Curve }
  | {
      readonly kind: "text";
      readonly at: Point;
      readonly height: number;
      readonly rotationDeg: number;
      readonly text: string;
    }
  | { readonly kind: "unread"; readonly reason: string };

/** Reads one entity; `vertices` are the VERTEX records that follow a POLYLINE. */
export function drawnBy(record: DxfRecord, vertices: readonly DxfRecord[]): Drawn {
  const numbers = [record, ...vertices].flatMap(({ groups }) => groups).filter(({ code }) => isLength(code));
  const bad = numbers.find(({ value }) => Number.isNaN(toNumber(value)));
  if (bad) return { kind: "unread", reason: `"${bad.value}" on line ${bad.line} is no number` };
  const far = numbers.find(({ value }) => Math.abs(toNumber(value)) > FARTHEST);
  if (far)
    return { kind: "unread", reason: `"${far.value}" on line ${far.line} is beyond anything that is cut` };
  const facing = facingOf(record);
  if (facing === null) return { kind: "unread", reason: "it does not lie flat in the drawing's plane" };
  const drawn = reader(record, vertices);
  // Seen from behind: the object's own x axis runs the other way.
  return facing === "behind" && record.type !== "LINE" ? mirrored(drawn) : drawn;
}

function reader(record: DxfRecord, vertices: readonly DxfRecord[]): Drawn {
  switch (record.type) {
    case "LINE":
      return curve({
        closed: false,
        vertices: [
          { ...pointOf(record, 10), bulge: 0 },
          { ...pointOf(record, 11), bulge: 0 },
        ],
      });
    case "CIRCLE": {
      const radius = numberOf(record, 40, 0);
      return radius > 0 ? curve(circle(pointOf(record, 10), radius)) : unread("its radius is not above 0");
    }
    case "ARC": {
      const radius = numberOf(record, 40, 0);
      if (!(radius > 0)) return unread("its radius is not above 0");
      return curve(arcPath(pointOf(record, 10), radius, numberOf(record, 50, 0), numberOf(record, 51, 360)));
    }
    case "LWPOLYLINE":
      return curve(chain(lightVertices(record.groups), flag(record, 1)));
    case "POLYLINE":
      if (numberOf(record, 70, 0) & ~(1 | 128)) return unread("it is a fitted curve, a mesh or not flat");
      return curve(chain(vertices.map(heavyVertex), flag(record, 1)));
    case "TEXT":
      return textOf(record);
    default:
      return unread("only lines, arcs, circles and polylines are read");
  }
}

/** A million units: a kilometre where the file counts millimetres, and still exact to SAME_POINT_MM. */
const FARTHEST = 1e6;

function curve(drawn: Curve): Drawn {
  return { kind: "curve", curve: drawn };
}

function unread(reason: string): Drawn {
  return { kind: "unread", reason };
}

/** Codes that hold coordinates, radii, angles and bulges. */
function isLength(code: number): boolean {
  return code >= 10 && code <= 59;
}

function flag(record: DxfRecord, bit: number): boolean {
  return (numberOf(record, 70, 0) & bit) !== 0;
}

function pointOf(record: DxfRecord, code: 10 | 11): Point {
  return { x: numberOf(record, code, 0), y: numberOf(record, code + 10, 0) };
}

/** An extrusion of (0, 0, 1) is the plain case, (0, 0, −1) the plane seen from behind. */
function facingOf(record: DxfRecord): "front" | "behind" | null {
  const [x, y, z] = [210, 220, 230].map((code) => numberOf(record, code, code === 230 ? 1 : 0));
  if (x !== 0 || y !== 0) return null;
  return z === 1 ? "front" : z === -1 ? "behind" : null;
}

function mirrored(drawn: Drawn): Drawn {
  if (drawn.kind === "unread") return drawn;
  if (drawn.kind === "text") return { ...drawn, at: { x: 0 - drawn.at.x, y: drawn.at.y } };
  const vertices = drawn.curve.vertices.map((v) => ({ x: 0 - v.x, y: v.y, bulge: 0 - v.bulge }));
  return curve({ ...drawn.curve, vertices });
}

/** Group 10 starts a vertex; 20 and 42 belong to the one before them. */
function lightVertices(groups: readonly Group[]): readonly Vertex[] {
  const vertices: { x: number; y: number; bulge: number }[] = [];
  for (const { code, value } of groups) {
    if (code === 10) vertices.push({ x: toNumber(value), y: 0, bulge: 0 });
    const last = vertices.at(-1);
    if (last && code === 20) last.y = toNumber(value);
    if (last && code === 42) last.bulge = toNumber(value);
  }
  return vertices;
}

function heavyVertex(record: DxfRecord): Vertex {
  return { ...pointOf(record, 10), bulge: numberOf(record, 42, 0) };
}

/** A curve through the vertices: doubled ones dropped, arcs beyond half a turn split, a closed path closed. */
function chain(raw: readonly Vertex[], markedClosed: boolean): Curve {
  const vertices = raw.filter((v, i) => i === raw.length - 1 || !isSame(v, raw[i + 1]!));
  const returns = vertices.length > 2 && isSame(vertices[0]!, vertices.at(-1)!);
  const closed = markedClosed || returns;
  const ring = returns ? vertices.slice(0, -1) : vertices;
  const split = ring.flatMap((v, i) => {
    const next = ring[i + 1] ?? (closed ? ring[0] : undefined);
    return next ? halves(v, next) : [{ ...v, bulge: 0 }];
  });
  return { closed, vertices: split } as Curve;
}

function isSame(a: Point, b: Point): boolean {
  return Math.hypot(a.x - b.x, a.y - b.y) < SAME_POINT_MM;
}

/** We allow half a turn per arc; a wider one gets a vertex at its apex (DXF Reference: bulge = tan(sweep / 4)). */
function halves(v: Vertex, next: Point): readonly Vertex[] {
  if (Math.abs(v.bulge) <= 1) return [v];
  const half = tangentOf(arctangent(v.bulge, 1) / 2);
  const apex = {
    x: (v.x + next.x) / 2 + ((next.y - v.y) * v.bulge) / 2,
    y: (v.y + next.y) / 2 - ((next.x - v.x) * v.bulge) / 2,
  };
  return [
    { ...v, bulge: half },
    { ...apex, bulge: half },
  ];
}

/** Always counter-clockwise from `fromDeg` to `toDeg`, whichever is the larger number. */
function arcPath(centre: Point, radius: number, fromDeg: number, toDeg: number): Path {
  const sweepDeg = (((toDeg - fromDeg) % 360) + 360) % 360 || 360;
  const pieces = sweepDeg > 180 ? 2 : 1;
  const on = (deg: number) => ({
    x: centre.x + radius * cosine((deg * Math.PI) / 180),
    y: centre.y + radius * sine((deg * Math.PI) / 180),
  });
  const bulge = tangentOf((sweepDeg * Math.PI) / 180 / pieces / 4);
  const vertices = Array.from({ length: pieces + 1 }, (_, i) => ({
    ...on(fromDeg + (sweepDeg * i) / pieces),
    bulge: i === pieces ? 0 : bulge,
  }));
  return { closed: false, vertices };
}

/** Aligned text (72 or 73 above 0) stands at its second point. */
function textOf(record: DxfRecord): Drawn {
  const aligned = numberOf(record, 72, 0) > 0 || numberOf(record, 73, 0) > 0;
  return {
    kind: "text",
    at: pointOf(record, aligned && wordOf(record, 11) !== undefined ? 11 : 10),
    height: numberOf(record, 40, 0),
    rotationDeg: numberOf(record, 50, 0),
    text: wordOf(record, 1) ?? "",
  };
}
