import { type Loop, point, roundedRectangle } from "@dryfit/geometry";
import type { Pose } from "./assembly.ts";
import { type Corner, corner, rounded } from "./corner.ts";
import type { Design } from "./design.ts";
import { type LayerSlots, tongueIn } from "./layer-slots.ts";
import { type CaseNumbers, railTongue, type Span } from "./numbers.ts";
import type { Opening, Part } from "./part.ts";
import type { RailName } from "./rail.ts";
import { runBetween } from "./run-between.ts";
import { sheetPart } from "./sheet-part.ts";

/** The floor of a layered case: full-thickness tongues on all four edges, and nothing cut part way. */
export function layeredBase(
  design: Design,
  numbers: CaseNumbers,
  slots: LayerSlots,
): { readonly part: Part; readonly pose: Pose } {
  const { width, depth } = design.inside;
  const l = design.joint.tongue.length;
  const short = railTongue(design);
  const across = slots.rails.map((slot) => shifted(tongueIn(slot, numbers), l));
  const up = slots.base.map((slot) => shifted(tongueIn(slot, numbers), short));
  const { r } = numbers;
  const bottom = across.flatMap((s) =>
    tongue(s).map(([at, out]) => corner(at, short - out * short, (1 - out) * r)),
  );
  const right = up.flatMap((s) =>
    tongue(s).map(([at, out]) => corner(l + width + out * l, at, (1 - out) * r)),
  );
  // The slots stand evenly about the middle, so each edge is its opposite turned round.
  const half = [corner(l, short), ...bottom, corner(l + width, short), ...right];
  const [x, y] = [2 * l + width, 2 * short + depth];
  const outline = rounded([...half, ...half.map((c) => ({ ...c, x: x - c.x, y: y - c.y }))]);
  const part = sheetPart(design, {
    id: "base",
    panel: "base",
    title: "Base",
    outline,
    features: [],
    grain: "x",
    faceNames: { A: "underside", B: "floor" },
    mating: [
      runBetween(outline, point(l, short + depth), point(l, short)),
      runBetween(outline, point(l + width, short), point(l + width, short + depth)),
    ],
  });
  // Face A looks down; the floor stays at z = 0 whatever the thickness.
  const pose: Pose = { origin: { x: -l, y: depth + short, z: 0 }, x: "+x", y: "-y", into: "+z", datum: "B" };
  return { part, pose };
}

/** A cross panel of a layered case: slots that the base's tongues go through, full-thickness tongues on its ends. */
export function layeredRail(
  design: Design,
  numbers: CaseNumbers,
  name: RailName,
  slots: LayerSlots,
): { readonly part: Part; readonly pose: Pose } {
  const { width, depth } = design.inside;
  const l = design.joint.tongue.length;
  const { length } = numbers.rails;
  const height = numbers.rails[name];
  const outline = railOutline(
    slots[name].map((slot) => shifted(tongueIn(slot, numbers), -numbers.belly)),
    { length, height, l, r: numbers.r },
  );
  const { min, max } = shifted(numbers.baseHousing, -numbers.belly);
  const part = sheetPart(design, {
    id: `rail-${name}`,
    panel: "rail",
    title: name === "front" ? "Front rail" : "Back rail",
    outline,
    features: slots.rails.map(
      (slot, i): Opening => ({
        kind: "opening",
        id: `slot-${i + 1}`,
        title: "Slot for the base",
        loop: roundedRectangle(point<"panel">(slot.min + l, min), point(slot.max + l, max), numbers.r),
      }),
    ),
    grain: "x",
    faceNames: { A: "inside", B: "outside" },
    mating: [
      runBetween(outline, point(length - l, 0), point(length - l, height)),
      runBetween(outline, point(l, height), point(l, 0)),
    ],
  });
  const z = numbers.belly;
  const pose: Pose =
    name === "front"
      ? { origin: { x: width + l, y: 0, z }, x: "-x", y: "+z", into: "-y", datum: "A" }
      : { origin: { x: -l, y: depth, z }, x: "+x", y: "+z", into: "+y", datum: "A" };
  return { part, pose };
}

function railOutline(
  tongues: readonly Span[],
  {
    length,
    height,
    l,
    r,
  }: { readonly length: number; readonly height: number; readonly l: number; readonly r: number },
): Loop<"panel"> {
  const right: Corner[] = [
    corner(length - l, 0),
    ...tongues.flatMap((s) => tongue(s).map(([at, out]) => corner(length - l + out * l, at, (1 - out) * r))),
    corner(length - l, height),
  ];
  return rounded([...right, ...right.map((c) => ({ ...c, x: length - c.x })).reverse()]);
}

/** The four corners of a tongue along its edge: root, end, end, root; 1 where it stands out. */
function tongue({ min, max }: Span): readonly (readonly [number, 0 | 1])[] {
  return [
    [min, 0],
    [min, 1],
    [max, 1],
    [max, 0],
  ];
}

function shifted({ min, max }: Span, by: number): Span {
  return { min: min + by, max: max + by };
}
