import type { Assembly, Joint, Point3, Pose } from "./assembly.ts";
import { base } from "./base.ts";
import { cheekOutline, feetOf, housingReach, leftCheek, rightCheek } from "./cheek.ts";
import type { Design } from "./design.ts";
import { jointsOf } from "./joints.ts";
import { type CaseNumbers, numbersOf } from "./numbers.ts";
import type { Part } from "./part.ts";
import { rail } from "./rail.ts";

interface Placed {
  readonly part: Part;
  readonly pose: Pose;
}

/** The whole case: its parts as they are cut and as they stand, its joints, and all that a maker must know. */
export function recipe(design: Design): Assembly {
  const numbers = numbersOf(design);
  const outline = cheekOutline(design, numbers);
  const reach = housingReach(design, numbers, outline);
  const left = leftCheek(design, numbers, outline, reach);
  const placed: Placed[] = [
    left,
    rightCheek(left, design.inside.width),
    base(design, numbers),
    rail(design, numbers, "front", reach.front),
    rail(design, numbers, "back", reach.back),
  ];
  const joints: readonly Joint[] = jointsOf(design, numbers, reach);
  return {
    name: design.name,
    parts: placed.map((p) => p.part),
    poses: Object.fromEntries(placed.map((p) => [p.part.id, p.pose])),
    joints,
    inside: design.inside,
    outside: numbers.outside,
    rake: numbers.rake,
    feet: footPoints(design, numbers),
    hinge: null,
    findings: [],
  };
}

/** The corners on which the case stands: of both cheeks, outer and inner end of each foot. */
function footPoints(design: Design, numbers: CaseNumbers): Point3[] {
  const { front, back } = feetOf(design, numbers);
  const belly = -numbers.t;
  const standing = [
    ...(front ? [front.outer, front.inner] : [{ x: numbers.cheek.min, y: belly }]),
    ...(back ? [back.inner, back.outer] : [{ x: numbers.cheek.max, y: belly }]),
  ];
  return [0, design.inside.width].flatMap((x) => standing.map((p) => ({ x, y: p.x, z: p.y })));
}
