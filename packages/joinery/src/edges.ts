import type { Pose } from "./assembly.ts";
import type { Design, EdgeRules } from "./design.ts";
import { crestBetweenRails, edgeRun } from "./edge-runs.ts";
import type { Finding } from "./finding.ts";
import { finding } from "./findings.ts";
import { formatLength } from "./length.ts";
import { nearestWord } from "./nearest-word.ts";
import type { CaseNumbers } from "./numbers.ts";
import { panelsOf } from "./openings.ts";
import type { Face, Part, RoundOver } from "./part.ts";

interface Placed {
  readonly part: Part;
  readonly pose: Pose;
}

/** Edges of a panel that may be rounded over. */
export function edgeNames(panel: string): readonly string[] {
  if (panel.startsWith("cheek-")) return ["crest", "front", "back", "belly"];
  if (panel.startsWith("rail-")) return ["top", "bottom"];
  if (panel.startsWith("slat-")) return ["front", "back", "left", "right"];
  return [];
}

/**
 * The part with its rounded edges, and what is wrong with them. An edge that closes a joint on one face keeps
 * that arris sharp: a rounded one would show as a gap, and a tongue or a hinge would lose its seat.
 */
export function withRoundOvers(
  { part, pose }: Placed,
  design: Design,
  numbers: CaseNumbers,
): { readonly part: Part; readonly findings: readonly Finding[] } {
  const results = design.edges.flatMap((rules, i) =>
    rules.panel === part.id ? [roundOver(part, pose, rules, `edges[${i}]`, design, numbers)] : [],
  );
  if (results.length === 0) return { part, findings: [] };
  return {
    part: { ...part, roundOvers: results.flatMap((r) => r.roundOvers) },
    findings: results.flatMap((r) => r.findings),
  };
}

/** Panels, edges and radii that cannot be, whatever is drawn. */
export function checkEdges(design: Design): Finding[] {
  const panels = panelsOf(design);
  const t = design.sheet.thickness.min;
  return design.edges.flatMap((rules, i): Finding[] => {
    const path = `edges[${i}]`;
    if (!panels.includes(rules.panel)) return [panelUnknown(`${path}.panel`, rules.panel, panels)];
    const names = edgeNames(rules.panel);
    if (!names.includes(rules.edge)) {
      return [
        finding(
          "edge_unknown",
          "error",
          `${path}.edge`,
          names.length === 0
            ? `All edges of ${rules.panel} stand in joints; none can be rounded.`
            : `${rules.panel} has no edge "${rules.edge}"; it has ${names.join(", ")}.`,
          {},
          names.length === 0 ? "Leave this edge out." : `Name one of ${names.join(", ")}.`,
        ),
      ];
    }
    const most = rules.faces === "both" ? t / 2 : t;
    if (rules.radius <= most) return [];
    return [
      finding(
        "round_over_wide",
        "error",
        `${path}.radius`,
        `A radius of ${formatLength(rules.radius, design.units)} on ${rules.faces === "both" ? "both faces" : "one face"} of a sheet ${formatLength(t, design.units)} thick; ${formatLength(most, design.units)} is the most.`,
        { radius: rules.radius, most },
        "Take a smaller radius.",
      ),
    ];
  });
}

export function panelUnknown(path: string, panel: string, panels: readonly string[]): Finding {
  const near = nearestWord(panel, panels);
  return finding(
    "panel_unknown",
    "error",
    path,
    `There is no panel "${panel}".${near ? ` Did you mean "${near}"?` : ""}`,
    {},
    `Name one of ${panels.join(", ")}.`,
  );
}

function roundOver(
  part: Part,
  pose: Pose,
  rules: EdgeRules,
  path: string,
  design: Design,
  numbers: CaseNumbers,
): { readonly roundOvers: readonly RoundOver[]; readonly findings: readonly Finding[] } {
  const run = edgeRun(part, pose, rules.edge, design, numbers);
  const faces: readonly Face[] = rules.faces === "both" ? ["A", "B"] : [rules.faces];
  const { radius, form, by } = rules;
  const id = `${form === "round" ? "round" : "chamfer"}-${rules.edge}`;
  const whole = (on: readonly Face[]): RoundOver => ({ id, run, radius, faces: on, form, by });
  const joint = faces.includes("A") ? jointAtFaceA(rules, design) : null;
  if (joint === "crest") {
    const between: RoundOver = {
      id: `${id}-inside`,
      run: crestBetweenRails(part, pose, design),
      radius,
      faces: ["A"],
      form,
      by,
    };
    const note = finding(
      "round_over_stops",
      "note",
      path,
      "On the inside the crest is rounded between the rails only: over them it would open their joints.",
      { radius: rules.radius },
    );
    return {
      roundOvers: [...(faces.includes("B") ? [whole(["B"])] : []), between],
      findings: [note],
    };
  }
  const hinge = isHingeSeat(rules, design);
  if (joint === null && !(hinge && faces.includes("B"))) return { roundOvers: [whole(faces)], findings: [] };
  const why =
    joint === null ? "the hinge's leaf lies on it" : `on its inside face ${joint} ends flush with it`;
  const outside = joint === null ? "A" : "B";
  return {
    roundOvers: [],
    findings: [
      finding(
        "round_over_opens_joint",
        "error",
        path,
        `The edge "${rules.edge}" of ${rules.panel} cannot be rounded on both faces: ${why}.`,
        { radius: rules.radius },
        `Give it faces: ${outside}, or leave it sharp.`,
      ),
    ],
  };
}

/** What would show a gap if the inside arris of this edge were rounded; "crest": only its ends would. */
function jointAtFaceA(rules: EdgeRules, { cheek }: Design): string | null {
  const { edge, panel, radius } = rules;
  if (panel.startsWith("cheek-")) {
    if (edge === "crest") return cheek.crest.above >= radius ? null : "crest";
    if (edge === "belly") return "the base";
    return cheek.overhang[edge as "front" | "back"] >= radius ? null : `the ${edge} rail`;
  }
  return panel.startsWith("rail-") && edge === "bottom" ? "the base" : null;
}

function isHingeSeat({ panel, edge }: EdgeRules, { tier }: Design): boolean {
  return tier !== null && tier.swing > 0 && panel === `slat-${tier.slats}` && edge === "back";
}
