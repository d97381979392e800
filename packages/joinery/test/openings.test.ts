import { boundsOf, distance, distanceTo, type Point } from "@dryfit/geometry";
import { describe, expect, test } from "vitest";
import { caseFromPanel, presetNames, presets, recipe } from "../src/index.ts";
import type { Bore, Opening, Recess } from "../src/part.ts";
import { plainCase } from "./designs.ts";

/** One opening on the plain case (inside 300 × 200, rails 50 and 80 high), and what it cuts. */
function cut(opening: object, changes: object = {}) {
  const design = plainCase({ openings: [{ id: "it", ...opening }], cutter: 3, ...changes });
  const assembly = recipe(design);
  const errors = assembly.findings.filter((f) => f.severity === "error").map((f) => f.message);
  const part = assembly.parts.find((p) => p.id === design.openings[0]!.panel);
  const features = part?.features.filter((f) => f.id.startsWith("it")) ?? [];
  return {
    errors,
    holes: features.filter((f): f is Opening => f.kind === "opening"),
    bores: features.filter((f): f is Bore => f.kind === "bore"),
    pockets: features.filter((f): f is Recess => f.kind === "recess"),
    inCase: (p: Point<"panel">) => caseFromPanel(assembly.poses[part!.id]!, p, 0, 14.8),
  };
}

function middleOf(hole: Opening): Point<"panel"> {
  const { min, max } = boundsOf(hole.loop);
  return { x: (min.x + max.x) / 2, y: (min.y + max.y) / 2 };
}

describe("every preset", () => {
  for (const shape of presetNames) {
    test(`${shape} can be cut as it is`, () => {
      const own = {
        rectangle: { width: 30, height: 20 },
        circle: { hole: 20 },
        slot: { width: 40, height: 12 },
      };
      const tall = shape === "vent" || shape === "mains-inlet-switched";
      const { errors, holes } = cut({
        panel: tall ? "base" : "rail-back",
        shape,
        size: own[shape as keyof typeof own] ?? {},
        from: tall ? { left: 150, front: 100 } : { left: 150, floor: 40 },
      });
      expect(errors).toEqual([]);
      expect(holes.length).toBe(shape === "vent" ? 5 : 1);
      expect(presets[shape].hint).not.toBe("");
    });
  }
});

describe("measures of bought parts", () => {
  const audio = { panel: "rail-back", shape: "round-audio", from: { left: 150, floor: 40 } };
  test("H3: a round audio connector's screws are 30.6105 apart on the diagonal", () => {
    const [a, b] = cut(audio).bores;
    expect(distance(a!.at, b!.at)).toBeCloseTo(30.6105, 4);
  });
  test("H5: they leave 1.705 beside a hole of 24", () => {
    const { holes, bores } = cut(audio);
    expect(distanceTo(holes[0]!.loop, bores[0]!.at) - bores[0]!.diameter / 2).toBeCloseTo(1.705, 3);
  });
  test("H4: screws of a mains inlet 40 apart leave 4.95 beside a cutout of 27", () => {
    const { holes, bores } = cut({
      panel: "rail-back",
      shape: "mains-inlet",
      size: { width: 27, screw: 3.1 },
      from: { left: 150, floor: 40 },
    });
    expect(distanceTo(holes[0]!.loop, bores[0]!.at) - bores[0]!.diameter / 2).toBeCloseTo(4.95, 6);
  });
  test("a jack's pocket is cut from the inside and leaves 3", () => {
    const { pockets } = cut({ panel: "cheek-left", shape: "jack", from: { front: 80, floor: 30 } });
    expect(pockets).toHaveLength(1);
    expect(pockets[0]).toMatchObject({ face: "A", purpose: "counterbore" });
    expect(14.8 - pockets[0]!.depth).toBeCloseTo(3, 9);
  });
  test("a hole that the cutter does not fit into is drilled", () => {
    const { holes, bores } = cut({
      panel: "base",
      shape: "circle",
      size: { hole: 2.5 },
      from: { left: 60, front: 60 },
    });
    expect(holes).toEqual([]);
    expect(bores).toMatchObject([{ diameter: 2.5, depth: null }]);
  });
});

describe("a place from named edges", () => {
  const at = (panel: string, from: object, expected: object, changes: object = {}) => {
    const { errors, holes, inCase } = cut({ panel, shape: "circle", size: { hole: 8 }, from }, changes);
    expect(errors).toEqual([]);
    const p = inCase(middleOf(holes[0]!));
    for (const [axis, value] of Object.entries(expected))
      expect(p[axis as "x" | "y" | "z"]).toBeCloseTo(value as number, 6);
  };
  test("a cheek from its front edge, up from the floor", () =>
    at("cheek-left", { front: 70, floor: 25 }, { y: 70 - 14.8, z: 25 }));
  test("the other cheek likewise", () =>
    at("cheek-right", { front: 70, floor: 25 }, { y: 70 - 14.8, z: 25 }));
  test("a cheek from its back edge, up from the base's underside", () =>
    at("cheek-right", { back: 60, bottom: 50 }, { y: 200 + 14.8 - 60, z: 50 - 14.8 }));
  test("an overhanging cheek from where it ends", () =>
    at(
      "cheek-left",
      { front: 70, floor: 25 },
      { y: 70 - 14.8 - 10 },
      { cheek: { overhang: { front: 10, back: 0 } } },
    ));
  test("a rail from the left cheek", () => at("rail-front", { left: 40, floor: 25 }, { x: 40, z: 25 }));
  test("a rail from the right cheek, down from its top", () =>
    at("rail-back", { right: 40, top: 20 }, { x: 260, z: 60 }));
  test("the base from left and front", () => at("base", { left: 40, front: 30 }, { x: 40, y: 30 }));
  test("the base from right and back", () => at("base", { right: 40, back: 30 }, { x: 260, y: 170 }));
  test("a slat from its own ends and edges", () =>
    at(
      "slat-1",
      { left: 30, front: 12 },
      { x: 31, y: 200 - 3 - 128 + 12 },
      { tier: { slats: 2, slat: 50, height: 45 } },
    ));
  test("a quarter turn stands a slot up", () => {
    const slot = (turn: number) =>
      boundsOf(
        cut({
          panel: "base",
          shape: "slot",
          size: { width: 40, height: 10 },
          from: { left: 90, front: 90 },
          turn,
        }).holes[0]!.loop,
      );
    const [flat, up] = [slot(0), slot(90)];
    expect(flat.max.x - flat.min.x).toBeCloseTo(40, 9);
    expect(up.max.y - up.min.y).toBeCloseTo(40, 9);
  });
});
