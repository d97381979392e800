import { areaOfPart, type Design, hardware, type Read, readYaml } from "@dryfit/joinery";
import { z } from "zod";
import type { Road } from "./road.ts";

/** What things cost, in the maker's own currency. */
export interface Prices {
  readonly currency: string;
  /** One of each, by how its line on the build sheet begins: "Screw", "Continuous hinge". */
  readonly hardware: Readonly<Record<string, number>>;
  /** Of oil, varnish or paint on a square metre, all coats; null: not told. */
  readonly finishPerSquareMetre: number | null;
  /** Of the machine's running, cutter wear among it; null: not told. */
  readonly machinePerHour: number | null;
}

/** A case's cost, line by line. */
export interface Cost {
  readonly currency: string;
  readonly lines: readonly CostLine[];
  readonly total: number;
  /** What has no price in any file. */
  readonly missing: readonly string[];
}

interface CostLine {
  readonly what: string;
  readonly amount: number;
  readonly unit: string;
  readonly each: number;
  readonly sum: number;
}

/** Reads a price file. `file` is only a name for messages. */
export function readPrices(text: string, file: string): Read<Prices> {
  const read = readYaml(text, file, schema);
  if (!read.ok) return read;
  const { currency, hardware, finishPerSquareMetre = null, machinePerHour = null } = read.value;
  return { ...read, value: { currency, hardware, finishPerSquareMetre, machinePerHour } };
}

/** For editors that complete and check while one types. */
export function pricesJsonSchema(): z.core.JSONSchema.JSONSchema {
  return z.toJSONSchema(schema, { io: "input" });
}

const price = z.number("a price, 0 or more").min(0, "a price, 0 or more").max(1e6, "a price, 0 or more");

const schema = z.strictObject({
  currency: z
    .string("a currency, such as EUR")
    .min(1, "a currency, such as EUR")
    .max(8, "a currency, such as EUR"),
  hardware: z
    .record(z.string().min(1), price, "prices by name: Screw: 0.08")
    .default({})
    .describe("One of each, by how its line on the build sheet begins."),
  finishPerSquareMetre: price.optional().describe("Of the finish on a square metre, all coats."),
  machinePerHour: price.optional().describe("Of the machine's running."),
});

/** What the case costs; null where neither the design's sheets nor a price file tell any price. */
export function costOf(design: Design, road: Road, prices: Prices | null): Cost | null {
  const stocks = design.sheet.sizes;
  if (prices === null && stocks.every((stock) => stock.price === null)) return null;
  const lines: CostLine[] = [];
  const missing: string[] = [];
  const add = (what: string, amount: number, unit: string, each: number | null): void => {
    if (each === null) missing.push(what);
    else lines.push({ what, amount, unit, each, sum: cents(amount * each) });
  };
  for (const { id, size, price: each } of stocks) {
    const count = road.layout.sheets.filter((sheet) => sheet.stock.id === id).length;
    if (count > 0) add(`Sheet ${size[0]} × ${size[1]}, ${design.sheet.name}`, count, "", each);
  }
  for (const { what, count } of hardware(design)) add(what, count, "", hardwarePrice(what, prices));
  const area = road.assembly.parts.reduce((sum, part) => sum + 2 * areaOfPart(part), 0) / 1e6;
  add("Finish", Number(area.toFixed(2)), "m²", prices?.finishPerSquareMetre ?? null);
  const minutes = road.programs.reduce((sum, program) => sum + program.minutes, 0);
  if (minutes > 0) add("Machine", Number((minutes / 60).toFixed(2)), "h", prices?.machinePerHour ?? null);
  const total = cents(lines.reduce((sum, line) => sum + line.sum, 0));
  return { currency: prices?.currency ?? "", lines, total, missing };
}

/** The longest name that the line begins with. */
function hardwarePrice(what: string, prices: Prices | null): number | null {
  const words = what.toLowerCase();
  const [found] = Object.entries(prices?.hardware ?? {})
    .filter(([name]) => words.startsWith(name.toLowerCase()))
    .sort(([a], [b]) => b.length - a.length);
  return found?.[1] ?? null;
}

function cents(value: number): number {
  return Math.round(value * 100) / 100;
}
