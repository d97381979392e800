import { needsFlip, PLAN_OPTIONS } from "@dryfit/gcode";
import {
  areaOf,
  distance,
  distanceTo,
  lengthOf,
  nearest,
  type Point,
  point,
  pointAt,
  segments,
} from "@dryfit/geometry";
import { type Part, recipe } from "@dryfit/joinery";
import fc from "fast-check";
import { expect, test } from "vitest";
import { trackLength } from "../packages/gcode/src/plan-track.ts";
import { heldOutline, tabCount, tabLength, tabsFor } from "../packages/gcode/src/tabs.ts";
import { arbitraryDesign } from "../packages/joinery/test/arbitrary.ts";

const SHAPE = { width: 5, height: 1.5, every: 350 };
const HALF = tabLength(SHAPE, 3) / 2;

function recessesOf(part: Part) {
  return part.features.flatMap((f) => (f.kind === "recess" ? [f.region] : []));
}

/** Between the places where a tab's stretch is looked at, something small may come nearer than 3 mm, but not so near. */
const CLEAR = 1.5;

/** The outline where a tab leaves any wood, a mm apart. */
function stretchAbout({ outline }: Part, at: Point<"panel">): Point<"panel">[] {
  const [round, { s }] = [lengthOf(outline), nearest(outline, at)];
  return Array.from({ length: 2 * Math.ceil(HALF) + 1 }, (_, i) => {
    const way = s + Math.max(-HALF, Math.min(HALF, i - Math.ceil(HALF)));
    return pointAt(outline, way - Math.floor(way / round) * round);
  });
}

/** How tight the outline is where a tab stands; a straight side is not tight at all. */
function radiusAt(part: Part, at: Point<"panel">): number {
  const sides = segments(part.outline);
  const far = (side: (typeof sides)[number]): number =>
    distanceTo(
      {
        closed: false,
        vertices: [
          { ...side.from, bulge: side.kind === "arc" ? Math.tan(side.sweep / 4) : 0 },
          { ...side.to, bulge: 0 },
        ],
      },
      at,
    );
  const side = sides.reduce((a, b) => (far(b) < far(a) ? b : a));
  return side.kind === "line" ? Number.POSITIVE_INFINITY : side.radius;
}

test("tabs of any case stand by perimeter and area, off mating edges, tongues and tight curves", () => {
  fc.assert(
    fc.property(arbitraryDesign(), (design) => {
      for (const part of recipe(design).parts) {
        const area = areaOf([{ outer: part.outline, holes: [] }]);
        const outside = { loop: part.outline, mating: part.mating, recesses: recessesOf(part) };
        for (const held of heldOutline(outside, area, 3)) {
          const tabs = tabsFor(held, SHAPE, 3);
          const round = trackLength(held.track);
          // None, where there is no room for two: a skin holds the part then.
          expect(tabs.length).not.toBe(1);
          expect(tabs.length).toBeLessThanOrEqual(tabCount(round, area, SHAPE.every));
          expect(2 * HALF * tabs.length).toBeLessThanOrEqual(round / 4);
          for (const [i, tab] of tabs.entries()) {
            const at = point<"panel">(tab.at.x, tab.at.y);
            expect(distanceTo(part.outline, at)).toBeLessThan(0.01);
            expect(radiusAt(part, at)).toBeGreaterThanOrEqual(150 - 0.01);
            for (const p of stretchAbout(part, at)) {
              for (const path of part.mating) expect(distanceTo(path, p)).toBeGreaterThan(CLEAR);
              for (const { outer } of outside.recesses) expect(distanceTo(outer, p)).toBeGreaterThan(CLEAR);
            }
            for (const other of tabs.slice(i + 1)) expect(distance(other.at, at)).toBeGreaterThan(2 * HALF);
          }
        }
      }
    }),
    { seed: 11, numRuns: 20 },
  );
});

test("more of an outline and more of a part want more tabs", () => {
  expect(tabCount(300, 5_000, PLAN_OPTIONS.hold.kind === "tabs" ? PLAN_OPTIONS.hold.every : 350)).toBe(2);
  expect(tabCount(300, 50_000, 350)).toBe(3);
  expect(tabCount(300, 150_000, 350)).toBe(4);
  expect(tabCount(2100, 5_000, 350)).toBe(6);
});

test("a sheet is turned over for rails with inner tongues only", () => {
  fc.assert(
    fc.property(arbitraryDesign(), (design) => {
      const { parts, findings } = recipe(design);
      const turned = parts.filter(needsFlip).map(({ panel }) => panel);
      expect(turned.every((panel) => panel === "rail")).toBe(true);
      const styles = findings.filter(({ code }) => code === "rail_style").map(({ message }) => message);
      if (design.joint.rails === "full") expect(turned).toEqual([]);
      if (design.joint.rails === "inner") expect(turned).toHaveLength(2);
      if (styles.some((message) => message.includes("one setup only")))
        expect(turned.length).toBeGreaterThan(0);
    }),
    { seed: 12, numRuns: 40 },
  );
});
