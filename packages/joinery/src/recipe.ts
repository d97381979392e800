import { boundsOf, type Loop } from "@dryfit/geometry";
import type { Assembly, Point3, Pose } from "./assembly.ts";
import { base } from "./base.ts";
import { checkCheek } from "./check-cheek.ts";
import { checkDrawings } from "./check-drawings.ts";
import { checkHousings } from "./check-housings.ts";
import { checkJoints } from "./check-joints.ts";
import { checkOpenings } from "./check-openings.ts";
import { checkOpeningShapes } from "./check-shapes.ts";
import { checkPartsOnSheets, checkSheet } from "./check-sheet.ts";
import { checkTier, checkTierUnderCrest } from "./check-tier.ts";
import { cheekOutline, feetOf, type HousingReach, housingReach, leftCheek, rightCheek } from "./cheek.ts";
import { crestOf } from "./crest.ts";
import type { Design } from "./design.ts";
import { footRuns } from "./edge-runs.ts";
import { checkEdges, withRoundOvers } from "./edges.ts";
import type { Finding } from "./finding.ts";
import type { FindingCode } from "./findings.ts";
import { jointsOf } from "./joints.ts";
import { type Built, layeredCase, type Placed } from "./layered.ts";
import { type CaseNumbers, numbersOf } from "./numbers.ts";
import { withOpenings } from "./openings.ts";
import type { Part } from "./part.ts";
import { rail } from "./rail.ts";
import { tierHinge, tierParts } from "./tier.ts";
import { checkWeight } from "./weight.ts";

/**
 * The whole case: its parts as they are cut and as they stand, its joints, and all that a maker must know.
 *
 * A design that cannot be made has findings of severity "error"; where it cannot even be drawn, no parts.
 */
export function recipe(design: Design): Assembly {
  const numbers = numbersOf(design);
  const crest = crestOf(design);
  const sums = [
    ...checkSheet(design),
    ...checkJoints(design, numbers),
    ...checkCheek(design, numbers, crest),
    ...checkTier(design, numbers),
    ...checkOpenings(design),
    ...checkEdges(design),
    ...checkDrawings(design),
  ];
  if (crest === null || sums.some((f) => f.severity === "error" && !DRAWABLE.has(f.code))) {
    return caseOf(design, numbers, heightWithoutCrest(design, numbers), [], [], sums);
  }
  const outline = cheekOutline(design, numbers, crest);
  const reach = housingReach(design, numbers, outline);
  const built = design.layers
    ? layeredCase(design, numbers, design.layers, outline, reach)
    : housedCase(design, numbers, outline, reach);
  const parts = built.placed.map(({ part }) => part);
  const { min, max } = boundsOf(outline);
  const made = caseOf(design, numbers, max.y - min.y, built.placed, built.joints, [
    ...sums,
    ...checkHousings(design, numbers, outline, reach).filter((f) => !told(sums, f)),
    ...checkTierUnderCrest(design, numbers, crest),
    ...built.findings,
    ...checkOpeningShapes(design, numbers, built.panels),
    ...checkPartsOnSheets(design, parts),
    ...checkWeight(design, parts),
  ]);
  return built.glued.length > 0 ? { ...made, glued: built.glued } : made;
}

/** Tongues left by rebates, in housings and grooves cut part way into the panels. */
function housedCase(
  design: Design,
  numbers: CaseNumbers,
  outline: Loop<"panel">,
  reach: HousingReach,
): Built {
  const left = leftCheek(design, numbers, outline, reach);
  const bare: Placed[] = [
    left,
    rightCheek(left, design.inside.width),
    base(design, numbers),
    rail(design, numbers, "front", reach.front),
    rail(design, numbers, "back", reach.back),
    ...(design.tier ? tierParts(design, numbers, design.tier) : []),
  ];
  const placed = bare.map(({ part, pose }) => ({
    pose,
    ...withRoundOvers(
      { part: withOpenings(withFeet(part, pose, design, numbers), pose, design, numbers), pose },
      design,
      numbers,
    ),
  }));
  return {
    placed,
    panels: placed,
    joints: jointsOf(design, numbers, reach),
    glued: [],
    findings: placed.flatMap(({ findings }) => findings),
  };
}

/** Errors with which the case can be drawn all the same, so that what else is wrong is told too. */
const DRAWABLE: ReadonlySet<string> = new Set<FindingCode>([
  "crest_below_rail",
  "housing_deep",
  "name_twice",
  "opening_corner_tight",
  "overhang_short",
  "sheet_all_margin",
  "stop_short",
  "tier_deep",
  "tier_high",
  "tier_swing_blocked",
  "tongue_thin",
]);

/** Too little wood beside a housing is told by arithmetic already, before the cheek is drawn. */
function told(sums: readonly Finding[], { code }: Finding): boolean {
  return code === "stop_short" && sums.some((f) => f.code === code || f.code === "overhang_short");
}

function caseOf(
  design: Design,
  numbers: CaseNumbers,
  height: number,
  placed: readonly Placed[],
  joints: Assembly["joints"],
  findings: readonly Finding[],
): Assembly {
  return {
    name: design.name,
    parts: placed.map((p) => p.part),
    poses: Object.fromEntries(placed.map((p) => [p.part.id, p.pose])),
    joints,
    inside: design.inside,
    outside: { ...numbers.outside, height },
    rake: numbers.rake,
    feet: footPoints(design, numbers),
    hinge: placed.length > 0 && design.tier ? tierHinge(design, design.tier) : null,
    findings,
  };
}

/** From the higher rail's top to the lower foot: of a case whose crest is not drawn. */
function heightWithoutCrest({ inside, cheek }: Design, { belly }: CaseNumbers): number {
  const drop = Math.max(cheek.feet.front.drop, cheek.feet.back.drop);
  return Math.max(inside.front, inside.back) + cheek.crest.above - belly + drop;
}

/** Cheeks stand on their feet: no tab may leave a stub there. */
function withFeet(part: Part, pose: Pose, design: Design, numbers: CaseNumbers): Part {
  if (part.panel !== "cheek") return part;
  return { ...part, mating: [...part.mating, ...footRuns(part, pose, design, numbers)] };
}

/** The outer corners on which the case stands, front and back of each cheek: a foot's, or the belly's. */
function footPoints(design: Design, numbers: CaseNumbers): Point3[] {
  const { front, back } = feetOf(design, numbers);
  const { belly } = numbers;
  const standing = [
    { y: numbers.cheek.min, z: front?.outer.y ?? belly },
    { y: numbers.cheek.max, z: back?.outer.y ?? belly },
  ];
  return [0, design.inside.width].flatMap((x) => standing.map((p) => ({ x, ...p })));
}
