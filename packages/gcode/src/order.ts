import type { Choice } from "./choose-cutter.ts";
import { LARGE_MM2, SMALL_MM2, type Task } from "./plan-task.ts";

/** A task and the cutter that was chosen for it. */
export interface Assigned {
  readonly task: Task;
  readonly choice: Choice;
}

/** As much of a piece of work as its order depends on. */
export interface Sortable {
  readonly task: Pick<Task, "partArea" | "lastPass" | "share"> & {
    readonly kind: Task["kind"] | "round-over";
  };
  readonly choice: { readonly cutter: { readonly number: number } };
}

/**
 * The tasks of one setup in groups that must follow each other: what larger cutters rough, recesses, then edges, openings, then outlines, small
 * parts before large ones, and last what cuts the skins under them; in each of these by cutter, so that cutters change as seldom as that allows.
 * Bores and pins go where their cutter is in the spindle anyway, else first. Within a group any order will do.
 */
export function groupsOf<A extends Sortable>(tasks: readonly A[]): A[][] {
  const isRough = ({ task }: A): boolean => task.share === "rough";
  const phases: A[][] = [
    tasks.filter(isRough),
    ...PHASES.map((kind) =>
      tasks.filter((one) => one.task.kind === kind && !one.task.lastPass && !isRough(one)),
    ),
  ];
  phases.push(tasks.filter(({ task }) => task.lastPass));
  const used = new Set(phases.flat().map(cutterOf));
  const free = tasks.filter(({ task }) => task.kind === "bore" || task.kind === "pin");
  const groups = sorted(new Set(free.map(cutterOf).filter((cutter) => !used.has(cutter)))).map((cutter) =>
    free.filter((one) => cutterOf(one) === cutter),
  );
  const seen = new Set<number>();
  let spindle = groups.at(-1)?.[0]?.choice.cutter.number ?? null;
  phases.forEach((phase, i) => {
    const next = new Set(phases[i + 1]?.map(cutterOf));
    for (const cutter of turns(new Set(phase.map(cutterOf)), spindle, next)) {
      const own = phase.filter((one) => cutterOf(one) === cutter);
      const along = seen.has(cutter) ? [] : free.filter((one) => cutterOf(one) === cutter);
      if (i >= OUTLINES) groups.push(along, ...bySize(own));
      else groups.push([...along, ...own]);
      seen.add(cutter);
      spindle = cutter;
    }
  });
  return groups.filter((group) => group.length > 0);
}

const PHASES: readonly Sortable["task"]["kind"][] = ["recess", "round-over", "opening", "outline"];
/** Where outlines come, roughing before all. */
const OUTLINES = 4;

/** The cutters of one phase: the one in the spindle first, one that the next phase wants last. */
function turns(cutters: ReadonlySet<number>, spindle: number | null, next: ReadonlySet<number>): number[] {
  const rank = (cutter: number): number => (cutter === spindle ? 0 : next.has(cutter) ? 2 : 1);
  return sorted(cutters).sort((a, b) => rank(a) - rank(b));
}

/** Outlines by the size of the part: what a hand holds, what a lap holds, and the rest. */
function bySize<A extends Sortable>(outlines: readonly A[]): A[][] {
  const size = ({ task }: A): number => (task.partArea < SMALL_MM2 ? 0 : task.partArea < LARGE_MM2 ? 1 : 2);
  return sorted(new Set(outlines.map(size))).map((s) => outlines.filter((one) => size(one) === s));
}

const cutterOf = ({ choice }: Sortable): number => choice.cutter.number;

const sorted = (numbers: Iterable<number>): number[] => [...numbers].sort((a, b) => a - b);
