import type { Finding, Severity } from "@dryfit/joinery";

/** Every code that hand tools can raise, and what it means. The table is documentation and is tested. */
export const benchFindingMeanings = {
  bearing_off_template: "The bearing would run above or below the template at the depth of the cut.",
  bush_long: "The bush stands out of the base farther than the template is thick.",
  bush_small: "The bush is no wider than the cutter that should pass through it.",
  coupon_not_by_hand: "The coupon tries nothing that a hand router could rout.",
  corner_tight: "The corner is tighter than the cutter, so no bush and template can cut it.",
  corner_left: "The cutter leaves wood in an inside corner of an outline, to be rasped away.",
  corner_rounded: "A bush rounds the sharp corners of an outline.",
  cutter_short: "The cutter does not reach through the template to the depth of the cut.",
  cutter_wide: "The cutter is wider than the slot or opening.",
  fence_off_part: "The fence stands beyond the part's edge.",
  no_guide: "No bush or bearing that would guide this cut is owned.",
  print_off_scale: "The printer changes sizes too much for a correction.",
  relief_by_hand:
    "An opening's corners are relieved in the design; by hand they are routed round and squared.",
  slot_close: "The slot is so little wider than the cutter that the bush needs air beyond it.",
  template_off: "The template, run round, does not give the designed shape.",
  tongue_varies:
    "The tongue follows the sheet's thickness, because its rebate is measured from the other face.",
} as const;

export type BenchFindingCode = keyof typeof benchFindingMeanings;

export function finding(
  code: BenchFindingCode,
  severity: Severity,
  path: string,
  message: string,
  numbers: Readonly<Record<string, number>>,
  wayOut?: string,
): Finding {
  return { code, severity, path, message, numbers, ...(wayOut === undefined ? {} : { wayOut }) };
}
