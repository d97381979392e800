import { areaOf, CONTACT_MM, intersectionFlat, offsetFlat, type Point, type Region } from "@dryfit/geometry";
import type { Assembly, Joint } from "@dryfit/joinery";
import type { CutPart } from "@dryfit/verify";
import { type Axis, PLANE, planeSection, runsOn } from "./plane-section.ts";
import { loopsOf } from "./solid-faces.ts";

/** Air between tongue and housing on a section; negative is wood in wood. */
export interface Gap {
  readonly what: "side" | "end" | "shoulder";
  /** The two faces, on the section. */
  readonly a: Point;
  readonly b: Point;
  /** mm, from a to b. */
  readonly mm: number;
}

/** A joint cut square to its length: the two parts' wood, its gaps, and the wood that both claim. mm of the case. */
export interface JointSection {
  readonly axis: Axis;
  readonly at: number;
  readonly tongue: readonly Region[];
  readonly housing: readonly Region[];
  /** The tongue as designed. */
  readonly nominal: { readonly min: Point; readonly max: Point };
  readonly gaps: readonly Gap[];
  readonly clash: readonly Region[];
}

/** Where the joint may be cut: along its tongue, mm of the case. */
export function reachOf({ tongue: { box }, along }: Joint): { readonly from: number; readonly to: number } {
  return { from: box.min[along] + INSET_MM, to: box.max[along] - INSET_MM };
}

/** A section is kept off the tongue's very ends, mm. */
const INSET_MM = 1;

/** Null where one of the parts is not there. */
export function jointSection(
  assembly: Assembly,
  cutParts: readonly CutPart[],
  joint: Joint,
  at: number,
): JointSection | null {
  const wood = (part: string): readonly Region[] => {
    const cut = cutParts.find((each) => each.part === part);
    const pose = assembly.poses[part];
    return cut && pose ? planeSection(cut, pose, joint.along, at) : [];
  };
  const tongue = wood(joint.tongue.part);
  const housing = [joint.housing.part, ...(joint.housing.behind ?? [])].flatMap(wood);
  if (tongue.length === 0 || housing.length === 0) return null;
  const [right, up] = PLANE[joint.along];
  const { min, max } = joint.tongue.box;
  const nominal = { min: { x: min[right], y: min[up] }, max: { x: max[right], y: max[up] } };
  return {
    axis: joint.along,
    at,
    tongue,
    housing,
    nominal,
    gaps: gapsOf(joint, nominal, tongue, housing),
    clash: clashOf(tongue, housing),
  };
}

function gapsOf(
  joint: Joint,
  { min, max }: JointSection["nominal"],
  tongue: readonly Region[],
  housing: readonly Region[],
): readonly Gap[] {
  const acrossIs = PLANE[joint.along][0] === joint.across ? "x" : "y";
  const intoIs = acrossIs === "x" ? "y" : "x";
  const way = joint.into[0] === "+" ? 1 : -1;
  const point = (across: number, into: number): Point =>
    acrossIs === "x" ? { x: across, y: into } : { x: into, y: across };
  const [thin0, thin1] = [min[acrossIs], max[acrossIs]];
  const [root, tip] = way > 0 ? [min[intoIs], max[intoIs]] : [max[intoIs], min[intoIs]];
  const middle = (thin0 + thin1) / 2;
  const half = (root + tip) / 2;

  /** From a face of the tongue's part to the next wood of the housing's, along a line, the way that `sense` says. */
  const gap = (what: Gap["what"], over: "x" | "y", line: number, from: number, sense: 1 | -1): Gap[] => {
    const own = runsOn(loopsOf(tongue), over, line).find(([a, b]) => a <= from && from <= b);
    if (!own) return [];
    const face = sense > 0 ? own[1] : own[0];
    const walls = runsOn(loopsOf(housing), over, line).flatMap(([a, b]) => (sense > 0 ? a : b));
    const next = walls
      .map((wall) => sense * (wall - face))
      .filter((mm) => mm > -DEEPEST_MM && mm < REACH_MM)
      .sort((a, b) => a - b)[0];
    if (next === undefined) return [];
    const spot = (along: number): Point => (over === intoIs ? point(along, line) : point(line, along));
    return [{ what, a: spot(face), b: spot(face + sense * next), mm: next }];
  };
  const sides = ([-1, 1] as const).flatMap((sense) => gap("side", intoIs, half, middle, sense));
  const end = gap("end", acrossIs, middle, half, way);
  const shoulders = joint.shoulder
    ? [thin0 - SHOULDER_MM, thin1 + SHOULDER_MM].flatMap((line) =>
        gap("shoulder", acrossIs, line, root - way * BEHIND_MM, way),
      )
    : [];
  return [...sides, ...end, ...shoulders.slice(0, 1)];
}

/** No gap is looked for further away, mm. */
const REACH_MM = 5;
/** Nor wood in wood deeper than this. */
const DEEPEST_MM = 2;
/** How far beside the tongue the shoulder is measured, and how far behind it there must be wood, mm. */
const SHOULDER_MM = 2;
const BEHIND_MM = 1;

/** Faces that meet may share CONTACT_MM of wood: that is contact. */
function clashOf(tongue: readonly Region[], housing: readonly Region[]): readonly Region[] {
  const common = intersectionFlat(tongue, housing);
  return areaOf(offsetFlat(common, -CONTACT_MM / 2)) > 0 ? common : [];
}
