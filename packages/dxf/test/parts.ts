import { circle, type Loop, type Region, rectangle, roundedRectangle } from "@dryfit/geometry";
import type { Feature, Part } from "@dryfit/joinery";
import type { Sheet, Stock } from "@dryfit/nest";
import fc from "fast-check";

/** A loop of the panel frame: what the shapes give without naming a frame. */
const inPanel = (loop: Loop) => loop as Loop<"panel">;
const area = (outer: Loop, holes: Loop[] = []) => ({ outer, holes }) as Region<"panel">;

export function panel(id: string, outline: Loop, features: readonly Feature[] = []): Part {
  return {
    id,
    panel: id,
    title: id,
    material: "ply",
    thickness: { min: 14.8, mean: 14.8, max: 14.8 },
    outline: inPanel(outline),
    features,
    roundOvers: [],
    grain: "x",
    faceNames: { A: "inside", B: "outside" },
    mating: [],
  };
}

export function recess(
  id: string,
  outer: Loop,
  depth: number,
  { face = "A" as "A" | "B", holes = [] as Loop[] } = {},
): Feature {
  return { kind: "recess", id, face, region: area(outer, holes), depth, purpose: "housing" };
}

export function opening(id: string, loop: Loop): Feature {
  return { kind: "opening", id, loop: inPanel(loop), title: id };
}

export function bore(id: string, x: number, y: number, diameter: number, depth: number | null): Feature {
  return { kind: "bore", id, face: "A", at: { x, y }, diameter, depth };
}

export function sheetOf(
  parts: readonly { part: string; x: number; y: number; quarters?: 0 | 1 | 2 | 3 }[],
): Sheet {
  const stock: Stock = {
    id: "ply-1220",
    material: "ply",
    size: [1220, 610],
    outline: null,
    grain: "x",
    count: null,
    price: null,
    keepOuts: [],
  };
  return {
    id: "sheet-1",
    stock,
    parts: parts.map(({ part, x, y, quarters = 0 }) => ({
      part,
      placement: { flip: false, quarters, angle: 0, shift: { x, y } },
    })),
  };
}

/** A panel with one of everything: a stopped housing, a rebate open at the edge, an opening, bores. */
export const everything: Part = panel(
  "test-panel",
  roundedRectangle({ x: 0, y: 0 }, { x: 400, y: 200 }, 20),
  [
    recess("housing", roundedRectangle({ x: 60, y: 40 }, { x: 67.2, y: 160 }, 3), 7.2),
    recess("rebate", rectangle({ x: 390, y: 30 }, { x: 400, y: 170 }), 7.8, { face: "B" }),
    opening("vent", roundedRectangle({ x: 300, y: 80 }, { x: 360, y: 120 }, 5)),
    bore("pilot", 120, 30, 3.2, 8),
    bore("screw", 120, 170, 3.2, null),
  ],
);

/** Panels as wide as makers cut them, with features that keep clear of each other. */
export const anyPanel: fc.Arbitrary<Part> = fc
  .record({
    width: fc.double({ min: 120, max: 900, noNaN: true }),
    height: fc.double({ min: 100, max: 500, noNaN: true }),
    corner: fc.double({ min: 0, max: 1, noNaN: true }),
    inset: fc.double({ min: 0.1, max: 0.35, noNaN: true }),
    radius: fc.double({ min: 0.05, max: 0.95, noNaN: true }),
    depth: fc.double({ min: 1, max: 9, noNaN: true }),
    face: fc.constantFrom("A" as const, "B" as const),
    island: fc.boolean(),
    hole: fc.double({ min: 2, max: 12, noNaN: true }),
  })
  .map(({ width, height, corner, inset, radius, depth, face, island, hole }) => {
    const outline = roundedRectangle({ x: 0, y: 0 }, { x: width, y: height }, corner * 40 + 0.5);
    const [left, low] = [width * inset, height * inset];
    const room = Math.min(width / 2 - left, height - 2 * low) / 2;
    const pocket = roundedRectangle({ x: left, y: low }, { x: width / 2, y: height - low }, radius * room);
    const clear = circle({ x: (left + width / 2) / 2, y: height / 2 }, room * 0.4);
    return panel("any-panel", outline, [
      recess("pocket", pocket, depth, { face, holes: island ? [backwards(clear)] : [] }),
      opening("hatch", circle({ x: width * 0.75, y: height / 2 }, Math.min(width * 0.15, height * 0.3))),
      bore("hole", width * 0.55, height * 0.08 + 5, hole, null),
    ]);
  });

function backwards(loop: Loop): Loop {
  const n = loop.vertices.length;
  const vertices = loop.vertices.map((_, i) => ({
    ...loop.vertices[n - 1 - i]!,
    bulge: -loop.vertices[(2 * n - 2 - i) % n]!.bulge,
  }));
  return { closed: true, vertices };
}
