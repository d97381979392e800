import { boundsOf, type Path, type Point, point } from "@dryfit/geometry";
import type { Pose } from "./assembly.ts";
import { bellyOf, feetOf } from "./cheek.ts";
import type { Design } from "./design.ts";
import type { CaseNumbers } from "./numbers.ts";
import type { Part } from "./part.ts";
import { panelFromCase } from "./pose.ts";
import { runBetween } from "./run-between.ts";

/** The stretch of a part's outline that a named edge is. Errors: RangeError where the part has no such edge. */
export function edgeRun(
  part: Part,
  pose: Pose,
  edge: string,
  design: Design,
  numbers: CaseNumbers,
): Path<"panel"> {
  const ends = part.panel === "cheek" ? cheekEdge(edge, design, numbers) : straightEdge(part, edge, design);
  if (ends === null) throw new RangeError(`${part.id} has no edge "${edge}"`);
  return part.panel === "cheek" ? onCheek(part, pose, ends) : runBetween(part.outline, ends[0], ends[1]);
}

/** The crest from rail to rail, without what lies over them. */
export function crestBetweenRails(part: Part, pose: Pose, { inside }: Design): Path<"panel"> {
  return onCheek(part, pose, [point(inside.depth, inside.back), point(0, inside.front)]);
}

/** The stretches on which a cheek stands. */
export function footRuns(part: Part, pose: Pose, design: Design, numbers: CaseNumbers): Path<"panel">[] {
  const { front, back } = feetOf(design, numbers);
  return [
    ...(front ? [onCheek(part, pose, [front.outer, front.inner])] : []),
    ...(back ? [onCheek(part, pose, [back.inner, back.outer])] : []),
  ];
}

type Ends = readonly [Point<"panel">, Point<"panel">];

/** In y and z of the case, in the order of a left cheek's outline. */
function cheekEdge(edge: string, design: Design, numbers: CaseNumbers): Ends | null {
  const { inside, cheek } = design;
  const { front, back } = feetOf(design, numbers);
  const { min: y0, max: y1 } = numbers.cheek;
  const belly = bellyOf(design, numbers);
  const tops = {
    front: point<"panel">(y0, inside.front + cheek.crest.above),
    back: point<"panel">(y1, inside.back + cheek.crest.above),
  };
  if (edge === "crest") return [tops.back, tops.front];
  if (edge === "front") return [tops.front, front?.outer ?? point(y0, numbers.belly)];
  if (edge === "back") return [back?.outer ?? point(y1, numbers.belly), tops.back];
  if (edge === "belly") return [point(belly.min, numbers.belly), point(belly.max, numbers.belly)];
  return null;
}

/** Rails and slats; a slat lies face A down, so its front is the panel's top. */
function straightEdge(part: Part, edge: string, design: Design): Ends | null {
  const { x, y } = boundsOf(part.outline).max;
  const l = part.panel === "rail" ? design.joint.tongue.length : 0;
  const bottom: Ends = [point(l, 0), point(x - l, 0)];
  const top: Ends = [point(x - l, y), point(l, y)];
  if (part.panel === "rail") return edge === "top" ? top : edge === "bottom" ? bottom : null;
  if (edge === "front") return top;
  if (edge === "back") return bottom;
  if (edge === "left") return [point(0, y), point(0, 0)];
  return edge === "right" ? [point(x, 0), point(x, y)] : null;
}

/** A right cheek is the left one mirrored: its outline meets the ends in the other order. */
function onCheek(part: Part, pose: Pose, [from, to]: Ends): Path<"panel"> {
  const inPanel = (p: Point<"panel">): Point<"panel"> => panelFromCase(pose, { x: 0, y: p.x, z: p.y });
  const [a, b] = pose.x === "-y" ? [to, from] : [from, to];
  return runBetween(part.outline, inPanel(a), inPanel(b));
}
