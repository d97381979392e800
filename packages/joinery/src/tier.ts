import { arcsine, arctangent, type Loop, point, polyline, rectangle } from "@dryfit/geometry";
import type { Assembly, Pose } from "./assembly.ts";
import { corner, rounded } from "./corner.ts";
import type { Design, TierRules } from "./design.ts";
import type { CaseNumbers, Span } from "./numbers.ts";
import type { Bore, Part } from "./part.ts";
import { sheetPart } from "./sheet-part.ts";

interface Placed {
  readonly part: Part;
  readonly pose: Pose;
}

/**
 * A raised level of slats at the back.
 *
 * The slats are screwed down onto bearers, strips on edge that stand on the floor and so carry a foot's
 * weight; their ends lie on cleats, which are screwed to the cheeks. A tier that swings turns with its
 * bearers about a hinge in the corner of back rail and last slat; otherwise the slats are screwed to the
 * cleats too. Everything that a bearer carries or is carried by touches a face, so the sheet's thickness
 * raises the slats' tops and nothing else.
 */
export function tierParts(design: Design, numbers: CaseNumbers, tier: TierRules): Placed[] {
  return [
    ...slats(design, numbers, tier),
    ...bearers(design, numbers, tier),
    ...cleats(design, numbers, tier),
  ];
}

/** What swings, about which line, and how far. */
export function tierHinge(design: Design, tier: TierRules): Assembly["hinge"] {
  if (tier.swing === 0) return null;
  return {
    parts: [...slatIds(tier), ...bearerMiddles(design, tier).map((_, i) => `bearer-${i + 1}`)],
    axis: { x: 0, y: design.inside.depth - tier.pin, z: tier.height + tier.pin },
    swingDeg: tier.swing,
  };
}

/**
 * How far a tier can swing before its top meets the back rail's top edge, degrees.
 *
 * The pin is `pin` off both the rail and the slats' top. Turned by a, the top's plane lies `pin` from it on
 * the side of the normal; it meets the rail's edge, `pin` behind and `rise` above the pin, where
 * pin·sin a + rise·cos a = −pin. Source: derived.
 */
export function greatestSwing(design: Design, tier: TierRules): number {
  const { pin, height } = tier;
  const rise = design.inside.back - height - pin;
  if (rise <= 0) return 180;
  const angle = Math.PI - arctangent(rise, pin) + arcsine(pin / Math.hypot(rise, pin));
  return Math.min(180, (angle * 180) / Math.PI);
}

/**
 * How far the tier's lower front corners, turning about the pin, would reach through the front rail's inside;
 * 0 or less where they pass it or rise over its top.
 */
export function reachThroughFrontRail(design: Design, numbers: CaseNumbers, tier: TierRules): number {
  if (tier.swing === 0) return 0;
  const span = tierSpan(design, numbers, tier);
  const pin = { y: design.inside.depth - tier.pin, z: tier.height + tier.pin };
  const bearers = bearerMiddles(design, tier).length > 0;
  const lowest = [tier.height - numbers.t, ...(bearers ? [tier.bearers.air] : [])];
  return Math.max(
    ...lowest.map((z) => {
      const radius = Math.hypot(pin.y - span.min, pin.z - z);
      if (radius <= pin.y) return radius - pin.y;
      // Rising, the corner comes to the rail's plane at this height.
      const meets = pin.z - Math.sqrt(radius ** 2 - pin.y ** 2);
      return meets > design.inside.front ? 0 : radius - pin.y;
    }),
  );
}

/** From the first slat's front edge to the last one's back edge, in y of the case. */
export function tierSpan(design: Design, numbers: CaseNumbers, tier: TierRules): Span {
  // Under the pin a slat's edge has nothing behind it that would dip as it turns.
  const max = design.inside.depth - (tier.swing > 0 ? tier.pin : tier.clearance);
  return { min: max - (numbers.tierDepth ?? 0), max };
}

/** Middles of the bearers in x of the case. */
export function bearerMiddles(design: Design, { bearers: { count, inset } }: TierRules): number[] {
  const { width } = design.inside;
  if (count === 1) return [width / 2];
  return Array.from({ length: count }, (_, i) => inset + (i * (width - 2 * inset)) / (count - 1));
}

function slats(design: Design, numbers: CaseNumbers, tier: TierRules): Placed[] {
  const { width } = design.inside;
  const length = width - 2 * tier.clearance;
  const span = tierSpan(design, numbers, tier);
  const under = bearerMiddles(design, tier).map((x) => x - tier.clearance);
  const ends = tier.swing === 0 ? [numbers.t / 2, length - numbers.t / 2] : [];
  return slatIds(tier).map((id, i) => {
    const front = span.min + i * (tier.slat + tier.gap);
    const part = sheetPart(design, {
      id,
      panel: "slat",
      title: `Slat ${i + 1}`,
      outline: rectangle(point(0, 0), point(length, tier.slat)),
      features: [...under, ...ends].flatMap((x, j) =>
        acrossSlat(tier).map((y, k) => screwHole(`screw-${j + 1}-${k + 1}`, x, y, tier.screw)),
      ),
      grain: "x",
      faceNames: { A: "underside", B: "top" },
    });
    // Face A looks down and lies on cleats and bearers.
    const origin = { x: tier.clearance, y: front + tier.slat, z: tier.height - numbers.t };
    return { part, pose: { origin, x: "+x", y: "-y", into: "+z", datum: "A" } };
  });
}

/** One screw in a narrow slat, two in a wide one, across its width. */
function acrossSlat({ slat }: TierRules): number[] {
  return slat < 60 ? [slat / 2] : [slat / 4, (3 * slat) / 4];
}

function bearers(design: Design, numbers: CaseNumbers, tier: TierRules): Placed[] {
  const span = tierSpan(design, numbers, tier);
  const height = tier.height - numbers.t - tier.bearers.air;
  const length = span.max - span.min;
  return bearerMiddles(design, tier).map((x, i) => ({
    part: sheetPart(design, {
      id: `bearer-${i + 1}`,
      panel: "bearer",
      title: `Bearer ${i + 1}`,
      outline: archedOutline(length, height, numbers.r),
      features: [],
      grain: "x",
      faceNames: { A: "right", B: "left" },
      mating: [polyline([point(length, height), point(0, height)])],
    }),
    pose: {
      origin: { x: x + numbers.t / 2, y: span.min, z: tier.bearers.air },
      x: "+y",
      y: "+z",
      into: "-x",
      datum: "A",
    },
  }));
}

/** A strip on edge, with an arch for cables where it is high and long enough for one. */
function archedOutline(length: number, height: number, r: number): Loop<"panel"> {
  const foot = 30;
  const rise = height - Math.max(15, 0.4 * height);
  const width = length - 2 * foot;
  const radius = Math.max(r, Math.min(rise, width) / 3);
  const arch =
    rise >= Math.max(12, r) && width >= Math.max(40, 2 * r)
      ? [
          corner(foot, 0),
          corner(foot, rise, radius),
          corner(length - foot, rise, radius),
          corner(length - foot, 0),
        ]
      : [];
  return rounded([corner(0, 0), ...arch, corner(length, 0), corner(length, height), corner(0, height)]);
}

function cleats(design: Design, numbers: CaseNumbers, tier: TierRules): Placed[] {
  const span = tierSpan(design, numbers, tier);
  const length = span.max - span.min;
  const { height } = tier.cleat;
  const z = tier.height - numbers.t - height;
  const holes = Math.max(2, Math.ceil(length / 100));
  const part = (side: "left" | "right"): Part =>
    sheetPart(design, {
      id: `cleat-${side}`,
      panel: "cleat",
      title: side === "left" ? "Left cleat" : "Right cleat",
      outline: rectangle(point(0, 0), point(length, height)),
      features: Array.from({ length: holes }, (_, i) =>
        screwHole(`screw-${i + 1}`, 20 + (i * (length - 40)) / (holes - 1), height / 2, tier.screw),
      ),
      grain: "x",
      faceNames: { A: "inside", B: "against the cheek" },
      mating: [polyline([point(length, height), point(0, height)])],
    });
  return [
    {
      part: part("left"),
      pose: { origin: { x: 0, y: span.min, z }, x: "+y", y: "+z", into: "-x", datum: "B" },
    },
    {
      part: part("right"),
      pose: { origin: { x: design.inside.width, y: span.max, z }, x: "-y", y: "+z", into: "+x", datum: "B" },
    },
  ];
}

function slatIds({ slats: count }: TierRules): string[] {
  return Array.from({ length: count }, (_, i) => `slat-${i + 1}`);
}

function screwHole(id: string, x: number, y: number, diameter: number): Bore {
  return { kind: "bore", id, face: "A", at: point(x, y), diameter, depth: null };
}
