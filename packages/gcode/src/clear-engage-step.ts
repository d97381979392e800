/** The largest step that an attempt bears out, and what came of it. */
export interface Step<T> {
  readonly by: number;
  readonly got: T;
}

/**
 * The largest step up to `most`, mm, that `attempt` does not refuse, within a few per cent; null: it refuses all.
 * Steps follow each other in size, so it looks about the guess first, and farther away only where it must; or, unless it `widens`, rests content.
 */
export function largest<T>(
  attempt: (by: number) => T | null,
  most: number,
  guess: number,
  widens = true,
): Step<T> | null {
  let best: Step<T> | null = null;
  const fits = (by: number): boolean => {
    const got = attempt(by);
    if (got !== null) best = { by, got };
    return got !== null;
  };
  let [low, high] = [Math.min(most, guess), Math.min(most, guess)];
  let factor = CLOSELY;
  if (fits(low))
    for (;;) {
      if (low === most || !widens) return best;
      high = Math.min(most, low * factor);
      if (!fits(high)) break;
      low = high;
      factor *= factor;
    }
  else
    for (;;) {
      low = high / factor;
      if (low < LEAST_STEP_MM / 4) return null;
      if (fits(low)) break;
      high = low;
      factor *= factor;
    }
  while (high > CLOSELY * low * (1 + 1e-9)) {
    const middle = (low + high) / 2;
    if (fits(middle)) low = middle;
    else high = middle;
  }
  return best;
}

const CLOSELY = 1.04;

/** Steps that are smaller leave nothing that a wall's last pass could not take, mm. */
export const LEAST_STEP_MM = 0.001;
