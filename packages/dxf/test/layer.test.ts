import { type LayerMeaning, layerName, readLayerName } from "@dryfit/dxf";
import { expect, test } from "vitest";

function check(meaning: LayerMeaning, name: string) {
  expect(layerName(meaning)).toBe(name);
  expect(readLayerName(name)).toEqual(meaning);
}

test("an outline is cut through outside", () => check({ kind: "outside" }, "THROUGH_OUTSIDE"));
test("an opening is cut through inside", () => check({ kind: "inside" }, "THROUGH_INSIDE"));
test("a recess names depth and face", () =>
  check({ kind: "recess", depth: 5.8, face: "A" }, "RECESS_5-80_A"));
test("a recess from below names face B", () =>
  check({ kind: "recess", depth: 12, face: "B" }, "RECESS_12-00_B"));
test("a through hole names its diameter", () =>
  check({ kind: "bore", diameter: 3.2, depth: null }, "BORE_3-20_THROUGH"));
test("a blind hole names its depth too", () =>
  check({ kind: "bore", diameter: 3.2, depth: 8, face: "A" }, "BORE_3-20_8-00_A"));
test("labels have a layer of their own", () => check({ kind: "label" }, "LABEL"));
test("the sheet's edge has a layer of its own", () => check({ kind: "sheet-edge" }, "SHEET_EDGE"));
test("a stranger's layer means nothing to us", () => expect(readLayerName("Ebene 1")).toBeNull());
test("no layer is named like a built-in property", () => expect(readLayerName("constructor")).toBeNull());
