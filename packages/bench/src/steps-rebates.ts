import { boundsOf } from "@dryfit/geometry";
import type { Assembly, Finding, Joint, Part } from "@dryfit/joinery";
import { finding } from "./findings.ts";
import { routingMinutes, tongueLength } from "./minutes.ts";
import { listed, type Step } from "./step.ts";
import { type Rebate, type RebateSetting, rebateSetting } from "./table.ts";
import type { HandTools } from "./tools.ts";

/** One setting for all rebates of the case: they leave the same tongue. */
export function rebateSteps(
  assembly: Assembly,
  tools: HandTools,
): { readonly steps: readonly Step[]; readonly findings: readonly Finding[] } {
  const parts = assembly.parts.filter(isRebated);
  const [part] = parts;
  const joints = assembly.joints.filter(({ tongue }) => parts.some(({ id }) => id === tongue.part));
  const [joint] = joints;
  if (!part || !joint) return { steps: [], findings: [] };
  const rebate = rebateOf(parts, joint);
  const setting = rebateSetting(rebate, tools.cutters, tools.table);
  if (!setting) {
    const widest = Math.max(0, ...tools.cutters.filter((c) => c.kind === "straight").map((c) => c.diameter));
    return {
      steps: [],
      findings: [
        finding(
          "cutter_short",
          "error",
          `${part.id}.rebate`,
          `No cutter of yours takes the rebate of ${listed(parts.map(({ id }) => id))}, ${rebate.length.toFixed(2)} mm wide and ${(rebate.thickness.mean - rebate.tongue).toFixed(2)} mm deep.`,
          { width: rebate.length, depth: rebate.thickness.mean - rebate.tongue, widest },
          `Take a straight cutter of ${rebate.length.toFixed(1)} mm or more, or a router table.`,
        ),
      ],
    };
  }
  return { steps: [stepOf(parts, rebate, setting, joints)], findings: varying(part, rebate, setting) };
}

const isRebated = (part: Part): boolean =>
  part.features.some((f) => f.kind === "recess" && f.purpose === "rebate");

function rebateOf(parts: readonly Part[], joint: Joint): Rebate {
  const { box } = joint.tongue;
  const axis = joint.into[1] as "x" | "y" | "z";
  const { across } = joint;
  const sizes = parts.flatMap(({ outline }) => [boundsOf(outline).max.x, boundsOf(outline).max.y]);
  return {
    tongue: box.max[across] - box.min[across],
    length: box.max[axis] - box.min[axis],
    thickness: parts[0]!.thickness,
    air: joint.fit.side,
    tall: Math.max(...sizes),
  };
}

function stepOf(
  parts: readonly Part[],
  rebate: Rebate,
  setting: RebateSetting,
  joints: readonly Joint[],
): Step {
  const table = setting.way !== "hand";
  const names = listed(parts.map(({ id }) => id));
  const edges = joints.reduce((sum, joint) => sum + tongueLength(joint), 0);
  return {
    id: "rebates",
    title: `Rebates of ${names}${table ? " on the table" : " with the edge guide"}`,
    parts: parts.map(({ id }) => id),
    tool: setting.cutter.id,
    figures: [
      { what: heightWords[setting.way], mm: setting.heights },
      {
        what: `${table ? "fence" : "edge guide"} to the cutter's ${setting.measured} edge`,
        mm: setting.fences,
      },
      { what: "tongue that must stay", mm: [rebate.tongue] },
    ],
    notes: [
      ...parts.map((part) => `${part.id}: ${edgesOf(part)}; ${layWords(part, setting.way)}.`),
      "Edges across the face grain first, those along it last: they take the torn corners away.",
      ...(table
        ? [
            "Feed from right to left. Press narrow ends on with a square block behind, which also keeps the veneer whole.",
          ]
        : ["Clamp a board of the same thickness beside narrow ends, so that the base does not tip."]),
      `Reference: ${referenceWords[setting.way]}.`,
    ],
    minutes: routingMinutes(parts.length, edges * setting.heights.length * setting.fences.length),
    first: `Rebate an offcut and slide its tongue into a housing already cut: ${rebate.air.toFixed(2)} mm of air on each side. Change the ${setting.way === "standing" ? "fence" : "height"}, not the housing.`,
  };
}

const heightWords: Readonly<Record<RebateSetting["way"], string>> = {
  disc: "disc's lower edge above the table, pass by pass",
  standing: "cutter above the table",
  lying: "cutter above the table, pass by pass",
  hand: "cutter below the base, pass by pass",
};

const referenceWords: Readonly<Record<RebateSetting["way"], string>> = {
  disc: "the tongue's own face, down on the table; the sheet's thickness does not matter",
  standing: "the tongue's own face, on the fence; the sheet's thickness does not matter",
  lying: "the rebated face, down on the table; the tongue is what is left of the sheet",
  hand: "the rebated face, under the base; the tongue is what is left of the sheet",
};

function layWords(part: Part, way: RebateSetting["way"]): string {
  const rebated = part.features.find((f) => f.kind === "recess" && f.purpose === "rebate");
  const face = rebated?.kind === "recess" ? rebated.face : "A";
  const other = face === "A" ? "B" : "A";
  const name = (which: "A" | "B"): string => `face ${which} (${part.faceNames[which]})`;
  if (way === "lying") return `${name(face)} down`;
  if (way === "hand") return `${name(face)} up`;
  if (way === "standing") return `on its edge, ${name(other)} against the fence`;
  return `${name(other)} down`;
}

/** Which edges: those that the rebates lie along. */
function edgesOf(part: Part): string {
  const box = boundsOf(part.outline);
  const loops = part.features.flatMap((f) =>
    f.kind === "recess" && f.purpose === "rebate" ? [f.region] : [],
  );
  if (loops.some(({ holes }) => holes.length > 0)) return "all four edges";
  const ends = loops.map(({ outer }) => (boundsOf(outer).min.x < box.max.x / 2 ? "left" : "right"));
  return [...new Set(ends)].length === 2 ? "both ends" : `${ends[0]} end`;
}

function varying(
  part: Part,
  { tongue, air }: Rebate,
  { way, tongue: [thin, thick] }: RebateSetting,
): readonly Finding[] {
  const off = Math.max(tongue - thin, thick - tongue);
  if (off <= air) return [];
  return [
    finding(
      "tongue_varies",
      "warning",
      `${part.id}.rebate`,
      `With the rebated face ${way === "hand" ? "under the base" : "down"} the tongue comes out from ${thin.toFixed(2)} to ${thick.toFixed(2)} mm, as thick as the sheet leaves it; the housings have ${air.toFixed(2)} mm of air on each side of ${tongue.toFixed(2)} mm.`,
      { thin, thick, tongue, air },
      "Set the cutter for each part by its own thickness, or use a slotting disc on a table with the tongue's face down.",
    ),
  ];
}
