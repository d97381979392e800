import { lengthOf, pathOf } from "@dryfit/geometry";
import { type Choice, isEndMill } from "./choose-cutter.ts";
import { woodToGo } from "./choose-fit.ts";
import { CHANGE_SECONDS, type Offer } from "./choose-set.ts";
import { secondsFor } from "./choose-time.ts";
import { type RestClearing, restClearing, roomsIn } from "./clear-rest.ts";
import { FINISHING_ALLOWANCE } from "./cut.ts";
import type { Cutter } from "./cutter.ts";
import { recalled } from "./known.ts";
import type { Assigned } from "./order.ts";
import { type Bench, deepest } from "./plan-build.ts";
import type { PlanOptions } from "./plan-options.ts";
import type { Task } from "./plan-task.ts";

/**
 * The offers, with the choices added by which a larger cutter roughs a recess and one that fits clears the rest: where
 * that can save time, or instead of all others where it is asked for. A limit to the engagement rules it out, since
 * corners are cut as slots.
 */
export function withRoughing(
  offers: readonly Offer[],
  roughers: readonly Cutter[],
  options: Pick<PlanOptions, "rest" | "clearing" | "direction" | "finish">,
  benchOf: (task: Task) => Bench,
): readonly Offer[] {
  const { rest, clearing } = options;
  if (rest === "never" || clearing.engagement !== null || clearing.method === "engagement") return offers;
  const mills = roughers.filter(isEndMill);
  const wanted = mills.filter((rough) => rest === "always" || canSave(offers, rough, benchOf));
  if (wanted.length === 0) return offers;
  return offers.map((offer) => {
    const shared = wanted.flatMap((rough) => roughedBy(offer, rough, options, benchOf(offer.task)) ?? []);
    return {
      ...offer,
      choices: rest === "always" && shared.length > 0 ? shared : [...offer.choices, ...shared],
    };
  });
}

/** Whether all recesses together could save more time than it takes to put the cutter in, if it is not in anyway. */
function canSave(offers: readonly Offer[], rough: Cutter, benchOf: (task: Task) => Bench): boolean {
  const isIn = offers.some(({ choices }) => choices.some(({ cutter }) => cutter.number === rough.number));
  const saved = offers.reduce((sum, offer) => {
    const own = finisherFor(offer, rough, benchOf(offer.task));
    if (own === null) return sum;
    const bench = benchOf(offer.task);
    const alone = secondsFor(offer.task, own.cutter, bench);
    const shared = secondsFor(offer.task, rough, bench) + secondsOfWalls(offer.task, own, bench);
    return sum + Math.max(0, alone - shared);
  }, 0);
  return saved > (isIn ? 0 : CHANGE_SECONDS);
}

/** The least that a shared recess takes the cutter that fits, s: the walls' last pass. */
function secondsOfWalls(task: Task, own: Choice, bench: Bench): number {
  const radius = own.cutter.diameter / 2;
  const wood = woodToGo(task, radius, own);
  const length = recalled(bench.known, "walls", [wood, radius], () => {
    const rooms = roomsIn(wood, radius);
    return rooms
      .flatMap(({ outer, holes }) => [outer, ...holes])
      .reduce((sum, loop) => sum + lengthOf(loop), 0);
  });
  const finishing = bench.data(own.cutter, task.material, { kind: "finishing", depth: deepest(task, bench) });
  return (60 * length) / finishing.feedMmPerMin;
}

/** The widest cutter that clears the recess, where the larger one alone does not. */
function finisherFor({ task, choices }: Offer, rough: Cutter, bench: Bench): Choice | null {
  const own = choices[0];
  if (task.kind !== "recess" || task.shape.kind !== "pocket" || own === undefined) return null;
  if (choices.some(({ cutter }) => cutter.number === rough.number)) return null;
  return rough.diameter > own.cutter.diameter + WIDER_MM && rough.fluteLength >= deepest(task, bench)
    ? own
    : null;
}

function roughedBy(
  offer: Offer,
  rough: Cutter,
  { direction, finish }: Pick<PlanOptions, "direction" | "finish">,
  bench: Bench,
): Choice | null {
  const { task } = offer;
  const own = finisherFor(offer, rough, bench);
  if (own === null || task.shape.kind !== "pocket") return null;
  const radius = own.cutter.diameter / 2;
  const { stepover } = bench.data(own.cutter, task.material, {
    kind: "clearing",
    depth: deepest(task, bench),
  });
  const allowance = finish?.allowance ?? FINISHING_ALLOWANCE;
  const wood = woodToGo(task, radius, own);
  const cut = { radius, rough: rough.diameter / 2, allowance, stepover, direction };
  const plan = recalled(bench.known, "rest", [wood, cut], () => restClearing(wood, cut));
  return plan === null ? null : { ...own, rough: { cutter: rough, plan } };
}

/** About how long a choice takes over a task, two cutters that share it both counted, s: enough to compare. */
export function secondsOfChoice(task: Task, { cutter, rough }: Choice, bench: Bench): number {
  if (rough === undefined) return secondsFor(task, cutter, bench);
  const { tracks, walls } = rough.plan;
  const depth = deepest(task, bench);
  const [slot, finishing] = (["slot", "finishing"] as const).map((kind) =>
    bench.data(cutter, task.material, { kind, depth }),
  );
  const passes = Math.ceil(depth / slot!.depthPerPass - 1e-9);
  const length = (list: RestClearing["tracks"]): number =>
    list.reduce((sum, track) => sum + lengthOf(pathOf(track)), 0);
  return (
    secondsFor(task, rough.cutter, bench) +
    passes * ((60 * length(tracks)) / slot!.feedMmPerMin + ENTRY_SECONDS * tracks.length) +
    (60 * length(walls)) / finishing!.feedMmPerMin
  );
}

/** The tasks that two cutters share, as two: first the larger cutter's. */
export function inShares(assigned: readonly Assigned[]): Assigned[] {
  return assigned.flatMap((one): Assigned[] => {
    const { task, choice } = one;
    if (choice.rough === undefined) return [one];
    const { cutter } = choice.rough;
    return [
      {
        task: { ...task, id: `${task.id}-rough`, share: "rough" },
        choice: { ...choice, cutter, corners: [] },
      },
      { task: { ...task, share: "rest" }, choice },
    ];
  });
}

/** Down into a corner and out again, s. From memory. */
const ENTRY_SECONDS = 2;

/** A cutter that is less wider saves nothing, mm. */
const WIDER_MM = 0.5;
