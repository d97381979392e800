import type { BuildSheetData } from "./build-data.ts";
import { length } from "./lettering.ts";
import { paragraph, type Section, section, table } from "./paper/block.ts";

/** What it costs, as far as prices are known. */
export function costSection({ cost }: BuildSheetData): Section | null {
  if (cost === null) return null;
  const { currency, lines, total, missing } = cost;
  const money = (value: number): string => `${value.toFixed(2)}${currency === "" ? "" : ` ${currency}`}`;
  return section(
    "cost",
    "Cost",
    table(
      [
        { title: "what" },
        { title: "how much", figures: true },
        { title: "each", figures: true },
        { title: "sum", figures: true },
      ],
      [
        ...lines.map(({ what, amount, unit, each, sum }) => [
          what,
          `${length(amount, 2)}${unit === "" ? "" : ` ${unit}`}`,
          money(each),
          money(sum),
        ]),
        ["Together", "", "", money(total)],
      ],
    ),
    missing.length === 0
      ? null
      : paragraph(
          `Not in it, for want of a price: ${missing.join(", ")}.${
            missing.some((what) => what.startsWith("Sheet "))
              ? " A sheet's price stands beside its size in the design."
              : ""
          }`,
        ),
  );
}
