/** What the sheet is made of, as far as a cutter feels it. */
export type Wood = "plywood" | "softwood" | "hardwood" | "mdf";

/**
 * The handbook's chip load for a cutter of this diameter, mm per tooth, at a depth of one diameter.
 *
 * Between the table's diameters it runs straight; below the least it shrinks with the diameter, above the
 * greatest it stays. `least` and `most` are the table's range, `mean` its middle.
 * Source: one published table in inches, converted (industrial machines; see `derate` for light ones).
 */
export function handbookChipLoad(
  wood: Wood,
  diameter: number,
): { least: number; most: number; mean: number } {
  const [least, most] = [0, 1].map((end) => interpolate(TABLE[wood], diameter, end as 0 | 1)) as [
    number,
    number,
  ];
  return { least, most, mean: (least + most) / 2 };
}

/**
 * How much of the chip load holds at this depth: all of it down to one diameter, 75 % at two, 50 % at three and more.
 * Source: two published pages ("reduce by about 25 % at 2 D and 50 % at 3 D"); straight in between.
 */
export function depthFactor(depth: number, diameter: number): number {
  return Math.min(1, Math.max(0.5, 1.25 - 0.25 * (depth / diameter)));
}

/**
 * The thickest chip over the feed per tooth, where the cutter takes only `width` of wood at its side.
 * Source: h = 2 f √(a/D − (a/D)²) below half a diameter (three published pages).
 */
export function thinningFactor(width: number, diameter: number): number {
  const share = width / diameter;
  return share >= 0.5 ? 1 : 2 * Math.sqrt(share - share * share);
}

/** Below this a tooth rubs and burns, mm: 0.03 for thin cutters up to 0.05 from 6.35 mm (common practice, no source). */
export function leastChipLoad(diameter: number): number {
  const share = (diameter - 3.175) / (6.35 - 3.175);
  return 0.03 + 0.02 * Math.min(1, Math.max(0, share));
}

type Row = readonly (readonly [diameter: number, range: readonly [number, number]])[];

const INCH_MM = 25.4;

const PLYWOOD: Row = inches([0.004, 0.006], [0.011, 0.013], [0.017, 0.02], [0.021, 0.023]);

const TABLE: Readonly<Record<Wood, Row>> = {
  plywood: PLYWOOD,
  softwood: PLYWOOD,
  mdf: inches([0.004, 0.007], [0.013, 0.016], [0.02, 0.023], [0.025, 0.027]),
  hardwood: inches([0.003, 0.005], [0.009, 0.011], [0.015, 0.018], [0.019, 0.021]),
};

/** Ranges for 1/8, 1/4, 3/8 and 1/2 inch. */
function inches(...ranges: readonly (readonly [number, number])[]): Row {
  return ranges.map(([least, most], i) => [((i + 1) / 8) * INCH_MM, [least * INCH_MM, most * INCH_MM]]);
}

function interpolate(row: Row, diameter: number, end: 0 | 1): number {
  const above = row.findIndex(([d]) => d >= diameter);
  if (above === 0) return (row[0]![1][end] * diameter) / row[0]![0];
  if (above === -1) return row.at(-1)![1][end];
  const [low, high] = [row[above - 1]!, row[above]!];
  const share = (diameter - low[0]) / (high[0] - low[0]);
  return low[1][end] + share * (high[1][end] - low[1][end]);
}
