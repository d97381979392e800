import { distance, type Point } from "@dryfit/geometry";
import { nearestOf } from "./nearest-stop.ts";
import { shortestThrough } from "./order-gates.ts";

/** Something to be visited once, through any of its gates. */
export interface Stop {
  readonly gates: readonly Point[];
}

/** A stop and the gate that was chosen. */
export interface Visit<S extends Stop> {
  readonly stop: S;
  readonly gate: Point;
}

/**
 * A short round through all stops, group after group, from `from`.
 *
 * First the nearest next stop; then pieces of the round are moved and turned round while that shortens it, gates
 * being chosen anew each time; then again from rounds that were shaken, keeping the best. The same stops give the
 * same round: the shaking takes its numbers from a fixed seed. In a large group pieces stay near where they were,
 * and large rounds are shaken less often, so that the work grows with the number of stops and no faster.
 */
export function shortRound<S extends Stop>(groups: readonly (readonly S[])[], from: Point): Visit<S>[] {
  let best = improved(groups.map((group) => [...group]).reduce(nearestNext<S>(from), []), from);
  const random = numbersFrom(SEED);
  const stops = groups.reduce((sum, group) => sum + group.length, 0);
  const shakes = groups.some((group) => group.length > 3) ? Math.min(SHAKES, SHAKEN_STOPS / stops) : 0;
  for (let shake = 1; shake <= shakes; shake++) {
    const tried = improved(shaken(best.groups, random), from);
    if (tried.length < best.length - LEAST_GAIN_MM) best = tried;
  }
  return best.groups.flat().map((stop, i) => ({ stop, gate: best.gates[i]! }));
}

interface Round<S extends Stop> {
  readonly groups: readonly (readonly S[])[];
  readonly gates: readonly Point[];
  readonly length: number;
}

const SEED = 1;
const SHAKES = 24;

/** So many stops are shaken in all: a hundred in every shake. */
const SHAKEN_STOPS = 2400;

/** How far a piece is moved, or how long one is that is turned round, in stops. */
const NEAR = 100;

/** A gain worth another round of looking, mm. */
const LEAST_GAIN_MM = 0.01;

/** Longest piece that is moved elsewhere. */
const LONGEST_PIECE = 3;

function nearestNext<S extends Stop>(from: Point): (done: S[][], group: S[]) => S[][] {
  let at = from;
  return (done, group) => {
    const left = nearestOf(group);
    const order: S[] = [];
    while (order.length < group.length) {
      const { stop, gate } = left(at);
      order.push(stop);
      at = gate;
    }
    return [...done, order];
  };
}

function improved<S extends Stop>(groups: readonly (readonly S[])[], from: Point): Round<S> {
  let round = measured(groups, from);
  for (;;) {
    const next = measured(rearranged(round, from), from);
    if (next.length > round.length - LEAST_GAIN_MM) return round;
    round = next;
  }
}

function measured<S extends Stop>(groups: readonly (readonly S[])[], from: Point): Round<S> {
  const { length, gates } = shortestThrough(
    groups.flat().map((stop) => stop.gates),
    from,
  );
  return { groups, gates, length };
}

/** Each group by itself: turns pieces round (2-opt) and moves short ones (or-opt), gates as they stand. */
function rearranged<S extends Stop>({ groups, gates }: Round<S>, from: Point): S[][] {
  let start = 0;
  let at = from;
  const visits = groups.flat().map((stop, i) => ({ stop, gate: gates[i]! }));
  return groups.map((group) => {
    const own = visits.slice(start, start + group.length);
    start += group.length;
    const better = untangled(own, at, visits[start]?.gate ?? null);
    at = better.at(-1)?.gate ?? at;
    return better.map(({ stop }) => stop);
  });
}

function untangled<V extends { readonly gate: Point }>(visits: V[], before: Point, after: Point | null): V[] {
  const list = [...visits];
  const n = list.length;
  const at = (i: number): Point | null => (i < 0 ? before : i < n ? list[i]!.gate : after);
  for (let gained = true; gained; ) {
    gained = false;
    for (let i = 0; i < n; i++)
      for (let j = i + 1; j < Math.min(n, i + NEAR); j++) {
        const old = way(at(i - 1), at(i)) + way(at(j), at(j + 1));
        const turned = way(at(i - 1), at(j)) + way(at(i), at(j + 1));
        if (turned > old - LEAST_GAIN_MM) continue;
        list.splice(i, j + 1 - i, ...list.slice(i, j + 1).reverse());
        gained = true;
      }
    for (let size = 1; size <= Math.min(LONGEST_PIECE, n - 1); size++)
      for (let i = 0; i + size <= n; i++) {
        const [first, last] = [at(i), at(i + size - 1)];
        const taken = way(at(i - 1), first) + way(last, at(i + size)) - way(at(i - 1), at(i + size));
        // Places among the others, as if the piece were not there.
        const place = (k: number): Point | null => at(k < i ? k : k + size);
        for (let k = Math.max(0, i - NEAR); k <= Math.min(n - size, i + NEAR); k++) {
          const [a, b] = [place(k - 1), place(k)];
          const given = way(a, first) + way(last, b) - way(a, b);
          if (k === i || given > taken - LEAST_GAIN_MM) continue;
          const piece = list.slice(i, i + size);
          const between = k < i ? list.slice(k, i) : list.slice(i + size, k + size);
          const moved = k < i ? [...piece, ...between] : [...between, ...piece];
          list.splice(Math.min(i, k), moved.length, ...moved);
          gained = true;
          break;
        }
      }
  }
  return list;
}

function way(a: Point | null, b: Point | null): number {
  return a === null || b === null ? 0 : distance(a, b);
}

/** Three pieces of the largest groups change places. */
function shaken<S extends Stop>(groups: readonly (readonly S[])[], random: () => number): S[][] {
  return groups.map((group) => {
    if (group.length < 4) return [...group];
    const cuts = [random(), random(), random()]
      .map((share) => 1 + Math.floor(share * (group.length - 1)))
      .sort((a, b) => a - b);
    const [a, b, c] = cuts as [number, number, number];
    return [...group.slice(0, a), ...group.slice(b, c), ...group.slice(a, b), ...group.slice(c)];
  });
}

/** Even numbers between 0 and 1: a linear congruence, so that they are the same everywhere. */
function numbersFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}
