import { z } from "zod";
import type { Assembly } from "./assembly.ts";
import type { Design } from "./design.ts";
import { COMMON_FINISH, type FinishCoat, type FinishPlan, planFinish } from "./finish.ts";
import { hardware } from "./hardware.ts";
import { type Read, readYaml } from "./yaml-file.ts";

/** What things cost, in the maker's own currency, and what goes on the wood. */
export interface Prices {
  readonly currency: string;
  /** One of each, by how its line on the build sheet begins: "Screw", "Continuous hinge". */
  readonly hardware: Readonly<Record<string, number>>;
  /** The maker's own coats; null: what is common practice. */
  readonly finish: readonly FinishCoat[] | null;
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

/** What a case uses up. */
export interface Used {
  /** Each sheet that it has parts on. */
  readonly sheets: readonly UsedSheet[];
  /** Of the machine; 0: not known. */
  readonly minutes: number;
}

interface UsedSheet {
  /** What sheets of one size and price are called. */
  readonly kind: string;
  readonly material: string;
  readonly size: readonly [number, number];
  readonly price: number | null;
  /** How much of it is this case's: 1 where no other is cut from it. */
  readonly share: number;
}

/** Reads a price file. `file` is only a name for messages. */
export function readPrices(text: string, file: string): Read<Prices> {
  const read = readYaml(text, file, schema);
  if (!read.ok) return read;
  const { currency, hardware, finish = null, machinePerHour = null } = read.value;
  const coats = finish?.map(({ perLitre = null, edgeCoats, ...coat }) => ({
    ...coat,
    edgeCoats: edgeCoats ?? coat.coats,
    perLitre,
  }));
  return { ...read, value: { currency, hardware, finish: coats ?? null, machinePerHour } };
}

/** For editors that complete and check while one types. */
export function pricesJsonSchema(): z.core.JSONSchema.JSONSchema {
  return z.toJSONSchema(schema, { io: "input" });
}

function numberFrom(least: number, most: number, what: string): z.ZodNumber {
  const allowed = `${what} from ${least} to ${most}`;
  return z.number(allowed).min(least, allowed).max(most, allowed);
}

const price = z.number("a price, 0 or more").min(0, "a price, 0 or more").max(1e6, "a price, 0 or more");
const coats = numberFrom(0, 20, "how many coats, a whole number").int("how many coats, a whole number");
const name = "what it is, such as Clear varnish";
const currency = "a currency, such as EUR";

const coat = z.strictObject({
  what: z.string(name).min(1, name).max(60, name),
  coats: coats.describe("On faces."),
  edgeCoats: coats.optional().describe("On edges; as many as on faces where left out."),
  squareMetresPerLitre: numberFrom(0.1, 100, "m² that a litre covers in one coat,").describe(
    "How far a litre goes in one coat, as its tin says.",
  ),
  hours: numberFrom(0, 500, "hours to wait after each coat,").describe("To wait after each coat."),
  perLitre: price.optional(),
});

const schema = z.strictObject({
  currency: z.string(currency).min(1, currency).max(8, currency),
  hardware: z
    .record(z.string().min(1), price, "prices by name: Screw: 0.08")
    .default({})
    .describe("One of each, by how its line on the build sheet begins."),
  finish: z
    .array(coat, "a list of coats: what, coats, squareMetresPerLitre, hours")
    .max(12, "up to 12 kinds of coats")
    .optional()
    .describe("What goes on the bare wood, in the order of use; common practice where left out."),
  machinePerHour: price.optional().describe("Of the machine's running."),
});

/** What goes on the case: the maker's own coats, or those of common practice. */
export function finishOf(assembly: Assembly, prices: Prices | null): FinishPlan {
  return planFinish(assembly, prices?.finish ?? COMMON_FINISH);
}

/** What the case costs; null where neither its sheets nor a price file tell any price. */
export function costOf(
  design: Design,
  { sheets, minutes }: Used,
  finish: FinishPlan,
  prices: Prices | null,
): Cost | null {
  if (prices === null && sheets.every(({ price }) => price === null)) return null;
  const lines: CostLine[] = [];
  const missing: string[] = [];
  const add = (what: string, amount: number, unit: string, each: number | null): void => {
    if (each === null) missing.push(what);
    else lines.push({ what, amount, unit, each, sum: cents(amount * each) });
  };
  for (const { kind, material, size, price } of new Map(sheets.map((one) => [one.kind, one])).values()) {
    const share = sheets.reduce((sum, one) => (one.kind === kind ? sum + one.share : sum), 0);
    add(`Sheet ${size[0]} × ${size[1]}, ${material}`, Number(share.toFixed(2)), "", price);
  }
  for (const { what, count } of hardware(design)) add(what, count, "", hardwarePrice(what, prices));
  for (const { what, litres, perLitre } of finish.lines) add(what, litres, "l", perLitre);
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
