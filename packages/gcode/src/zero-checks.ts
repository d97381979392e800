import { CONTACT_MM } from "@dryfit/geometry";
import type { Finding, Part } from "@dryfit/joinery";
import type { Machine } from "./machine.ts";
import { mm } from "./sum.ts";

/**
 * Whether zero may lie on the sheet's upper face: a rebate cut to a depth from there leaves a tongue that is as much
 * thicker as the sheet is, and it no longer goes into its housing. From the bed, every tongue comes out alike.
 */
export function checkZero(parts: readonly Part[], { zZero }: Pick<Machine, "zZero">): readonly Finding[] {
  if (zZero === "bed") return [];
  return parts.flatMap(({ id, thickness: { mean, max }, features }): Finding[] => {
    const rebates = features.filter((feature) => feature.kind === "recess" && feature.purpose === "rebate");
    const thicker = max - mean;
    if (rebates.length === 0 || thicker <= CONTACT_MM) return [];
    const names = rebates.map((feature) => `${id}/${feature.id}`).join(", ");
    return [
      {
        code: "zero_on_uneven_face",
        severity: "error",
        path: "machine.zZero",
        message: `${names}: zero lies on the sheet's upper face, so where the sheet is ${mm(max)} thick the tongue is ${mm(thicker)} thicker than on ${mm(mean)}; its housing bears ${mm(CONTACT_MM)}.`,
        numbers: { thickest: max, mean, thicker, bears: CONTACT_MM },
        wayOut:
          "Set zero on the bed (zZero: bed), or give readings from a part of the sheet that is more even.",
      },
    ];
  });
}
