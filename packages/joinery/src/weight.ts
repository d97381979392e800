import { areaOf, type Region, signedArea } from "@dryfit/geometry";
import type { Design } from "./design.ts";
import type { Finding } from "./finding.ts";
import { finding, when } from "./findings.ts";
import { trimmed } from "./length.ts";
import type { Part } from "./part.ts";

/** A hand carries this gladly when the gear comes on top, kg; common practice, no source. */
const HEAVY_KG = 10;

/** The finished part's face, its openings taken out, mm². */
export function areaOfPart(part: Part): number {
  return part.features.reduce(
    (area, f) => {
      if (f.kind === "opening") return area - Math.abs(signedArea(f.loop));
      return f.kind === "bore" && f.depth === null ? area - (Math.PI * f.diameter ** 2) / 4 : area;
    },
    Math.abs(signedArea(part.outline)),
  );
}

/** Wood in the finished part at mean thickness, recesses and holes taken out, mm³. */
export function volumeOf(part: Part): number {
  const t = part.thickness.mean;
  const blind = part.features.reduce((sum, f) => {
    if (f.kind === "recess") return sum + areaOf([f.region as Region]) * Math.min(f.depth, t);
    return f.kind === "bore" && f.depth !== null ? sum + (Math.PI * f.diameter ** 2 * f.depth) / 4 : sum;
  }, 0);
  return areaOfPart(part) * t - blind;
}

/** kg; recesses that meet through the wood count twice, which is grams. */
export function weightOf(parts: readonly Part[], density: number): number {
  return parts.reduce((sum, part) => sum + (volumeOf(part) / 1e9) * density, 0);
}

export function checkWeight({ sheet }: Design, parts: readonly Part[]): Finding[] {
  const kg = weightOf(parts, sheet.density);
  return when(kg > HEAVY_KG, () =>
    finding(
      "case_heavy",
      "warning",
      "sheet.thickness",
      `The empty case weighs ${trimmed(kg, 1)} kg.`,
      { weightKg: kg, mostKg: HEAVY_KG },
      "Take a thinner sheet, or open the base.",
    ),
  );
}
