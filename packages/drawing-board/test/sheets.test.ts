import { readFileSync } from "node:fs";
import { boundsOf, placeCurve } from "@dryfit/geometry";
import { makeJob, type Shown, VERSION } from "@dryfit/job";
import { type Design, readDesign } from "@dryfit/joinery";
import { beforeAll, describe, expect, test } from "vitest";
import { conflictOf } from "../src/sheets/conflict.ts";
import {
  type Place,
  placementOf,
  placesOf,
  turnedOn,
  turnsOf,
  withLock,
  withoutLocks,
} from "../src/sheets/place.ts";

const tidepool = readFileSync(new URL("../../../samples/tidepool.yaml", import.meta.url), "utf8");

const designOf = (text: string): Design => {
  const read = readDesign(text, "tidepool.yaml");
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join("\n"));
  return read.value;
};

/** What the board is shown of a design. */
async function laid(text: string): Promise<Shown> {
  const input = { design: { file: "tidepool.yaml", text }, machine: null, cutters: null, version: VERSION };
  return (await makeJob(input)).shown!;
}

let shown: Shown;
let places: readonly Place[];
beforeAll(async () => {
  shown = await laid(tidepool);
  places = placesOf(shown, designOf(tidepool));
}, 60_000);

const placeOf = (part: string): Place => places.find((place) => place.part === part)!;
const same = (mm: number): number => Number(mm.toFixed(3));

describe("where parts lie", () => {
  test("is told so that laying them down again comes to the same place", () => {
    for (const sheet of shown.layout.sheets)
      for (const { part: id, placement } of sheet.parts) {
        const part = shown.assembly.parts.find((each) => each.id === id)!;
        const again = boundsOf(placeCurve(placementOf(part, placeOf(id)), part.outline));
        const box = boundsOf(placeCurve(placement, part.outline));
        expect(again.min.x).toBeCloseTo(box.min.x, 9);
        expect(again.max.y).toBeCloseTo(box.max.y, 9);
      }
  });
  test("a part of fixed grain has two turns, one of free grain four", () => {
    const base = shown.assembly.parts.find(({ id }) => id === "base")!;
    expect(turnsOf({ ...base, grain: "x" }, "x")).toEqual([0, 180]);
    expect(turnsOf({ ...base, grain: "x" }, "y")).toEqual([90, 270]);
    expect(turnsOf({ ...base, grain: "free" }, "x")).toEqual([0, 90, 180, 270]);
    expect([turnedOn([0, 180], 0), turnedOn([0, 180], 180)]).toEqual([180, 0]);
  });
});

describe("a lock in the design file", () => {
  const locked = (text: string) => designOf(text).sheet.locked;
  const lock = (text: string, put: Partial<Place> & { part: string }): string =>
    withLock(text, designOf(text).sheet, places, { ...placeOf(put.part), ...put }, same)!;

  test("is added with what differs from what goes without saying, and every comment stays", () => {
    const text = lock(tidepool, { part: "base", x: 20, y: 15, turn: 0 });
    expect(text).toContain("{ part: base, x: 20, y: 15 }");
    expect(text).toContain("# floor to the front rail's top");
    expect(locked(text)).toEqual([{ part: "base", sheet: 1, size: "stock-1", x: 20, y: 15, turn: 0 }]);
  });
  test("is changed in its place when the part is moved again", () => {
    const once = lock(lock(tidepool, { part: "base", x: 20, y: 15 }), { part: "slat-1", x: 600, y: 500 });
    const twice = lock(once, { part: "base", x: 30, y: 15, turn: 180 });
    expect(locked(twice).map(({ part, x, turn }) => [part, x, turn])).toEqual([
      ["base", 30, 180],
      ["slat-1", 600, 0],
    ]);
  });
  test("of a sheet that was never cut is told its sheet's number when another is locked beside it", () => {
    const third = lock(tidepool, { part: "base", x: 20, y: 15, sheet: 3 });
    const both = lock(third, { part: "slat-1", x: 600, y: 500, sheet: 1 });
    expect(locked(both).map(({ sheet }) => sheet)).toEqual([1, 1]);
  });
  test("is taken away alone, and the list with the last", () => {
    const both = lock(lock(tidepool, { part: "base", x: 20, y: 15 }), { part: "slat-1", x: 600, y: 500 });
    const one = withoutLocks(both, locked(both), ["base"])!;
    expect(locked(one).map(({ part }) => part)).toEqual(["slat-1"]);
    const none = withoutLocks(one, locked(one), ["slat-1"])!;
    expect(none).not.toContain("locked");
    expect(designOf(none)).toEqual(designOf(tidepool));
  });
});

test("the command's way lays the rest round a locked part, and the sheets differ for it", async () => {
  const design = designOf(tidepool);
  const text = withLock(tidepool, design.sheet, places, { ...placeOf("base"), x: 333, y: 200 }, same)!;
  const moved = await laid(text);
  const now = placesOf(moved, designOf(text));
  expect(now.find(({ part }) => part === "base")).toMatchObject({ x: 333, y: 200, isLocked: true });
  expect(now.map(({ part }) => part).sort()).toEqual(places.map(({ part }) => part).sort());
  expect(moved.proof?.pass).toBe(true);
});

describe("a part under the hand", () => {
  const check = (put: Partial<Place> & { part: string }, others: readonly Place[], expected: string | null) =>
    expect(
      conflictOf(
        { ...placeOf(put.part), ...put },
        others,
        shown.assembly.parts,
        shown.layout.sheets[0]!,
        designOf(tidepool),
      ),
    ).toBe(expected);
  const base = (): Place => ({ ...placeOf("base"), x: 10, y: 10, isLocked: true });

  test("may lie where only parts lie that give way", () =>
    check({ part: "slat-1", x: 50, y: 50 }, places, null));
  test("may not lie over the edge", () =>
    check({ part: "slat-1", x: 1000, y: 50 }, [], "too near the sheet's edge"));
  test("may not lie within the margin", () =>
    check({ part: "slat-1", x: 9.9, y: 50 }, [], "too near the sheet's edge"));
  test("may not lie on a locked part", () =>
    check({ part: "slat-1", x: 50, y: 50 }, [base()], "too near base, which is locked"));
  // The base's blank is 349.6 deep; cutter 6 and web 4 are kept between.
  test("keeps the spacing off a locked part", () => {
    check({ part: "slat-1", x: 50, y: 10 + 349.6 + 9.9 }, [base()], "too near base, which is locked");
    check({ part: "slat-1", x: 50, y: 10 + 349.6 + 10 }, [base()], null);
  });
});
