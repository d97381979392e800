import type { Design, Finding } from "@dryfit/joinery";
import { finding } from "./findings.ts";

/**
 * The design as a hand router cuts it. No bush follows the relief of a corner that a milling cutter runs into:
 * such openings are routed with their round corners, and squared with a file where a square part must go in.
 */
export function byHand(design: Design): { readonly design: Design; readonly findings: readonly Finding[] } {
  const relieved = design.openings.filter(({ relief }) => relief !== "none");
  if (relieved.length === 0) return { design, findings: [] };
  return {
    design: { ...design, openings: design.openings.map((each) => ({ ...each, relief: "none" as const })) },
    findings: relieved.map(({ id }) =>
      finding(
        "relief_by_hand",
        "note",
        `openings.${id}`,
        `The corners of "${id}" are routed round, as the cutter leaves them: a hand router cannot follow their relief.`,
        { cutter: design.cutter },
        "Square them with a file or a chisel where the part that goes in is square.",
      ),
    ),
  };
}
