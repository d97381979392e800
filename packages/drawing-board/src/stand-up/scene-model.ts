import { boundsOf } from "@dryfit/geometry";
import { type Assembly, type Box3, boxInCase, caseFromPanel, type Point3 } from "@dryfit/joinery";
import type { CutPart } from "@dryfit/verify";
import { facesOf, type SolidFaces } from "./solid-faces.ts";

/** A part as cut, and where it stands: a panel's x, y and depth go to origin + x·x + y·y + depth·into. */
export interface ScenePart {
  readonly part: string;
  readonly faces: SolidFaces;
  readonly frame: {
    readonly origin: Point3;
    readonly x: Point3;
    readonly y: Point3;
    readonly into: Point3;
  };
  /** What it fills in the case. */
  readonly box: Box3;
}

export function scenePartsOf(assembly: Assembly, cutParts: readonly CutPart[]): readonly ScenePart[] {
  return cutParts.flatMap((cut) => {
    const pose = assembly.poses[cut.part];
    const part = assembly.parts.find(({ id }) => id === cut.part);
    if (!pose || !part) return [];
    const at = (x: number, y: number, depth: number): Point3 =>
      caseFromPanel(pose, { x, y }, depth, cut.thickness);
    const origin = at(0, 0, 0);
    return [
      {
        part: cut.part,
        faces: facesOf(cut),
        frame: {
          origin,
          x: minus(at(1, 0, 0), origin),
          y: minus(at(0, 1, 0), origin),
          into: minus(at(0, 0, 1), origin),
        },
        box: boxInCase(part, pose, boundsOf(part.outline).max),
      },
    ];
  });
}

function minus(a: Point3, b: Point3): Point3 {
  return { x: a.x - b.x, y: a.y - b.y, z: a.z - b.z };
}
