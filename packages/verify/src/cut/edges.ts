import {
  CUT_MM,
  contains,
  differenceFlat,
  distance,
  EDGE_MM,
  type Loop,
  lengthOf,
  type Path,
  type Point,
  place,
  pointAt,
  polygon,
  type Region,
  scale,
  sweepFlat,
  tangentAt,
} from "@dryfit/geometry";
import type { Face, Finding, Part, RoundOver } from "@dryfit/joinery";
import type { ProgramFile } from "../proof.ts";
import type { Bench } from "./bench.ts";
import type { Storey } from "./designed.ts";
import { cuttingRadius, takenIn } from "./edge-profile.ts";
import { nearestOn } from "./gap.ts";
import { boundaryOf, sideInto } from "./gouge.ts";
import { boxAround, boxOfSegment, gridOf, grown } from "./grid.ts";
import { depthOf, type Stroke } from "./stroke.ts";

/** A part with the strokes that shaped cutters make near it. */
export interface EdgeBench extends Pick<Bench, "part" | "sheetFromPanel"> {
  readonly strokes: readonly Stroke<"panel">[];
}

/**
 * What shaped cutters make of a part's edges, slice by slice: what they take beyond the designed profile, and what
 * they leave of it on the edges that programs declare to make.
 */
export function checkEdges(
  bench: EdgeBench,
  storeys: readonly Storey[],
  programs: readonly ProgramFile[],
): Finding[] {
  const { part } = bench;
  const declared = programs.flatMap(({ file, edges = [] }) =>
    edges.filter((edge) => edge.part === part.id).map((edge) => ({ file, ...edge })),
  );
  if (bench.strokes.length === 0 && declared.length === 0) return [];
  return [
    ...gouges(bench, storeys),
    ...declared.flatMap((edge) => {
      const over = part.roundOvers.find(({ id }) => id === edge.edge);
      return over === undefined ? [unknownEdge(edge.file, part, edge.edge)] : keeps(bench, over, edge);
    }),
  ];
}

/** So many slices tell a profile: between two of them it bends by far less than is allowed. */
const SLICES = 12;

interface Slice {
  readonly face: Face;
  /** Under that face, mm. */
  readonly depth: number;
}

function slicesOf(part: Part, strokes: readonly Stroke<"panel">[]): Slice[] {
  const t = part.thickness.mean;
  return (["A", "B"] as const).flatMap((face) => {
    const own = strokes.filter(({ program }) => program.setup === face);
    if (own.length === 0) return [];
    const deepest = Math.max(...own.map((stroke) => tipUnder(stroke, t)));
    const radii = part.roundOvers.filter(({ faces }) => faces.includes(face)).map(({ radius }) => radius);
    const most = Math.min(t, Math.max(deepest, ...radii));
    const fine = Math.max(0, ...radii);
    const depths = [
      ...Array.from({ length: SLICES }, (_, i) => (fine * (i + 0.02)) / SLICES),
      ...Array.from({ length: SLICES }, (_, i) => fine + ((most - fine) * (i + 0.02)) / SLICES),
    ];
    return [...new Set(depths)].map((depth) => ({ face, depth }));
  });
}

/** How deep a stroke's tip is under the face that is up, at its deeper end or at its shallower. */
function tipUnder({ program, z }: Stroke<"panel">, thickness: number, end = Math.min): number {
  const depth = depthOf(program, end(...z), thickness);
  return program.setup === "A" ? depth : thickness - depth;
}

function gouges({ part, sheetFromPanel, strokes }: EdgeBench, storeys: readonly Storey[]): Finding[] {
  const t = part.thickness.mean;
  const worst = new Map<
    string,
    { width: number; at: Point<"panel">; stroke: Stroke<"panel">; depth: number }
  >();
  for (const { face, depth } of slicesOf(part, strokes)) {
    const fromA = face === "A" ? depth : t - depth;
    const storey = storeys.find(({ from, to }) => from <= fromA && fromA <= to);
    if (storey === undefined) continue;
    const boundary = boundaryOf(keptAt(part, storey, face, depth));
    for (const stroke of strokes) {
      if (stroke.program.setup !== face) continue;
      const height = tipUnder(stroke, t) - depth;
      const bearing = height > 0 ? (stroke.cutter.bearingDiameter ?? 0) / 2 : 0;
      const radius = Math.max(cuttingRadius(stroke.cutter, height), bearing);
      if (radius === 0) continue;
      const { width, at } = sideInto(boundary, stroke.path, radius);
      const { file } = stroke.program;
      if (width > CUT_MM && width > (worst.get(file)?.width ?? 0))
        worst.set(file, { width, at, stroke, depth });
    }
  }
  return [...worst].map(([file, { width, at, stroke, depth }]) => {
    const on = place(sheetFromPanel, at);
    return {
      code: "gouge",
      severity: "error",
      path: `${file}:${stroke.line}`,
      message: `${part.title} loses wood that should stay beside its edge: ${mm(width)} at (${on.x.toFixed(1)}, ${on.y.toFixed(1)}), ${mm(depth)} deep.`,
      numbers: { line: stroke.line, gouge: width, x: on.x, y: on.y, depth },
    };
  });
}

/** What the design keeps at a slice: the storey without what its edges take in there. */
function keptAt(part: Part, { kept }: Storey, face: Face, depth: number): readonly Region<"panel">[] {
  const strips = part.roundOvers.flatMap((over) => {
    const by = over.faces.includes(face) ? takenIn(over, depth) : 0;
    return by > 0 ? differenceFlat(sweepFlat([over.run], by), beyondEnds(over.run, by)) : [];
  });
  return strips.length === 0 ? kept : differenceFlat(kept, strips);
}

/** What a strip along a run would take beyond its ends: squares that stand on them, or a hair beyond. */
function beyondEnds(run: Path<"panel">, by: number): Region<"panel">[] {
  const length = lengthOf(run);
  return [
    { at: pointAt(run, 0), ahead: scale(tangentAt(run, 0), -1) },
    { at: pointAt(run, length), ahead: tangentAt(run, length) },
  ].map(({ at, ahead }) => {
    const corner = (along: number, aside: number): Point<"panel"> => ({
      x: at.x + ahead.x * along - ahead.y * aside,
      y: at.y + ahead.y * along + ahead.x * aside,
    });
    const [from, to, side] = [EDGE_MM, EDGE_MM + 2 * by, 2 * by];
    const outer = polygon([corner(from, -side), corner(to, -side), corner(to, side), corner(from, side)]);
    return { outer, holes: [] };
  });
}

type Declared = NonNullable<ProgramFile["edges"]>[number] & { readonly file: string };

/** Looked at so often along an edge, mm. */
const LOOK_MM = 2;

function keeps({ part, sheetFromPanel, strokes }: EdgeBench, over: RoundOver, edge: Declared): Finding[] {
  const t = part.thickness.mean;
  const own = strokes.filter(({ program }) => program.setup === edge.face && program.file === edge.file);
  const grid = gridOf(own, ({ path, cutter }) => grown(boxOfSegment(path), cutter.diameter / 2), 10);
  const length = lengthOf(over.run);
  const [from, to] = [edge.left[0], length - edge.left[1]];
  const looks = Math.max(1, Math.ceil((to - from) / LOOK_MM));
  const side = inwards(part.outline, over.run);
  let worst = { width: 0, at: over.run.vertices[0] as Point<"panel">, depth: 0 };
  for (let i = 0; i <= looks; i++) {
    const s = from + ((to - from) * i) / looks;
    const [p, ahead] = [pointAt(over.run, s), tangentAt(over.run, s)];
    for (let k = 0; k < SLICES; k++) {
      const depth = (over.radius * (k + 0.02)) / SLICES;
      const by = takenIn(over, depth);
      const q: Point<"panel"> = { x: p.x - ahead.y * side * by, y: p.y + ahead.x * side * by };
      const short = Math.min(
        ...grid.near(boxAround(q, EDGE_MM)).map((stroke) => {
          const radius = cuttingRadius(stroke.cutter, tipUnder(stroke, t, Math.max) - depth);
          return radius === 0 ? Number.POSITIVE_INFINITY : distance(nearestOn(stroke.path, q), q) - radius;
        }),
        by,
      );
      if (short > worst.width) worst = { width: short, at: p, depth };
    }
  }
  if (worst.width <= EDGE_MM) return [];
  const on = place(sheetFromPanel, worst.at);
  return [
    {
      code: "edge_uncut",
      severity: "error",
      path: part.id,
      message: `${part.title} keeps wood at its edge ${over.id.replaceAll("-", " ")}: ${mm(worst.width)} at (${on.x.toFixed(1)}, ${on.y.toFixed(1)}), ${mm(worst.depth)} deep.`,
      numbers: { uncut: worst.width, x: on.x, y: on.y, depth: worst.depth },
    },
  ];
}

/** 1 where the part lies to the left of the run, −1 to its right. */
function inwards(outline: Loop<"panel">, run: Path<"panel">): 1 | -1 {
  const s = lengthOf(run) / 2;
  const [p, ahead] = [pointAt(run, s), tangentAt(run, s)];
  const beside = { x: p.x - ahead.y * ASIDE_MM, y: p.y + ahead.x * ASIDE_MM };
  return contains(outline, beside) === "inside" ? 1 : -1;
}

const ASIDE_MM = 0.05;

function unknownEdge(file: string, part: Part, edge: string): Finding {
  return {
    code: "unknown_edge",
    severity: "error",
    path: file,
    message: `The program makes an edge "${edge}" that ${part.title} does not have.`,
    numbers: {},
  };
}

const mm = (value: number) => `${Number(value.toFixed(3))} mm`;
