import { readFileSync } from "node:fs";
import { cuttingData, type Machine, minutesOf, type Operation, PLAN_OPTIONS, planSheet } from "@dryfit/gcode";
import { type Loop, type Point, place, placeCurve } from "@dryfit/geometry";
import type { Feature, Part } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import { readInput, type Shop } from "../../packages/job/src/input.ts";
import { cuttersFor, travel } from "../../packages/job/src/road.ts";
import { type Least, leastOf, leastPin, leastTravel } from "./least.ts";

/** How near a sample's programs come to what its geometry and the shop allow. */
export interface Ratios {
  readonly seconds: number;
  readonly leastSeconds: number;
  readonly blocks: number;
  readonly elements: number;
  /** Rapids over the sheets, mm: as planned, and in the order of the parts and their features. */
  readonly planned: number;
  readonly naive: number;
  /** Cut by cut, to see where the time goes. */
  readonly cuts: readonly Cut[];
}

export interface Cut {
  readonly id: string;
  readonly cutter: string;
  readonly seconds: number;
  readonly leastSeconds: number;
  readonly blocks: number;
  readonly elements: number;
}

/** The ratios of a sample's programs with the default shop. */
export function ratiosOf(name: string): Ratios {
  const shop = shopOf(name);
  const road = travel(shop.design, shop.machine, shop.cutters, () => {});
  const cutters = cuttersFor(shop.design, shop.cutters);
  const plans = road.layout.sheets.map((sheet) =>
    planSheet({
      sheet,
      parts: road.assembly.parts,
      cutters,
      machine: shop.machine,
      data: (cutter, _material, cut) => cuttingData(cutter, shop.machine, "plywood", cut),
    }),
  );
  const operations = plans.flatMap(({ setups }) => setups.flatMap((setup) => setup.operations));
  const skins = new Map(operations.map(({ part, skin }) => [part, skin ?? null]));
  const leastShop = { machine: shop.machine, cutters, skinOf: (part: string) => skins.get(part) ?? null };
  const least = new Map(
    road.assembly.parts.flatMap((part) => leastOf(part, leastShop)).map((one) => [one.id, one]),
  );
  const pin = leastPin(road.assembly.parts[0]!, PLAN_OPTIONS.pins.diameter, leastShop);
  const cuts = operations.map((operation) => cutOf(operation, least.get(operation.id) ?? pin, shop.machine));
  const between = road.programs.map((program) => {
    const plan = road.plans.find(({ sheet, setup }) => sheet === program.sheet && setup === program.setup)!;
    const ids = new Set(program.cutters.map(({ id }) => id));
    const own = plan.operations.filter(({ cutter }) => ids.has(cutter));
    const sheet = road.layout.sheets.find(({ id }) => id === program.sheet)!;
    const width = Math.max(...program.cutters.map(({ diameter }) => diameter));
    const places = own.flatMap((operation) => placeOf(operation, sheet, road.assembly.parts) ?? []);
    return leastTravel(places, width, shop.machine) + shop.machine.spindle.spinUpSeconds;
  });
  return {
    seconds: 60 * sum(road.programs.map(({ minutes }) => minutes)),
    leastSeconds: sum(cuts.map(({ leastSeconds }) => leastSeconds)) + sum(between),
    blocks: sum(road.programs.map(({ text }) => motionBlocks(text))),
    elements: sum(cuts.map(({ elements }) => elements)),
    planned: sum(plans.map((plan) => plan.travel.planned)),
    naive: sum(plans.map((plan) => plan.travel.naive)),
    cuts,
  };
}

/** A sample's design with the shop that comes with dryfit. */
export function shopOf(name: string): Shop {
  const file = `samples/${name}.yaml`;
  const text = readFileSync(new URL(`../../${file}`, import.meta.url), "utf8");
  const shop = readInput({ design: { file, text }, machine: null, cutters: null, version: "bench" });
  if (!("design" in shop)) throw new Error(JSON.stringify(shop));
  return shop;
}

function cutOf(operation: Operation, least: Least, machine: Machine): Cut {
  const first = operation.moves.find((move) => move.kind === "rapid");
  if (first === undefined) throw new RangeError(`${operation.id} begins with no rapid`);
  return {
    id: operation.id,
    cutter: operation.cutter,
    seconds: 60 * minutesOf(operation.moves, machine, first.to),
    leastSeconds: least.seconds,
    blocks: operation.moves.filter(({ kind }) => kind !== "comment").length,
    elements: least.elements + TAB_ELEMENTS * operation.tabs.length + ENTRY_ELEMENTS,
  };
}

/** A tab parts the side that it stands on and adds a way up, along and down, in the one pass that meets it. */
const TAB_ELEMENTS = 4;

/** Over, down to the wood, to the ramp's end, over the last ramp, off the wall, up. */
const ENTRY_ELEMENTS = 6;

function placeOf(
  { part: id, feature, id: operation }: Operation,
  sheet: Sheet,
  parts: readonly Part[],
): Place | null {
  const part = parts.find((one) => one.id === id);
  const placed = sheet.parts.find((one) => one.part === id);
  if (part === undefined || placed === undefined) return null;
  if (operation.endsWith("/outline")) return placeCurve(placed.placement, part.outline);
  const found = part.features.find((one) => one.id === feature);
  return found === undefined ? null : shapeOf(found, placed.placement);
}

type Place = Loop<"sheet"> | Point<"sheet">;

function shapeOf(feature: Feature, sheetFromPanel: Sheet["parts"][number]["placement"]): Place {
  if (feature.kind === "bore") return place(sheetFromPanel, feature.at);
  return placeCurve(sheetFromPanel, feature.kind === "opening" ? feature.loop : feature.region.outer);
}

/** Lines of a program that move anything. */
function motionBlocks(text: string): number {
  return text.split("\n").filter((line) => /^[^(;]*\b[XYZ]-?[\d.]/.test(line)).length;
}

const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);
