import { type Machine, needsFlip } from "@dryfit/gcode";
import { type Region, rectangle } from "@dryfit/geometry";
import type { Part } from "@dryfit/joinery";
import type { Stock } from "@dryfit/nest";

/**
 * The sheets with the machine's clamps among the places to keep clear of. A clamp stays where it is while the sheet
 * is turned over: where a part is worked on both faces, it stands in the way of its own mirror images too, whichever
 * way the sheet is turned.
 */
export function withClamps(
  stocks: readonly Stock[],
  { clamps }: Machine,
  parts: readonly Part[],
): readonly Stock[] {
  if (clamps.length === 0) return stocks;
  const turned = parts.some(needsFlip);
  return stocks.map((stock) => {
    const [width, height] = stock.size;
    const zones = clamps.flatMap(([left, bottom, across, up]) => {
      const lefts = turned ? [left, width - left - across] : [left];
      const bottoms = turned ? [bottom, height - bottom - up] : [bottom];
      const places = [
        [left, bottom],
        ...lefts.slice(1).map((x) => [x, bottom]),
        ...bottoms.slice(1).map((y) => [left, y]),
      ] as const;
      return places.flatMap(([x, y]) => onSheet([x!, y!, across, up], stock.size));
    });
    return { ...stock, keepOuts: [...stock.keepOuts, ...zones] };
  });
}

/** As much of the place as lies on the sheet. */
function onSheet(
  [x, y, across, up]: readonly [number, number, number, number],
  [width, height]: Stock["size"],
): Region<"sheet">[] {
  const [min, max] = [
    { x: Math.max(0, x), y: Math.max(0, y) },
    { x: Math.min(width, x + across), y: Math.min(height, y + up) },
  ];
  return min.x < max.x && min.y < max.y ? [{ outer: rectangle(min, max), holes: [] }] : [];
}
