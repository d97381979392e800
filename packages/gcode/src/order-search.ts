import { distance, type Point } from "@dryfit/geometry";
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
 * same round: the shaking takes its numbers from a fixed seed.
 */
export function shortRound<S extends Stop>(groups: readonly (readonly S[])[], from: Point): Visit<S>[] {
  let best = improved(groups.map((group) => [...group]).reduce(nearestNext<S>(from), []), from);
  const random = numbersFrom(SEED);
  for (let shake = 0; shake < SHAKES && groups.some((group) => group.length > 3); shake++) {
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

/** A gain worth another round of looking, mm. */
const LEAST_GAIN_MM = 0.01;

/** Longest piece that is moved elsewhere. */
const LONGEST_PIECE = 3;

function nearestNext<S extends Stop>(from: Point): (done: S[][], group: S[]) => S[][] {
  let at = from;
  return (done, group) => {
    const left = [...group];
    const order: S[] = [];
    while (left.length > 0) {
      const ways = left.map(({ gates }) => Math.min(...gates.map((gate) => distance(gate, at))));
      const [next] = left.splice(ways.indexOf(Math.min(...ways)), 1);
      order.push(next!);
      at = next!.gates.reduce((a, b) => (distance(b, at) < distance(a, at) ? b : a));
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
  let list = visits;
  const n = list.length;
  const at = (one: readonly V[], i: number): Point | null => (i < 0 ? before : i < n ? one[i]!.gate : after);
  const way = (a: Point | null, b: Point | null): number => (a === null || b === null ? 0 : distance(a, b));
  for (let gained = true; gained; ) {
    gained = false;
    for (let i = 0; i < n; i++)
      for (let j = i + 1; j < n; j++) {
        const old = way(at(list, i - 1), at(list, i)) + way(at(list, j), at(list, j + 1));
        const turned = way(at(list, i - 1), at(list, j)) + way(at(list, i), at(list, j + 1));
        if (turned > old - LEAST_GAIN_MM) continue;
        list = [...list.slice(0, i), ...list.slice(i, j + 1).reverse(), ...list.slice(j + 1)];
        gained = true;
      }
    for (let size = 1; size <= Math.min(LONGEST_PIECE, n - 1); size++)
      for (let i = 0; i + size <= n; i++) {
        const piece = list.slice(i, i + size);
        const rest = [...list.slice(0, i), ...list.slice(i + size)];
        const taken =
          way(at(list, i - 1), piece[0]!.gate) +
          way(piece.at(-1)!.gate, at(list, i + size)) -
          way(at(list, i - 1), at(list, i + size));
        const place = (k: number): Point | null => (k < 0 ? before : k < rest.length ? rest[k]!.gate : after);
        for (let k = 0; k <= rest.length; k++) {
          const [a, b] = [place(k - 1), place(k)];
          const given = way(a, piece[0]!.gate) + way(piece.at(-1)!.gate, b) - way(a, b);
          if (k === i || given > taken - LEAST_GAIN_MM) continue;
          list = [...rest.slice(0, k), ...piece, ...rest.slice(k)];
          gained = true;
          break;
        }
      }
  }
  return list;
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
