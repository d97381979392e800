import {
  circle,
  distance,
  type Loop,
  type Path,
  point,
  polyline,
  type Region,
  rectangle,
  roundedRectangle,
  signedArea,
} from "@dryfit/geometry";
import { describe, expect, test } from "vitest";
import { trackLength } from "../src/plan-track.ts";
import { heldOutline, tabCount, tabLength, tabsFor } from "../src/tabs.ts";

const SHAPE = { width: 5, height: 1.5, every: 350 };

function tabsOn(outline: Loop, mating: readonly Path[] = [], recesses: readonly Region[] = []) {
  const area = signedArea(outline);
  const [held] = heldOutline({ loop: outline, mating, recesses }, area, 3);
  return { held: held!, tabs: tabsFor(held!, SHAPE, 3) };
}

const PANEL = rectangle(point(0, 0), point(500, 150));
const BOTTOM = polyline([point(0, 0), point(500, 0)]);

describe("tabs", () => {
  test("stand on the edge, apart from each other and from corners", () => {
    const { tabs, held } = tabsOn(PANEL);
    expect(tabs).toHaveLength(tabCount(trackLength(held.track), 75_000, 350));
    for (const { at } of tabs) {
      expect(Math.min(at.x, at.y, 500 - at.x, 150 - at.y)).toBeCloseTo(0, 9);
      for (const corner of PANEL.vertices)
        expect(distance(at, corner)).toBeGreaterThanOrEqual(tabLength(SHAPE, 3) / 2 + 3 - 1e-9);
    }
    for (const [i, a] of tabs.entries())
      for (const b of tabs.slice(i + 1))
        expect(distance(a.at, b.at)).toBeGreaterThan(2 * tabLength(SHAPE, 3));
  });
  test("keep off a mating stretch", () => {
    const { tabs } = tabsOn(PANEL, [BOTTOM]);
    expect(tabs.length).toBeGreaterThanOrEqual(2);
    for (const { at } of tabs) expect(at.y).toBeGreaterThan(tabLength(SHAPE, 3) / 2);
  });
  test("keep off a tongue", () => {
    const rebate: Region = { outer: rectangle(point(0, 0), point(500, 7)), holes: [] };
    for (const { at } of tabsOn(PANEL, [], [rebate]).tabs) expect(at.y).toBeGreaterThan(7);
  });
  test("find no room on a panel that mates all round", () => {
    const all = polyline([...PANEL.vertices, PANEL.vertices[0]!]);
    expect(tabsOn(PANEL, [all]).tabs).toEqual([]);
  });
  test("find no room on a small disc: its edge is too tight", () =>
    expect(tabsOn(circle(point(0, 0), 30)).tabs).toEqual([]));
  test("leave at least three quarters of a small part to cut", () => {
    const { tabs, held } = tabsOn(roundedRectangle(point(0, 0), point(60, 30), 3));
    expect(tabs.length).toBeLessThanOrEqual(2);
    expect(tabs.length * tabLength(SHAPE, 3)).toBeLessThanOrEqual(trackLength(held.track) / 4);
  });
});
