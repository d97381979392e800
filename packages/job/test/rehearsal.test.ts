import { readFileSync } from "node:fs";
import { type Known, rehearse } from "@dryfit/gcode";
import { expect, test } from "vitest";
import { readInput } from "../src/input.ts";
import { travel, travelInStages } from "../src/road.ts";

test.each(["tidepool", "skiff"])(
  "cuts of %s that were rehearsed elsewhere are the cuts as planned",
  async (name) => {
    const text = readFileSync(new URL(`../../../samples/${name}.yaml`, import.meta.url), "utf8");
    const input = { design: { file: `${name}.yaml`, text }, machine: null, cutters: null, version: "0" };
    const shop = readInput(input);
    if (!("design" in shop)) throw new Error(JSON.stringify(shop));
    const { design, machine, cutters } = shop;

    let known: Known = new Map();
    let rehearsed: readonly string[] = [];
    const road = await travelInStages(design, machine, cutters, () => {}, {
      rehearsedBeside: async (...asked) => {
        // As it comes from another worker.
        known = structuredClone(rehearse(...structuredClone(asked)));
        rehearsed = [...known.keys()];
        return known;
      },
    });
    const alone = travel(design, machine, cutters, () => {});
    expect(road.programs.map(({ text }) => text)).toEqual(alone.programs.map(({ text }) => text));

    // All that takes long was known when planning began: only pins, which the sheet asks for, were not.
    const added = [...known.keys()].filter((key) => !rehearsed.includes(key));
    expect(rehearsed.some((key) => key.startsWith("clearing"))).toBe(true);
    expect(added.filter((key) => !/^fit\[\{"kind":"hole"/.test(key))).toEqual([]);
  },
);
