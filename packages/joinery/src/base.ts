import { type Loop, point, rectangle, reversed } from "@dryfit/geometry";
import type { Pose } from "./assembly.ts";
import { corner, rounded } from "./corner.ts";
import type { Design } from "./design.ts";
import type { CaseNumbers } from "./numbers.ts";
import type { Part } from "./part.ts";
import { runBetween } from "./run-between.ts";
import { sheetPart } from "./sheet-part.ts";

/**
 * The floor: a tongue on all four edges, left by a rebate cut from below.
 *
 * Its corners are notched away, so that no tongue reaches the round corner where the housings in a cheek
 * meet; the notch's own round corner stays where the rail's tongue has been cut away by its groove.
 */
export function base(design: Design, numbers: CaseNumbers): { readonly part: Part; readonly pose: Pose } {
  const { width, depth } = design.inside;
  const { thickness: k, length: l } = design.joint.tongue;
  const outline = plus(l, numbers.base.x, numbers.base.y, numbers.r);
  const part = sheetPart(design, {
    id: "base",
    panel: "base",
    title: "Base",
    outline,
    features: [
      {
        kind: "recess",
        id: "rebate",
        face: "A",
        region: {
          outer: outline,
          holes: [reversed(rectangle(point<"panel">(l, l), point(l + width, l + depth)))],
        },
        depth: numbers.t - k,
        purpose: "rebate",
      },
    ],
    grain: "x",
    faceNames: { A: "underside", B: "floor" },
    // The tongues that stand in the cheeks; those in the rails' grooves have room for a pared-off tab.
    mating: [
      runBetween(outline, point(l, l + depth), point(l, l)),
      runBetween(outline, point(l + width, l), point(l + width, l + depth)),
    ],
  });
  // Face A looks down; the floor stays at z = 0 whatever the thickness.
  const pose: Pose = { origin: { x: -l, y: depth + l, z: 0 }, x: "+x", y: "-y", into: "+z", datum: "B" };
  return { part, pose };
}

/** A rectangle of x by y without its corners, each a square of side l. */
function plus(l: number, x: number, y: number, r: number): Loop<"panel"> {
  const one = [corner(0, l), corner(l, l, r), corner(l, 0)];
  const half = [...one, ...one.map((c) => ({ ...c, x: x - c.x })).reverse()];
  return rounded([...half, ...half.map((c) => ({ ...c, y: y - c.y })).reverse()]);
}
