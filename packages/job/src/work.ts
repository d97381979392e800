import { boundsOf } from "@dryfit/geometry";
import { type Assembly, coupon, type Design, recipe } from "@dryfit/joinery";
import type { Stock } from "@dryfit/nest";
import { stocksOf } from "./stocks.ts";

/** What is made of a design: its case, or the coupon that tries its joints beforehand. */
export type Work = "case" | "coupon";

export function assemblyOf(work: Work, design: Design): Assembly {
  const made = recipe(design);
  // A design that cannot be made has nothing worth trying; its sheets' sizes are none of a coupon's business.
  return work === "case" ? made : { ...coupon(design), findings: made.findings.filter(isError) };
}

/** The sheets that it is cut from: a coupon is cut from an offcut that just holds it. */
export function stocksFor(work: Work, design: Design, assembly: Assembly): readonly Stock[] {
  if (work === "case") return stocksOf(design);
  const { margin, web, name } = design.sheet;
  const boxes = assembly.parts.map(({ outline }) => boundsOf(outline));
  const widths = boxes.map(({ min, max }) => max.x - min.x);
  const tallest = Math.max(...boxes.map(({ min, max }) => max.y - min.y));
  const gaps = (boxes.length - 1) * (design.cutter + web);
  const size: [number, number] = [
    Math.ceil(widths.reduce((sum, width) => sum + width, 2 * margin + gaps)),
    Math.ceil(tallest + 2 * margin),
  ];
  const plain = { outline: null, grain: "x", count: 1, price: null, keepOuts: [] } as const;
  return [{ id: "offcut", material: name, size, ...plain }];
}

function isError({ severity }: Assembly["findings"][number]): boolean {
  return severity === "error";
}
