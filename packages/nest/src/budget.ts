/**
 * What a search may spend. Told from outside, because the search itself has no clock: a budget of steps gives the
 * same layout on every machine, one of seconds gives the best that this machine can do in them.
 */
export interface Budget {
  /** Share used after this many steps; from 1 on the search stops and returns its best. */
  spent(steps: number): number;
}

export function stepBudget(most: number): Budget {
  return { spent: (steps) => steps / most };
}

/** `now` in seconds, from any start; `interrupted` ends the search early with the best layout so far. */
export function timeBudget(
  seconds: number,
  now: () => number,
  interrupted: () => boolean = () => false,
): Budget {
  const start = now();
  // A clock is dear next to a step: it is read once in a while, and where steps begin again from 0.
  let [share, last] = [0, Number.NEGATIVE_INFINITY];
  return {
    spent: (steps) => {
      if (share >= 1 || Math.abs(steps - last) < 100) return share;
      last = steps;
      share = interrupted() ? 1 : (now() - start) / seconds;
      return share;
    },
  };
}

/** The part of a budget between two shares, for a search that counts its own steps from 0. */
export function sliceOf(budget: Budget, stepsBefore: number, from: number, to: number): Budget {
  return { spent: (steps) => (budget.spent(stepsBefore + steps) - from) / Math.max(1e-12, to - from) };
}
