import type { Choice } from "./choose-cutter.ts";
import type { Assigned } from "./order.ts";
import type { Task } from "./plan-task.ts";

/** A task and all that could do it. */
export interface Offer {
  readonly task: Task;
  readonly choices: readonly Choice[];
}

/**
 * One choice for every task that has any: of all sets of cutters the one that takes the least time in all,
 * the changes counted. So the largest cutter that fits wins where it saves more than its change costs.
 */
export function fewestCutters(
  offers: readonly Offer[],
  seconds: (task: Task, choice: Choice) => number,
): Assigned[] {
  const open = offers
    .filter(({ choices }) => choices.length > 0)
    .map(({ task, choices }) => ({
      task,
      priced: choices.map((choice) => ({ choice, cost: seconds(task, choice) })),
    }));
  const numbers = mostUseful(open.map(({ priced }) => priced.flatMap(({ choice }) => numbersOf(choice))));
  let best: { cost: number; assigned: Assigned[] } | null = null;
  for (let set = 1; set < 2 ** numbers.length; set++) {
    const inSet = (number: number): boolean => ((set >> numbers.indexOf(number)) & 1) === 1;
    let cost = 0;
    const assigned: Assigned[] = [];
    for (const { task, priced } of open) {
      const able = priced.filter(({ choice }) =>
        numbersOf(choice).every((number) => numbers.includes(number) && inSet(number)),
      );
      if (able.length === 0) break;
      const cheapest = able.reduce((a, b) => (b.cost < a.cost ? b : a));
      cost += cheapest.cost;
      assigned.push({ task, choice: cheapest.choice });
    }
    if (assigned.length < open.length) continue;
    cost +=
      CHANGE_SECONDS *
      new Set(assigned.flatMap(({ task, choice }) => numbersOf(choice).map((n) => `${task.setup}${n}`))).size;
    if (best === null || cost < best.cost - 1e-6) best = { cost, assigned };
  }
  return best?.assigned ?? [];
}

/** The cutters that a choice takes. */
function numbersOf({ cutter, rough }: Choice): number[] {
  return rough === undefined ? [cutter.number] : [rough.cutter.number, cutter.number];
}

/** A change by hand: collet, cutter, Z zero, a look. From memory. */
export const CHANGE_SECONDS = 120;

/** So many cutters are tried in all combinations. */
const MOST_CUTTERS = 10;

/** The cutters that serve most tasks, but at least one for every task. */
function mostUseful(choices: readonly (readonly number[])[]): number[] {
  const count = new Map<number, number>();
  for (const number of choices.flat()) count.set(number, (count.get(number) ?? 0) + 1);
  const byUse = [...count.keys()].sort((a, b) => count.get(b)! - count.get(a)! || a - b);
  const kept = new Set(byUse.slice(0, MOST_CUTTERS));
  for (const own of choices) if (!own.some((number) => kept.has(number))) kept.add(own[0]!);
  return [...kept].sort((a, b) => a - b);
}
