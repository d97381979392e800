import { readFileSync } from "node:fs";
import { makeJob, type Shown, VERSION } from "@dryfit/job";
import type { Assembly, Box3 } from "@dryfit/joinery";
import { type CutPart, loadSolidKernel } from "@dryfit/verify";
import { beforeAll, describe, expect, test } from "vitest";
import { scoped, turned, woodOf } from "../../verify/src/solids.ts";
import { offsetsAt, stepsOf, stepWords } from "../src/stand-up/assembly-steps.ts";
import { axesOf, eyeAfterKey, eyeWords, orbited } from "../src/stand-up/eye.ts";
import { jointDrawing } from "../src/stand-up/joint-drawing.ts";
import { gapText, spanText } from "../src/stand-up/joint-figure.ts";
import { type JointSection, jointSection, reachOf } from "../src/stand-up/joint-gaps.ts";
import { scenePartsOf } from "../src/stand-up/scene-model.ts";
import { facesOf } from "../src/stand-up/solid-faces.ts";
import { lidAir } from "../src/stand-up/swing-air.ts";

let shown: Shown;
let cutParts: readonly CutPart[];
beforeAll(async () => {
  const text = readFileSync(new URL("../../../samples/tidepool.yaml", import.meta.url), "utf8");
  const design = { file: "tidepool.yaml", text };
  const made = await makeJob({ design, machine: null, cutters: null, version: VERSION });
  shown = made.shown!;
  cutParts = shown.proof!.cutParts;
}, 60_000);

const cutOf = (part: string): CutPart => cutParts.find((cut) => cut.part === part)!;

/** The part moved in the case by hand, as if the design had put it there. */
function nudged(assembly: Assembly, part: string, by: { x?: number; z?: number }): Assembly {
  const pose = assembly.poses[part]!;
  const origin = {
    ...pose.origin,
    x: pose.origin.x + (by.x ?? 0),
    z: pose.origin.z + (by.z ?? 0),
  };
  return { ...assembly, poses: { ...assembly.poses, [part]: { ...pose, origin } } };
}

describe("the skin of a part as cut", () => {
  test("a slat has two faces and no floor", () => {
    const { caps } = facesOf(cutOf("slat-1"));
    expect(caps.map(({ depth, isFloor }) => [depth, isFloor])).toEqual([
      [0, false],
      [14.8, false],
    ]);
  });
  test("a base shows its tongues' rebate as a floor seen from below", () => {
    const floors = facesOf(cutOf("base")).caps.filter(({ isFloor }) => isFloor);
    expect(floors.length).toBeGreaterThan(0);
    // t − k: the blank is 14.8 thick and its tongue 7.
    for (const { depth, looks } of floors) {
      expect(depth).toBeCloseTo(7.8, 6);
      expect(looks).toBe("A");
    }
  });
  test("a cheek's floors are its housings, and no hair between two layers", () => {
    const floors = facesOf(cutOf("cheek-left")).caps.filter(({ isFloor }) => isFloor);
    expect(floors.every(({ depth }) => Math.abs(depth - 7.2) < 1e-6)).toBe(true);
  });
  test("every part stands in the box that the case has for it", () => {
    for (const { frame, faces, box } of scenePartsOf(shown.assembly, cutParts)) {
      for (const { depth, region } of faces.caps)
        for (const { x, y } of region.outer.vertices)
          for (const axis of ["x", "y", "z"] as const) {
            const at = frame.origin[axis] + x * frame.x[axis] + y * frame.y[axis] + depth * frame.into[axis];
            expect(at).toBeGreaterThan(box.min[axis] - 0.05);
            expect(at).toBeLessThan(box.max[axis] + 0.05);
          }
    }
  });
});

describe("a joint in section", () => {
  const section = (id: string, assembly = shown.assembly): JointSection => {
    const joint = assembly.joints.find((each) => each.id === id)!;
    const { from, to } = reachOf(joint);
    return jointSection(assembly, cutParts, joint, (from + to) / 2)!;
  };
  test("measures what the proof measured with solids, in every joint of the case", () => {
    for (const proof of shown.proof!.joints) {
      const gaps = section(proof.id).gaps;
      const of = (what: string) => gaps.filter((gap) => gap.what === what).map(({ mm }) => mm);
      expect(of("side")).toHaveLength(2);
      for (const side of of("side")) expect(side).toBeCloseTo(proof.sideClearance.min, 2);
      expect(of("end")[0]).toBeCloseTo(proof.endGap, 2);
      expect(of("shoulder")[0]).toBeCloseTo(proof.shoulderGap, 2);
    }
  });
  test("a base that stands 0.3 mm high is in the cheek's wood by 0.2, and has 0.4 below", () => {
    const { gaps, clash } = section("base-left", nudged(shown.assembly, "base", { z: 0.3 }));
    const sides = gaps.filter(({ what }) => what === "side").map(({ mm }) => mm);
    expect(Math.min(...sides)).toBeCloseTo(-0.2, 2);
    expect(Math.max(...sides)).toBeCloseTo(0.4, 2);
    expect(clash.length).toBeGreaterThan(0);
  });
  test("wood in wood is crossed on paper, and its figure says less than nothing", () => {
    const drawing = jointDrawing(section("base-left", nudged(shown.assembly, "base", { z: 0.3 })), 110, "mm");
    expect(drawing.body).toContain('class="clash"');
    expect(drawing.body).toContain("beside -0.20");
    expect(jointDrawing(section("base-left"), 110, "mm").body).not.toContain('class="clash"');
  });
  test("parts that are not there have no section", () => {
    const joint = shown.assembly.joints[0]!;
    const others = cutParts.filter(({ part }) => part !== joint.tongue.part);
    expect(jointSection(shown.assembly, others, joint, reachOf(joint).from)).toBe(null);
  });
});

describe("the order of assembly on a slider", () => {
  const boxes = (): Readonly<Record<string, Box3>> =>
    Object.fromEntries(scenePartsOf(shown.assembly, cutParts).map(({ part, box }) => [part, box]));
  const steps = () => stepsOf(shown.proof!.order, shown.proof!.ways, boxes());

  test("each whole step brings one more part home, the last closes the case", () => {
    for (let at = 0; at < steps().length; at++) {
      const offsets = Object.values(offsetsAt(steps(), at));
      const home = offsets.filter(({ x, y, z }) => x === 0 && y === 0 && z === 0);
      expect(home).toHaveLength(at + 1);
    }
  });
  test("a part travels its own way home and no other", () => {
    const offset = offsetsAt(steps(), 2.5)["cheek-left"]!;
    expect(offset.x).toBeLessThan(0);
    expect([offset.y, offset.z]).toEqual([0, 0]);
  });
  test("parts that wait are clear of each other", () => {
    const apart = offsetsAt(steps(), 0);
    const placed = Object.entries(boxes()).map(([part, { min, max }]) => {
      const by = apart[part]!;
      const plus = (p: Box3["min"]) => ({ x: p.x + by.x, y: p.y + by.y, z: p.z + by.z });
      return { part, min: plus(min), max: plus(max) };
    });
    for (const a of placed)
      for (const b of placed)
        if (a.part < b.part) {
          const air = Math.max(
            ...(["x", "y", "z"] as const).flatMap((w) => [a.min[w] - b.max[w], b.min[w] - a.max[w]]),
          );
          // A tier's slats lie on their bearers' level only once they are home.
          expect({ pair: [a.part, b.part], apart: air > -1e-6 }).toEqual({
            pair: [a.part, b.part],
            apart: true,
          });
        }
  });
  test("says what is happening", () => {
    const words = (at: number) => stepWords(steps(), at, (part) => part);
    expect(words(0)).toBe("Apart: 12 parts, base first.");
    expect(words(3)).toBe("Step 3 of 11: cheek-left, from the left, is home.");
    expect(words(3.4)).toBe("Step 4 of 11: cheek-right, from the right, on its way.");
    expect(words(11)).toBe("Closed: every part is home.");
  });
});

describe("the lid", () => {
  test("is as near to its neighbours as the solid modeller says", async () => {
    const kernel = await loadSolidKernel();
    const { assembly } = shown;
    const hinge = assembly.hinge!;
    const air = lidAir(assembly, hinge, cutParts);
    scoped(kernel, (scope) => {
      const woods = cutParts.map((cut) => ({
        part: cut.part,
        wood: woodOf(scope, cut, assembly.poses[cut.part]!),
      }));
      const lid = woods.filter(({ part }) => hinge.parts.includes(part)).flatMap(({ wood }) => wood);
      const rest = woods.filter(({ part }) => !hinge.parts.includes(part)).flatMap(({ wood }) => wood);
      for (const deg of [0, 3, 10, 90]) {
        const up = turned(scope, lid, hinge.axis, air.lift * deg);
        const gaps = up.flatMap((a) => rest.map((b) => a.solid.minGap(b.solid, 5)));
        expect(air.at(deg)!.mm).toBeCloseTo(Math.min(...gaps), 2);
      }
    });
  });
  test("touches the cleats that it lies on", () => {
    const found = lidAir(shown.assembly, shown.assembly.hinge!, cutParts).at(0)!;
    expect(found.mm).toBeLessThan(1e-6);
    expect(found.part).toMatch(/^cleat-/);
  });
});

describe("the eye", () => {
  const corner = { turnDeg: 32, riseDeg: 28, zoom: 1 };
  test("goes round without end, and never over the top", () => {
    expect(orbited({ ...corner, turnDeg: 175 }, 10, 0).turnDeg).toBe(-175);
    expect(orbited(corner, 0, 100).riseDeg).toBe(90);
  });
  test("is turned by keys, and other keys are left alone", () => {
    expect(eyeAfterKey(corner, "ArrowLeft", false)?.turnDeg).toBe(42);
    expect(eyeAfterKey(corner, "ArrowLeft", true)?.turnDeg).toBe(33);
    expect(eyeAfterKey(corner, "Tab", false)).toBe(null);
  });
  test("has axes square to each other, right-handed", () => {
    const { right, up, towards } = axesOf({ turnDeg: -70, riseDeg: 15, zoom: 1 });
    expect(right.x * up.x + right.y * up.y + right.z * up.z).toBeCloseTo(0, 12);
    expect(right.y * up.z - right.z * up.y).toBeCloseTo(towards.x, 12);
  });
  test("says from where it looks", () => {
    expect(eyeWords({ turnDeg: 0, riseDeg: 90, zoom: 1 })).toBe("Seen from above");
    expect(eyeWords({ turnDeg: -12, riseDeg: -3, zoom: 1 })).toBe(
      "Seen from the front, 12° to the left, 3° below",
    );
  });
});

describe("figures of a joint", () => {
  const check = (mm: number, units: "mm" | "in", expected: string) =>
    expect(gapText(mm, units)).toBe(expected);
  test("hundredths of a millimetre", () => check(0.4049, "mm", "0.40"));
  test("no nought below nought", () => check(-1e-7, "mm", "0.00"));
  test("ten-thousandths of an inch", () => check(0.4, "in", "0.0157"));
  test("a span that is one figure is written once", () =>
    expect([spanText({ min: 0.1, max: 0.1001 }, "mm"), spanText({ min: 0.1, max: 0.3 }, "mm")]).toEqual([
      "0.10",
      "0.10 to 0.30",
    ]));
});
