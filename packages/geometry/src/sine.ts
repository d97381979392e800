/**
 * The sine of an angle, the same to the last digit on every engine.
 *
 * The language leaves the last digits of sine and cosine to the engine (ECMA-262, 21.3.2). Two engines that differ
 * there round a coordinate to another thousandth, or choose the other of two equally good cutting orders: what a
 * browser takes away would not be what the command writes. Products and sums are the same everywhere.
 *
 * Units: radians, up to a million quarter turns; RangeError beyond. Within one unit in the last place.
 * Source: W. J. Cody and W. Waite, Software Manual for the Elementary Functions (1980): reduction by a quarter turn
 * that is told in parts; Taylor's series of what is left.
 */
export function sine(angle: number): number {
  const { quarters, rest, tail } = reduced(angle);
  const size = (quarters & 1) === 0 ? sineOf(rest, tail) : cosineOf(rest, tail);
  return quarters < 2 ? size : -size;
}

/** The cosine, likewise. */
export function cosine(angle: number): number {
  const { quarters, rest, tail } = reduced(angle);
  const size = (quarters & 1) === 0 ? cosineOf(rest, tail) : sineOf(rest, tail);
  return quarters === 0 || quarters === 3 ? size : -size;
}

/** The tangent, likewise, within three units in the last place. */
export function tangentOf(angle: number): number {
  return sine(angle) / cosine(angle);
}

interface Reduced {
  readonly quarters: number;
  /** From −π/4 to π/4, and what a number cannot hold of it. */
  readonly rest: number;
  readonly tail: number;
}

/** π/2 as a sum: products of the first two with a whole number of quarters are exact. */
const QUARTER = [1.5707963267341256, 6.077100506303966e-11, 2.0222662487959506e-21] as const;
const MOST_QUARTERS = 1e6;

function reduced(angle: number): Reduced {
  const turned = Math.round(angle / (Math.PI / 2));
  if (Math.abs(turned) > MOST_QUARTERS) throw new RangeError(`an angle of ${angle} rad is no angle of ours`);
  if (turned === 0) return { quarters: 0, rest: angle, tail: 0 };
  const most = angle - turned * QUARTER[0];
  const less = turned * QUARTER[1];
  const near = most - less;
  const missed = turned * QUARTER[2] - (most - near - less);
  const rest = near - missed;
  return { quarters: turned & 3, rest, tail: near - rest - missed };
}

function sineOf(x: number, tail: number): number {
  const z = x * x;
  return x - (z * (tail / 2 - x * z * sineSeries(z)) - tail + (z * x) / 6);
}

function cosineOf(x: number, tail: number): number {
  const z = x * x;
  const most = 1 - z / 2;
  return most + (1 - most - z / 2 + (z * z * cosineSeries(z) - x * tail));
}

/** 1/5! − z/7! + …, to 17!. */
function sineSeries(z: number): number {
  const last = 1 / 1_307_674_368_000 - z / 355_687_428_096_000;
  return (
    1 / 120 - z * (1 / 5040 - z * (1 / 362_880 - z * (1 / 39_916_800 - z * (1 / 6_227_020_800 - z * last))))
  );
}

/** 1/4! − z/6! + …, to 18!. */
function cosineSeries(z: number): number {
  const last = 1 / 87_178_291_200 - z * (1 / 20_922_789_888_000 - z / 6_402_373_705_728_000);
  return 1 / 24 - z * (1 / 720 - z * (1 / 40_320 - z * (1 / 3_628_800 - z * (1 / 479_001_600 - z * last))));
}
