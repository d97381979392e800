import { readFileSync } from "node:fs";
import { offset, placement, placeRegion, type Region } from "@dryfit/geometry";
import { type Assembly, type Part, readDesign, recipe } from "@dryfit/joinery";
import { beforeAll, describe, expect, test } from "vitest";
import {
  type DrawnPart,
  loadSolidKernel,
  type Proof,
  proveDrawings,
  type SolidKernel,
} from "../src/index.ts";

let kernel: SolidKernel;
beforeAll(async () => {
  kernel = await loadSolidKernel();
}, 60_000);

/** The lantern of a sheet that is even all over: one reading to stand up. */
function lantern(): Assembly {
  const text = readFileSync(new URL("../../../samples/lantern.yaml", import.meta.url), "utf8");
  const even = text.replace(/thickness: \[.*\]/, "thickness: 5.95");
  const read = readDesign(even, "lantern.yaml");
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join("\n"));
  return recipe(read.value);
}

const assembly = lantern();

/** A part as a perfect service cuts it by its drawing. */
function asDesigned(part: Part): DrawnPart {
  const holes = part.features.flatMap((f): Region<"panel">[] => {
    if (f.kind === "opening") return [{ outer: f.loop, holes: [] }];
    if (f.kind !== "bore") throw new Error(`${part.id} is not cut through`);
    const r = f.diameter / 2;
    const vertices = [
      { x: f.at.x + r, y: f.at.y, bulge: 1 },
      { x: f.at.x - r, y: f.at.y, bulge: 1 },
    ];
    return [{ outer: { closed: true, vertices } as Region<"panel">["outer"], holes: [] }];
  });
  const wood = holes.map(({ outer }) => ({
    closed: true as const,
    vertices: [...outer.vertices]
      .reverse()
      .map((v, i, all) => ({ ...v, bulge: 0 - all[(i + 1) % all.length]!.bulge })),
  }));
  return {
    part: part.id,
    file: `${part.id}.dxf`,
    wood: [{ outer: part.outline, holes: wood as Region<"panel">["holes"] }],
    pockets: [],
  };
}

async function prove(change: (drawn: DrawnPart) => DrawnPart[] = (one) => [one]) {
  const drawn = assembly.parts.map(asDesigned).flatMap(change);
  return proveDrawings({ assembly, drawn }, kernel);
}

function codes({ findings }: Omit<Proof, "programs">): readonly string[] {
  return [...new Set(findings.map(({ code }) => code))];
}

const only =
  (part: string, change: (wood: DrawnPart["wood"]) => DrawnPart["wood"]) =>
  (drawn: DrawnPart): DrawnPart[] => [drawn.part === part ? { ...drawn, wood: change(drawn.wood) } : drawn];

describe("a layered case, proved from its drawings", () => {
  test("goes together as designed; the layers of a cheek are one by then", async () => {
    const proof = await prove();
    expect(codes(proof)).toEqual([]);
    expect(proof.pass).toBe(true);
    const at = (part: string) => proof.order.indexOf(part);
    for (const cheek of ["cheek-left", "cheek-right"]) {
      expect(at(`${cheek}-outer`)).toBe(at(`${cheek}-inner`) + 1);
      expect(proof.ways[`${cheek}-outer`]).toBe(proof.ways[`${cheek}-inner`]);
    }
    // Derived: 5.95 − 5.6 behind the tongues in cheeks, the same to the rails' outside.
    for (const { endGap, sideClearance } of proof.joints) {
      expect(endGap).toBeCloseTo(0.35, 2);
      expect(sideClearance.min).toBeCloseTo(0.05, 2);
    }
    expect(proof.measures!.footing!.rocking).toBeLessThan(0.01);
  });

  test("a kerf that nobody allowed for is wood lost and joints loose", async () => {
    const proof = await prove((drawn) => [{ ...drawn, wood: offset(drawn.wood, -0.075) }]);
    expect(codes(proof)).toEqual(expect.arrayContaining(["gouge", "too_loose"]));
    // Half a kerf along the edges, and at a square corner √2 times that; the feet's corners are sharper.
    expect(proof.gouge).toBeGreaterThanOrEqual(0.075 * Math.SQRT2);
    expect(proof.gouge).toBeLessThan(0.12);
    expect(proof.uncut).toBeLessThan(0.001);
  });

  test("a plate drawn too large keeps wood that should go", async () => {
    const proof = await prove(only("cheek-left-outer", (wood) => offset(wood, 0.05)));
    expect(proof.perPart.find(({ part }) => part === "cheek-left-outer")!.uncut).toBeCloseTo(0.05, 2);
    expect(codes(proof)).toContain("uncut");
  });

  test("slots a millimetre too high let nothing in", async () => {
    const up = placement<"panel", "panel">({ x: 0, y: 1 });
    const proof = await prove(
      only("cheek-left-inner", ([region]) => [
        {
          outer: region!.outer,
          holes: region!.holes.map((hole) => placeRegion(up, { outer: hole, holes: [] }).outer),
        },
      ]),
    );
    expect(codes(proof)).toEqual(expect.arrayContaining(["interference", "gouge", "uncut"]));
    expect(proof.pass).toBe(false);
  });

  test("a part that no drawing holds is named", async () => {
    const proof = await prove((drawn) => (drawn.part === "rail-back" ? [] : [drawn]));
    expect(proof.findings.filter(({ code }) => code === "part_not_placed")).toMatchObject([
      { path: "rail-back" },
    ]);
  });
});
