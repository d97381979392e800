import {
  boundsOf,
  distance,
  distanceTo,
  type Loop,
  type Path,
  type Point,
  placeCurve,
  placement,
  placeRegion,
  point,
  polyline,
  type Region,
  reversed,
  roundedRectangle,
  union,
} from "@dryfit/geometry";
import type { Pose } from "./assembly.ts";
import { type Corner, corner, rounded } from "./corner.ts";
import { crestOf } from "./crest.ts";
import type { Design, FootRules } from "./design.ts";
import type { CaseNumbers, Span } from "./numbers.ts";
import type { Part, Recess } from "./part.ts";
import { sheetPart } from "./sheet-part.ts";

/** How far rail housings reach, in z: what the crest leaves room for. */
export interface HousingReach {
  readonly front: Span;
  readonly back: Span;
}

export interface Foot {
  /** Where it stands on the floor, from the cheek's edge inwards. */
  readonly outer: Point<"panel">;
  readonly inner: Point<"panel">;
  /** Where its end would meet the belly without the curve. */
  readonly belly: Point<"panel">;
}

/** The left cheek seen from inside, in y and z of the case. */
export function cheekOutline(design: Design, numbers: CaseNumbers): Loop<"panel"> {
  const { front, back } = feetOf(design, numbers);
  const belly = -numbers.t;
  const { min: y0, max: y1 } = numbers.cheek;
  const { above } = design.cheek.crest;
  const crest = reversed(crestOf(design));
  const top = { front: design.inside.front + above, back: design.inside.back + above };
  const rules = design.cheek.feet;
  return rounded([
    ...(front
      ? [at(front.outer), at(front.inner), at(front.belly, Math.max(rules.front.radius, numbers.r))]
      : [corner(y0, belly)]),
    ...(back
      ? [at(back.belly, Math.max(rules.back.radius, numbers.r)), at(back.inner), at(back.outer)]
      : [corner(y1, belly)]),
    corner(y1, top.back),
    ...crestCorners(crest, numbers.r),
    corner(y0, top.front),
  ]);
}

/** Feet stand on one plane: the line through both outer corners. */
export function feetOf(
  design: Design,
  numbers: CaseNumbers,
): { readonly front: Foot | null; readonly back: Foot | null } {
  const { front, back } = design.cheek.feet;
  const { min: y0, max: y1 } = numbers.cheek;
  const belly = -numbers.t;
  const slope = (back.drop - front.drop) / (y1 - y0);
  const floor = (y: number): number => belly - front.drop - slope * (y - y0);
  const foot = (rules: FootRules, edge: number, inwards: 1 | -1): Foot | null => {
    if (rules.drop <= 0) return null;
    const inner = edge + inwards * rules.length;
    const run = (belly - floor(inner)) / Math.tan((rules.angle * Math.PI) / 180);
    return {
      outer: point(edge, floor(edge)),
      inner: point(inner, floor(inner)),
      belly: point(inner + inwards * run, belly),
    };
  };
  return { front: foot(front, y0, 1), back: foot(back, y1, -1) };
}

/** How high the rails' housings may go, for the crest and the stop. */
export function housingReach(design: Design, numbers: CaseNumbers, outline: Loop<"panel">): HousingReach {
  const long = numbers.style === "full" || lowerPiece(design, numbers) !== null;
  const min = long ? Math.min(numbers.lowest, numbers.baseHousing.min) : numbers.baseHousing.min;
  const reach = (across: Span, highest: number): Span => ({
    min,
    max: highestUnder(outline, across, highest, min, numbers.r, design.joint.stop),
  });
  return {
    front: reach(numbers.frontHousing, numbers.highest.front),
    back: reach(numbers.backHousing, numbers.highest.back),
  };
}

/** The piece of an inner rail tongue below the groove, where it is long enough to hold. */
export function lowerPiece(design: Design, numbers: CaseNumbers): Span | null {
  if (numbers.style === "full") return null;
  const piece = { min: numbers.lowest + numbers.shortOf, max: numbers.baseHousing.min };
  return piece.max - piece.min >= design.joint.piece ? piece : null;
}

export function leftCheek(
  design: Design,
  numbers: CaseNumbers,
  outline: Loop<"panel">,
  reach: HousingReach,
): { readonly part: Part; readonly pose: Pose } {
  const box = boundsOf(outline);
  const panelFromCase = placement<"panel", "panel">(point(-box.min.x, -box.min.y));
  const part = sheetPart(design, {
    id: "cheek-left",
    panel: "cheek",
    title: "Left cheek",
    outline: placeCurve(panelFromCase, outline) as Loop<"panel">,
    features: housings(design, numbers, reach).map((h) => ({
      ...h,
      region: placeRegion(panelFromCase, h.region),
    })),
    grain: "x",
    faceNames: { A: "inside", B: "outside" },
  });
  const pose: Pose = {
    origin: { x: 0, y: box.min.x, z: box.min.y },
    x: "+y",
    y: "+z",
    into: "-x",
    datum: "A",
  };
  return { part, pose };
}

/** The right cheek is the left one mirrored. */
export function rightCheek(
  left: { readonly part: Part; readonly pose: Pose },
  width: number,
): { readonly part: Part; readonly pose: Pose } {
  const length = boundsOf(left.part.outline).max.x;
  const mirror = placement<"panel", "panel">(point(length, 0), { flip: true });
  const { part, pose } = left;
  return {
    part: {
      ...part,
      id: "cheek-right",
      title: "Right cheek",
      outline: placeCurve(mirror, part.outline) as Loop<"panel">,
      features: part.features.map((f) =>
        f.kind === "recess" ? { ...f, region: placeRegion(mirror, f.region) } : f,
      ),
    },
    pose: {
      origin: { x: width, y: pose.origin.y + length, z: pose.origin.z },
      x: "-y",
      y: "+z",
      into: "+x",
      datum: "A",
    },
  };
}

/** The base's and the rails' housings; those that touch are one. */
function housings(design: Design, numbers: CaseNumbers, reach: HousingReach): Recess[] {
  const { baseHousing, frontHousing, backHousing, r, recessDepth } = numbers;
  const slots = [
    slot({ min: frontHousing.min, max: backHousing.max }, baseHousing, r),
    slot(frontHousing, reach.front, r),
    slot(backHousing, reach.back, r),
  ];
  const regions = union(slots.map((outer): Region<"panel"> => ({ outer, holes: [] })));
  return regions.map((region, i) => ({
    kind: "recess",
    id: i === 0 ? "housing" : `housing-${i + 1}`,
    face: "A",
    region,
    depth: recessDepth,
    purpose: "housing",
  }));
}

function slot(y: Span, z: Span, r: number): Loop<"panel"> {
  return roundedRectangle(point(y.min, z.min), point(y.max, z.max), r);
}

function highestUnder(
  outline: Loop<"panel">,
  across: Span,
  highest: number,
  lowest: number,
  r: number,
  stop: number,
): number {
  // The wall that is round at both top corners is nearest to the outline at the corners' centres.
  const left = (top: number): number => {
    const [a, b] = [point<"panel">(across.min + r, top - r), point<"panel">(across.max - r, top - r)];
    return Math.min(distanceTo(outline, a), distanceTo(outline, b)) - r;
  };
  if (left(highest) >= stop - 1e-9) return highest;
  let [low, high] = [lowest, highest];
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (left(middle) >= stop) low = middle;
    else high = middle;
  }
  return Math.floor(low * 10) / 10;
}

function crestCorners(crest: Path<"panel">, r: number): Corner[] {
  // Only corners that the wood turns into need the cutter's radius; the curve's own joints are smooth.
  return crest.vertices.map((v, i) => {
    const end = i === 0 || i === crest.vertices.length - 1;
    return { x: v.x, y: v.y, bulge: v.bulge, radius: end && concave(crest, i) ? r : 0 };
  });
}

/** Whether the crest (run backwards, wood on its left) turns right where it meets the level over a rail. */
function concave(crest: Path<"panel">, i: number): boolean {
  const here = crest.vertices[i]!;
  const other = crest.vertices[i === 0 ? 1 : i - 1]!;
  const bulge = i === 0 ? here.bulge : other.bulge;
  const chord = i === 0 ? direction(here, other) : direction(other, here);
  // A chord's own tangents differ from it by half the sweep.
  const tangent = chord + (i === 0 ? -1 : 1) * 2 * Math.atan(bulge);
  const turn = i === 0 ? tangent - Math.PI : Math.PI - tangent;
  return Math.sin(turn) < -1e-6;
}

function direction(a: Point, b: Point): number {
  return Math.atan2(b.y - a.y, b.x - a.x);
}

function at(p: Point<"panel">, radius = 0): Corner {
  return corner(p.x, p.y, radius);
}
