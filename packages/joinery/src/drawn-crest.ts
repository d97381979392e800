import { arctangent, distance, type Path, type Point, point, reversed } from "@dryfit/geometry";
import type { Design } from "./design.ts";

/** How a drawn line lies to the place where it should run. */
export interface CrestFit {
  readonly drawn: Point;
  readonly wanted: Point;
  /** From the drawn end to where it should be, once both begin at one place, mm. */
  readonly off: number;
  readonly most: number;
  /** What would make the line as long from end to end as the place. */
  readonly scale: number;
  readonly turnDeg: number;
}

/** Ends that miss their rails by no more are put there, mm. */
const END_MM = 0.1;

/** Null where nothing is drawn. */
export function crestFit(design: Design): CrestFit | null {
  const line = drawnLine(design);
  if (line === null) return null;
  const { drawing } = design.cheek.crest;
  const { from, to } = ends(line);
  const drawn = { x: to.x - from.x, y: to.y - from.y };
  const [front, back] = crestEnds(design);
  const wanted = { x: back.x - front.x, y: back.y - front.y };
  const turn = arctangent(wanted.y, wanted.x) - arctangent(drawn.y, drawn.x);
  const isFitted = drawing?.scale === "fit";
  return {
    drawn,
    wanted,
    off: isFitted ? 0 : Math.hypot(drawn.x - wanted.x, drawn.y - wanted.y),
    most: END_MM,
    scale:
      (Math.hypot(wanted.x, wanted.y) / Math.hypot(drawn.x, drawn.y)) *
      (isFitted ? 1 : Number(drawing?.scale ?? 1)),
    turnDeg: Math.abs((turn * 180) / Math.PI),
  };
}

/** The drawn crest from rail to rail: begun at the front rail's top, its end put onto the back rail's. Null where it cannot be. */
export function drawnCrest(design: Design): Path<"panel"> | null {
  const line = drawnLine(design);
  const fit = crestFit(design);
  if (line === null || fit === null || fit.off > fit.most) return null;
  const { from, to } = ends(line);
  const [front, back] = crestEnds(design);
  const isFitted = design.cheek.crest.drawing?.scale === "fit";
  // A similarity: the drawn chord onto the wanted one. Arcs stay arcs.
  const chord = { x: to.x - from.x, y: to.y - from.y };
  const span = isFitted ? { x: back.x - front.x, y: back.y - front.y } : chord;
  const square = chord.x ** 2 + chord.y ** 2;
  const cos = (chord.x * span.x + chord.y * span.y) / square;
  const sin = (chord.x * span.y - chord.y * span.x) / square;
  const vertices = line.vertices.map((v, i) => {
    if (i === line.vertices.length - 1) return { ...back, bulge: 0 };
    const [x, y] = [v.x - from.x, v.y - from.y];
    return { x: front.x + x * cos - y * sin, y: front.y + x * sin + y * cos, bulge: v.bulge };
  });
  return { closed: false, vertices } as Path<"panel">;
}

/** Run from the left end to the right one. */
function drawnLine({ drawn }: Design): Path | null {
  const line = drawn["cheek.crest.file"]?.paths[0];
  if (line === undefined || line.vertices.length < 2) return null;
  const { from, to } = ends(line);
  if (distance(from, to) < 1) return null;
  return from.x <= to.x ? line : reversed(line);
}

function ends(line: Path): { readonly from: Point; readonly to: Point } {
  return { from: line.vertices[0]!, to: line.vertices.at(-1)! };
}

function crestEnds({ inside, cheek }: Design): readonly [Point<"panel">, Point<"panel">] {
  const { above } = cheek.crest;
  return [point(0, inside.front + above), point(inside.depth, inside.back + above)];
}
