import {
  arctangent,
  type Box,
  boundsOf,
  isSimple,
  type Loop,
  offset,
  type Path,
  type Point,
  place,
  placeCurve,
  placement,
  placeRegion,
  point,
  type Region,
  reversed,
  roundedRectangle,
  SAME_POINT_MM,
  sine,
  tangentOf,
  union,
} from "@dryfit/geometry";
import type { Pose } from "./assembly.ts";
import { type Corner, corner, rounded, tangentLength } from "./corner.ts";
import type { Design, FootRules } from "./design.ts";
import type { CaseNumbers, Span } from "./numbers.ts";
import type { Feature, Part, Recess } from "./part.ts";
import { woodRound } from "./rounded-box.ts";
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
export function cheekOutline(design: Design, numbers: CaseNumbers, crest: Path<"panel">): Loop<"panel"> {
  const { front, back } = feetOf(design, numbers);
  const { belly } = numbers;
  const { min: y0, max: y1 } = numbers.cheek;
  const rules = design.cheek.feet;
  const drawn = rounded([
    ...(front
      ? [at(front.outer), at(front.inner), at(front.belly, Math.max(rules.front.radius, numbers.r))]
      : [corner(y0, belly)]),
    ...(back
      ? [at(back.belly, Math.max(rules.back.radius, numbers.r)), at(back.inner), at(back.outer)]
      : [corner(y1, belly)]),
    ...topCorners(design, numbers, crest),
  ]);
  return design.cheek.crest.form === "drawn" ? asCutterLeaves(drawn, numbers.r) : drawn;
}

/** Somebody's own crest may have inside corners that are sharper than the cutter. */
function asCutterLeaves(outline: Loop<"panel">, r: number): Loop<"panel"> {
  const [reached] = offset(offset([{ outer: outline, holes: [] }], r), -r);
  return reached?.outer ?? outline;
}

function topCorners(design: Design, numbers: CaseNumbers, crest: Path<"panel">): Corner[] {
  const { above } = design.cheek.crest;
  return [
    corner(numbers.cheek.max, design.inside.back + above),
    ...crestCorners(reversed(crest), numbers.r),
    corner(numbers.cheek.min, design.inside.front + above),
  ];
}

/** Whether the crest leaves a rail so steeply that no cutter rounds the corner there. */
export function isSteep(design: Design, numbers: CaseNumbers, crest: Path<"panel">): boolean {
  try {
    return !isSimple(topOutline(design, numbers, crest));
  } catch (error) {
    if (error instanceof RangeError) return true;
    throw error;
  }
}

/** The cheek as if it had no feet and no end below. */
function topOutline(design: Design, numbers: CaseNumbers, crest: Path<"panel">): Loop<"panel"> {
  const far = -10_000;
  return rounded([
    corner(numbers.cheek.min, far),
    corner(numbers.cheek.max, far),
    ...topCorners(design, numbers, crest),
  ]);
}

/** Feet stand on one plane: the line through both outer corners. */
export function feetOf(
  design: Design,
  numbers: CaseNumbers,
): { readonly front: Foot | null; readonly back: Foot | null } {
  const { front, back } = design.cheek.feet;
  const { min: y0, max: y1 } = numbers.cheek;
  const { belly } = numbers;
  const slope = (back.drop - front.drop) / (y1 - y0);
  const floor = (y: number): number => belly - front.drop - slope * (y - y0);
  const foot = (rules: FootRules, edge: number, inwards: 1 | -1): Foot | null => {
    if (rules.drop <= 0) return null;
    const inner = edge + inwards * rules.length;
    const run = (belly - floor(inner)) / tangentOf((rules.angle * Math.PI) / 180);
    return {
      outer: point(edge, floor(edge)),
      inner: point(inner, floor(inner)),
      belly: point(inner + inwards * run, belly),
    };
  };
  return { front: foot(front, y0, 1), back: foot(back, y1, -1) };
}

/** The straight stretch between the feet's curves, in y of the case. */
export function bellyOf(design: Design, numbers: CaseNumbers): Span {
  const { front, back } = feetOf(design, numbers);
  const { feet } = design.cheek;
  const tangent = ({ radius, angle }: FootRules): number =>
    tangentLength(Math.max(radius, numbers.r), (angle * Math.PI) / 180);
  return {
    min: front ? front.belly.x + tangent(feet.front) : numbers.cheek.min,
    max: back ? back.belly.x - tangent(feet.back) : numbers.cheek.max,
  };
}

/** How high the rails' housings may go, for the crest and the stop. */
export function housingReach(design: Design, numbers: CaseNumbers, outline: Loop<"panel">): HousingReach {
  const long = numbers.style === "full" || lowerPiece(design, numbers) !== null;
  const min = long ? Math.min(numbers.lowest, numbers.baseHousing.min) : numbers.baseHousing.min;
  const wood = woodRound(outline, numbers.r);
  // A housing is at least as long as its two round ends.
  const least = min + 2 * numbers.r;
  const reach = (across: Span, highest: number): Span => ({
    min,
    max: highestUnder(wood, across, highest, { bottom: min, least, stop: design.joint.stop }),
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
    features: housings(numbers, reach).map((h) => ({
      ...h,
      region: placeRegion(panelFromCase, h.region),
    })),
    grain: "x",
    faceNames: { A: "inside", B: "outside" },
  });
  return { part, pose: leftPose(box) };
}

/** How a left cheek stands whose outline, seen from the side, lies in `box`: its inside face at the case's. */
export function leftPose({ min }: Box): Pose {
  return { origin: { x: 0, y: min.x, z: min.y }, x: "+y", y: "+z", into: "-x", datum: "A" };
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
      features: part.features.map((f): Feature => {
        if (f.kind === "recess") return { ...f, region: placeRegion(mirror, f.region) };
        if (f.kind === "opening") return { ...f, loop: placeCurve(mirror, f.loop) as Loop<"panel"> };
        return { ...f, at: place(mirror, f.at) };
      }),
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
function housings(numbers: CaseNumbers, reach: HousingReach): Recess[] {
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

/** The highest top of a housing under the crest: in full tenths where a sloping crest decides it. */
function highestUnder(
  wood: (y: Span, z: Span) => number,
  y: Span,
  highest: number,
  { bottom, least, stop }: { readonly bottom: number; readonly least: number; readonly stop: number },
): number {
  const fits = (max: number): boolean => wood(y, { min: bottom, max }) >= stop - SAME_POINT_MM;
  if (fits(highest)) return highest;
  // Where something else than the crest is too near, no top helps; the check of the housings says so.
  let [low, high] = [Math.ceil(10 * least), Math.floor(10 * highest)];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (fits(middle / 10)) low = middle;
    else high = middle;
  }
  return low / 10;
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
  const tangent = chord + (i === 0 ? -1 : 1) * 2 * arctangent(bulge, 1);
  const turn = i === 0 ? tangent - Math.PI : Math.PI - tangent;
  return sine(turn) < -1e-6;
}

function direction(a: Point, b: Point): number {
  return arctangent(b.y - a.y, b.x - a.x);
}

function at(p: Point<"panel">, radius = 0): Corner {
  return corner(p.x, p.y, radius);
}
