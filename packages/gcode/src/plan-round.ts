import { distance, type Point } from "@dryfit/geometry";
import { standsAfter } from "./entry.ts";
import { groupsOf, type Sortable } from "./order.ts";
import { shortRound } from "./order-search.ts";
import type { Ready } from "./plan-build.ts";
import type { Operation } from "./toolpath.ts";

/** What is to be cut in a setup, ready, with the gates through which it may be entered. */
export interface Work extends Sortable {
  readonly ready: Ready;
  readonly gates: readonly Point[];
}

/** The operations of one setup in order; each is entered where the round through all of them comes by. */
export function operationsOf(work: readonly Work[]): Operation[] {
  const round = shortRound(groupsOf(work), HOME);
  let at: Point = HOME;
  return round.map(({ stop, gate }, i) => {
    const next = round[i + 1]?.gate;
    // A closed cut may start anywhere: where the cutter comes from is often nearer than the gate.
    const operation = [at, gate]
      .map(stop.ready)
      .reduce((a, b) => (wayPast(b, at, next) < wayPast(a, at, next) ? b : a));
    at = standsAfter(operation.moves, { x: 0, y: 0, z: 0 });
    return operation;
  });
}

/** As if nobody had thought about it: group by group, in the order of the parts, each from its own first corner. */
export function naiveOrder(work: readonly Work[]): Operation[] {
  return groupsOf(work)
    .flat()
    .map(({ ready, gates }) => ready(gates[0]!));
}

/** How far the rapids of these operations run over the sheet, mm. */
export function travelOf(operations: readonly Operation[], from: Point = HOME): number {
  let at = from;
  let way = 0;
  for (const { moves } of operations)
    for (const move of moves) {
      if (move.kind === "comment") continue;
      const to = move.kind === "drill" ? move.at : move.to;
      if (move.kind === "rapid") way += distance(at, to);
      at = to;
    }
  return way;
}

/** Rapids from `before` to the operation, within it, and on to `next`, mm. */
function wayPast(operation: Operation, before: Point, next: Point | undefined): number {
  const end = standsAfter(operation.moves, { x: 0, y: 0, z: 0 });
  return travelOf([operation], before) + (next === undefined ? 0 : distance(end, next));
}

/** Where the cutter comes from: the sheet's lower left corner. */
const HOME: Point = { x: 0, y: 0 };
