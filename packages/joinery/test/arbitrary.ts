import fc from "fast-check";
import { fillDesign } from "../src/defaults.ts";
import type { Design } from "../src/design.ts";
import type { DesignInput, EdgeInput, OpeningInput, TierInput } from "../src/design-input.ts";
import { recipe } from "../src/recipe.ts";

/** Random designs over all options that raise no error: every one of them can be made. */
export function arbitraryDesign(): fc.Arbitrary<Design> {
  return likelyDesign().filter((design) =>
    recipe(design).findings.every((finding) => finding.severity !== "error"),
  );
}

/** Mostly sound designs: numbers are drawn within each other's limits, a few still cannot be made. */
export function likelyDesign(): fc.Arbitrary<Design> {
  return fc
    .record({ sheet: readings, sizes: fc.constantFrom(...SIZES), units: fc.constantFrom("mm", "in") })
    .chain(({ sheet, sizes, units }) => {
      const min = Math.min(...sheet);
      const t = sheet.reduce((a, b) => a + b, 0) / sheet.length;
      return joint(min, t).chain((joints) =>
        fc
          .record({
            inside: inside,
            rails: fc.constantFrom("inner", "full", "fewest-flips"),
            grain: fc.constantFrom("x", "x", "y"),
          })
          .chain(({ inside: space, rails, grain }) =>
            fc
              .record({
                cheek: cheek(space, joints, t, sheet, rails),
                tier: tier(space, t),
                openings: openings(space, t),
                edges,
              })
              .map(({ cheek, tier, openings, edges }): Design => {
                const input: DesignInput = {
                  dryfit: 1,
                  name: "any-case",
                  units,
                  inside: space,
                  sheet: { thickness: sheet, sizes: [grain === "x" ? sizes : [sizes[1], sizes[0]]], grain },
                  joint: { ...joints.joint, rails },
                  cutter: joints.cutter,
                  cheek,
                  tier,
                  openings,
                  edges: edges.filter((e) => tier !== null || !e.panel.startsWith("slat")),
                };
                return fillDesign(input, units);
              }),
          ),
      );
    });
}

const SIZES: readonly (readonly [number, number])[] = [
  [2440, 1220],
  [1525, 1525],
  [1220, 1000],
];

/** mm, to the hundredth, as a maker would write it. */
function mm(least: number, most: number): fc.Arbitrary<number> {
  const [low, high] = [Math.ceil(100 * least), Math.floor(100 * Math.max(least, most))];
  return fc.integer({ min: Math.min(low, high), max: high }).map((n) => n / 100);
}

const readings: fc.Arbitrary<readonly number[]> = mm(8.5, 19).chain((t) =>
  fc.oneof(fc.constant([t]), fc.array(mm(t - 0.12, t + 0.12), { minLength: 2, maxLength: 9 })),
);

const inside = fc
  .record({ width: mm(220, 800), depth: mm(140, 420), front: mm(40, 80) })
  .chain((space) => mm(space.front, space.front + 0.3 * space.depth).map((back) => ({ ...space, back })));

interface JointInput {
  readonly cutter: number;
  readonly joint: {
    readonly tongue: { readonly thickness: number; readonly length: number };
    readonly clearance: { readonly side: number; readonly end: number };
    readonly stop: number;
    readonly piece: number;
  };
}

function joint(min: number, t: number): fc.Arbitrary<JointInput> {
  return fc
    .record({ thickness: mm(Math.max(3.2, t / 3), 0.55 * t), side: mm(0.03, 0.12), end: mm(0.3, 0.6) })
    .chain(({ thickness, side, end }) => {
      const longest = min / 2 - end;
      const widest = Math.min(thickness + 2 * side, 2 * longest);
      const cutters = [3, 3.175, 4, 5, 6, 6.35, 8].filter((d) => d <= widest);
      return fc
        .record({
          cutter: fc.constantFrom(...(cutters.length > 0 ? cutters : [2])),
          stop: mm(1.5, Math.min(8, t - thickness - side)),
          piece: mm(4, 12),
        })
        .chain(({ cutter, stop, piece }) =>
          mm(Math.max(cutter / 2, 2.5), longest).map((length) => ({
            cutter,
            joint: { tongue: { thickness, length }, clearance: { side, end }, stop, piece },
          })),
        );
    });
}

function cheek(
  space: Design["inside"],
  { joint: { stop, clearance } }: JointInput,
  t: number,
  sheet: readonly number[],
  rails: string,
): fc.Arbitrary<DesignInput["cheek"]> {
  const least = stop + Math.max(...sheet) - t + clearance.side + 0.01;
  const far = mm(least, least + 15);
  const overhang = rails === "full" ? far : fc.oneof(fc.constant(0), far);
  const foot = fc.oneof(
    fc.constant({ drop: 0 }),
    fc.record({
      drop: mm(4, 40),
      length: mm(15, space.depth / 4),
      angle: fc.integer({ min: 35, max: 90 }),
      radius: mm(0, 12),
    }),
  );
  const crest = fc
    .record({
      form: fc.constantFrom("straight", "arc", "batten"),
      at: mm(0.3 * space.depth, 0.7 * space.depth),
      rise: mm(-8, 25),
      above: fc.constantFrom(0, 0, 3),
    })
    .map(({ form, at, rise, above }) => {
      const height = space.front + ((space.back - space.front) * at) / space.depth + rise;
      return { form, above, through: { at, height: Math.round(100 * height) / 100 } };
    });
  return fc.record({
    crest,
    feet: fc.record({ front: foot, back: foot }),
    overhang: fc.oneof(
      overhang.map((o) => ({ front: o, back: o })),
      fc.record({ front: overhang, back: overhang }),
    ),
  });
}

function tier(space: Design["inside"], t: number): fc.Arbitrary<TierInput | null> {
  const level = fc
    .record({
      slats: fc.integer({ min: 1, max: 4 }),
      gap: mm(15, 35),
      height: mm(Math.min(Math.max(2 * t + 2, 30), space.back), Math.max(2 * t + 2, space.front)),
      clearance: mm(0.5, 2),
      swing: fc.constantFrom(0, 80, 90),
      pin: mm(2, 6),
      count: fc.integer({ min: 0, max: 3 }),
      inset: mm(3 * t, 0.3 * space.width),
      screw: fc.constantFrom(3.2, 4),
      share: fc.integer({ min: 40, max: 95 }),
    })
    .map(({ slats, gap, height, clearance, swing, pin, count, inset, screw, share }): TierInput => {
      const depth = (space.depth * share) / 100 - 8;
      const slat = Math.max(15, Math.floor((depth - (slats - 1) * gap) / slats));
      return {
        slats,
        slat,
        gap,
        height,
        clearance,
        swing,
        pin,
        bearers: { count: swing > 0 ? Math.max(2, count) : count, inset, air: 1 },
        cleat: { height: Math.max(8, Math.min(25, Math.floor(height - t))) },
        screw,
      };
    });
  return fc.oneof(fc.constant(null), level);
}

function openings(space: Design["inside"], t: number): fc.Arbitrary<readonly OpeningInput[]> {
  const { width, back } = space;
  const rail = fc
    .record({
      left: mm(60, width - 60),
      floor: mm(20, back - 20),
      shape: fc.constantFrom("jack", "dc-inlet", "usb", "mains-inlet"),
    })
    .map(
      ({ left, floor, shape }): OpeningInput => ({
        panel: "rail-back",
        shape,
        size: preset(shape, t),
        from: { left, floor },
      }),
    );
  const base = fc
    .record({
      left: mm(60, width - 60),
      front: mm(50, 90),
      turn: fc.constantFrom(0, 90),
      relief: fc.constantFrom("none", "diagonal", "along-width", "along-height"),
    })
    .map(
      ({ left, front, turn, relief }): OpeningInput => ({
        panel: "base",
        shape: "rectangle",
        size: { width: 30, height: 20, corner: "cutter" },
        from: { left, front },
        turn,
        relief,
      }),
    );
  const side = fc
    .record({
      side: fc.constantFrom("left", "right"),
      back: mm(35, 80),
      floor: mm(20, 60),
      shape: fc.constantFrom("round-audio", "circle"),
    })
    .map(
      ({ side, back, floor, shape }): OpeningInput => ({
        panel: `cheek-${side}`,
        shape,
        size: shape === "circle" ? { hole: 16 } : preset(shape, t),
        from: { back, floor },
      }),
    );
  return fc.array(fc.oneof(rail, base, side), { maxLength: 2 });
}

function preset(shape: OpeningInput["shape"], t: number): OpeningInput["size"] {
  const sizes: Partial<Record<OpeningInput["shape"], OpeningInput["size"]>> = {
    jack: { hole: 10, pocket: 26, leave: Math.min(3, t / 2) },
    "dc-inlet": { hole: 12, pocket: 24, leave: Math.min(3, t / 2) },
    usb: { width: 15, height: 9, corner: "cutter", apart: 28, rise: 0, screw: 3.1 },
    "mains-inlet": { width: 27.5, height: 20, corner: "cutter", apart: 40, rise: 0, screw: 3.5 },
    "round-audio": { hole: 24, apart: 19, rise: 24, screw: 3.2 },
  };
  return sizes[shape]!;
}

const edges: fc.Arbitrary<readonly EdgeInput[]> = fc.uniqueArray(
  fc
    .record({
      edge: fc.constantFrom<EdgeInput>(
        { panel: "cheek-left", edge: "crest", radius: 3 },
        { panel: "cheek-right", edge: "crest", radius: 2 },
        { panel: "cheek-left", edge: "belly", radius: 3, faces: "B" },
        { panel: "cheek-right", edge: "front", radius: 3, faces: "B" },
        { panel: "cheek-right", edge: "back", radius: 1, faces: "B" },
        { panel: "rail-front", edge: "top", radius: 3 },
        { panel: "rail-back", edge: "bottom", radius: 2, faces: "B" },
        { panel: "slat-1", edge: "front", radius: 2 },
        { panel: "slat-1", edge: "left", radius: 2, faces: "B" },
      ),
      form: fc.constantFrom("round" as const, "round" as const, "chamfer" as const),
      by: fc.constantFrom("hand" as const, "cutter" as const),
    })
    .map(({ edge, ...how }) => ({ ...edge, ...how })),
  { maxLength: 4, selector: (e) => `${e.panel} ${e.edge}` },
);
