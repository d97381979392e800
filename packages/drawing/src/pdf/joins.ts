import { circle } from "@dryfit/geometry";
import type { PdfMark } from "./mark.ts";
import type { Tile } from "./tiles.ts";
import { line } from "./write.ts";

/**
 * Where a sheet meets its neighbours: a line down the middle of what both show, with crossed circles on it.
 * One sheet is cut along its line and laid on the other's; the circles then close.
 */
export function joins(tiles: readonly Tile[], tile: Tile): readonly PdfMark[] {
  return tiles.flatMap((other) => [
    ...(sameRow(tile, other) && touches(tile, other, "x") ? upright(tile, other) : []),
    ...(sameColumn(tile, other) && touches(tile, other, "y") ? level(tile, other) : []),
  ]);
}

/** Places of the crossed circles along a join, as shares of the sheet. */
const SHARES = [0.12, 0.88];

const LINE = { width: 0.18, dash: [6, 1.5, 1, 1.5] } as const;
const RADIUS = 3;

/** The join of two neighbours: the middle of their common strip. */
function joinAt(a: Tile, b: Tile, axis: "x" | "y"): number {
  return (
    (Math.max(a.window.min[axis], b.window.min[axis]) + Math.min(a.window.max[axis], b.window.max[axis])) / 2
  );
}

function upright(tile: Tile, other: Tile): readonly PdfMark[] {
  const x = joinAt(tile, other, "x");
  const { min, max } = tile.window;
  return [
    line(x, min.y, x, max.y, LINE),
    ...SHARES.flatMap((share) => target(x, min.y + share * (max.y - min.y), names(tile, other), true)),
  ];
}

function level(tile: Tile, other: Tile): readonly PdfMark[] {
  const y = joinAt(tile, other, "y");
  const { min, max } = tile.window;
  return [
    line(min.x, y, max.x, y, LINE),
    ...SHARES.flatMap((share) => target(min.x + share * (max.x - min.x), y, names(tile, other))),
  ];
}

/** `turned`: the words stand along an upright join, where the sheet ends close beside it. */
function target(x: number, y: number, text: string, turned = false): readonly PdfMark[] {
  const style = { width: 0.18 };
  return [
    { kind: "stroke", curves: [circle({ x, y }, RADIUS)], style },
    line(x - RADIUS - 1.5, y, x + RADIUS + 1.5, y, style),
    line(x, y - RADIUS - 1.5, x, y + RADIUS + 1.5, style),
    {
      kind: "text",
      text,
      at: { x: turned ? x - 1.2 : x + 1.4, y: y + RADIUS + (turned ? 2 : 0.8) },
      size: 2.2,
      angle: turned ? Math.PI / 2 : 0,
    },
  ];
}

function names(a: Tile, b: Tile): string {
  return [a.name, b.name].sort().join(" | ");
}

function sameRow(a: Tile, b: Tile): boolean {
  return a.name[0] === b.name[0];
}

function sameColumn(a: Tile, b: Tile): boolean {
  return a.name.slice(1) === b.name.slice(1);
}

/** Neighbours overlap; the same sheet and those farther off do not. */
function touches(a: Tile, b: Tile, axis: "x" | "y"): boolean {
  return a !== b && a.window.min[axis] < b.window.max[axis] && b.window.min[axis] < a.window.max[axis];
}
