import { circle, differenceFlat, type Loop, type Region } from "@dryfit/geometry";
import type { Assembly, Part } from "@dryfit/joinery";
import {
  type DrawnPart,
  type DrawnPocket,
  type Proof,
  proveDrawings,
  type SolidKernel,
} from "@dryfit/verify";

/**
 * The case stood up from parts as a hand router leaves them: as designed, for each template's route was compared with
 * the design before. Rebates keep their tongues, whatever the sheet: the table's cutter is set from the other face.
 */
export function standUp(
  assembly: Assembly,
  densities: Readonly<Record<string, number>>,
  kernel?: SolidKernel,
): Promise<Omit<Proof, "programs">> {
  return proveDrawings({ assembly, drawn: assembly.parts.map(asRouted), densities }, kernel);
}

function asRouted(part: Part): DrawnPart {
  const through = part.features.flatMap((f): readonly Loop<"panel">[] => {
    if (f.kind === "opening") return [f.loop];
    return f.kind === "bore" && f.depth === null ? [circle(f.at, f.diameter / 2)] : [];
  });
  const pockets = part.features.flatMap((f): readonly DrawnPocket[] => {
    if (f.kind === "recess")
      return [{ face: f.face, depth: f.depth, fromBed: f.purpose === "rebate", region: f.region }];
    if (f.kind === "bore" && f.depth !== null)
      return [{ face: f.face, depth: f.depth, fromBed: false, region: filled(circle(f.at, f.diameter / 2)) }];
    return [];
  });
  return {
    part: part.id,
    file: "design.yaml",
    wood: differenceFlat([filled(part.outline)], through.map(filled)),
    pockets,
  };
}

function filled(outer: Loop<"panel">): Region<"panel"> {
  return { outer, holes: [] };
}
