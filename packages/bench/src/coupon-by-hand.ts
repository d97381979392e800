import { type Assembly, coupon, type Design, type Finding } from "@dryfit/joinery";
import { finding } from "./findings.ts";
import type { HandTools } from "./tools.ts";

/**
 * The coupon as a hand router cuts it: against the cutter's turn only, for the other way the router runs off; square,
 * for its templates lie on its edges; and with so much wood between two housings that a template holds between them.
 */
export function couponByHand(design: Design, { bushes }: HandTools, whole: Assembly): Assembly {
  // A design that cannot be made has nothing worth trying.
  const findings = whole.findings.filter(({ severity }) => severity === "error");
  const least = Math.min(...bushes.map(({ diameter }) => diameter));
  const wood = Number.isFinite(least) ? Math.max(LEAST_WOOD_MM, least + LEAST_WOOD_MM / 2) : LEAST_WOOD_MM;
  return { ...coupon(design, { ways: ["conventional"], wood, corners: false }), findings };
}

/** Between two holes of a template's board, and between two housings, mm: common practice, no source. */
const LEAST_WOOD_MM = 10;

export const NO_TONGUES: Finding = finding(
  "coupon_not_by_hand",
  "error",
  "construction",
  "A layered case has no housings for a template to try: its tongues are as thick as the sheet, and a beam's kerf is what its coupon tries.",
  {},
  "Make the coupon without --tools, and send its DXF file to whoever cuts the case.",
);
