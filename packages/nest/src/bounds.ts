/**
 * Least number of equal sheets for rectangles that may not be turned, by dual feasible functions: each rescales sizes
 * so that whatever fitted still fits, hence the area bound of the rescaled rectangles holds for the real ones.
 *
 * Source: S. P. Fekete, J. Schepers, "New classes of fast lower bounds for bin packing problems", 2001
 * (functions u of order k and U of ε); C. Alves et al., "Dual-feasible functions", 2016 (of J. Carlier et al. 2007).
 */
export function dualFeasibleBound(
  sizes: readonly (readonly [number, number])[],
  sheet: readonly [number, number],
): number {
  const widths = candidates(
    sizes.map(([w]) => w),
    sheet[0],
  );
  const heights = candidates(
    sizes.map(([, h]) => h),
    sheet[1],
  );
  let most = 0;
  for (const u of widths) {
    for (const v of heights) {
      let sum = 0;
      for (let i = 0; i < sizes.length; i++) sum += u[i]! * v[i]!;
      if (sum > most) most = sum;
    }
  }
  return Math.max(sizes.length > 0 ? 1 : 0, Math.ceil(most - 1e-6));
}

/** Least number of equal sheets by area alone. */
export function areaBound(areas: readonly number[], sheetArea: number): number {
  return Math.ceil(areas.reduce((sum, area) => sum + area, 0) / sheetArea - 1e-9);
}

/** The sizes in one direction as every function of the families sees them, as shares of the sheet. */
function candidates(lengths: readonly number[], whole: number): Float64Array[] {
  const shares = lengths.map((l) => l / whole);
  const functions: ((x: number) => number)[] = [(x) => x];
  for (let k = 1; k <= 12; k++) functions.push((x) => stepped(x, k));
  const cuts = [...new Set(shares.flatMap((x) => [x, 1 - x]))].filter((e) => e > 1e-9 && e <= 0.5);
  const chosen = cuts.length <= 60 ? cuts : cuts.filter((_, i) => i % Math.ceil(cuts.length / 60) === 0);
  for (const e of chosen)
    functions.push(
      (x) => dropped(x, e),
      (x) => rounded(x, e),
    );
  const seen = new Set<string>();
  return functions
    .map((f) => Float64Array.from(shares, f))
    .filter((values) => {
      const key = values.join();
      const fresh = !seen.has(key);
      seen.add(key);
      return fresh;
    });
}

/** u of order k: exact multiples of 1 / (k + 1) stay, all else is rounded down on a coarser scale. */
function stepped(x: number, k: number): number {
  const scaled = x * (k + 1);
  const whole = Math.round(scaled);
  if (Math.abs(scaled - whole) < 1e-9) return x;
  return Math.floor(scaled) / k;
}

/** U of ε: what is longer than 1 − ε counts as whole, what is shorter than ε not at all. */
function dropped(x: number, e: number): number {
  if (x > 1 - e + 1e-12) return 1;
  return x < e - 1e-12 ? 0 : x;
}

/** Lengths in units of ε, those over half complemented: floor(1/ε) − floor((1 − x)/ε). */
function rounded(x: number, e: number): number {
  const units = Math.floor(1 / e + 1e-9);
  if (x > 0.5 + 1e-12) return (2 * (units - Math.floor((1 - x) / e + 1e-9))) / (2 * units);
  if (x > 0.5 - 1e-12) return units / (2 * units);
  return (2 * Math.floor(x / e + 1e-9)) / (2 * units);
}
