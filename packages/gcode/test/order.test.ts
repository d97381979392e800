import { distance, type Point, point } from "@dryfit/geometry";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { shortestThrough } from "../src/order-gates.ts";
import { type Stop, shortRound } from "../src/order-search.ts";

const HOME = point(0, 0);

function wayOf(gates: readonly Point[]): number {
  return gates.reduce((sum, gate, i) => sum + distance(i === 0 ? HOME : gates[i - 1]!, gate), 0);
}

const anyPoint = fc.record({
  x: fc.double({ min: 0, max: 1000, noNaN: true }),
  y: fc.double({ min: 0, max: 600, noNaN: true }),
});
const anyStops = fc.array(fc.record({ gates: fc.array(anyPoint, { minLength: 1, maxLength: 4 }) }), {
  minLength: 1,
  maxLength: 7,
});

describe("a round through all cuts", () => {
  test("passes the holes of a row one after the other, wherever they stand in the list", () => {
    const holes = [4, 1, 3, 0, 2].map((i): Stop => ({ gates: [point(100 * i, 50)] }));
    const xs = shortRound([holes], HOME).map(({ gate }) => gate.x);
    expect(xs).toEqual([0, 100, 200, 300, 400]);
  });
  test("visits every stop once, group after group, each through one of its gates", () => {
    fc.assert(
      fc.property(anyStops, anyStops, (first, second) => {
        const round = shortRound<Stop>([first, second], HOME);
        expect(new Set(round.slice(0, first.length).map(({ stop }) => stop))).toEqual(new Set(first));
        expect(new Set(round.slice(first.length).map(({ stop }) => stop))).toEqual(new Set(second));
        for (const { stop, gate } of round) expect(stop.gates).toContainEqual(gate);
      }),
      { seed: 7, numRuns: 60 },
    );
  });
  test("is never longer than going in the order given", () => {
    fc.assert(
      fc.property(anyStops, (stops) => {
        const given = shortestThrough(
          stops.map(({ gates }) => gates),
          HOME,
        ).length;
        expect(wayOf(shortRound([stops], HOME).map(({ gate }) => gate))).toBeLessThanOrEqual(given + 1e-6);
      }),
      { seed: 7, numRuns: 60 },
    );
  });
  test("is the shortest there is, within 5 %, for up to six holes", () => {
    const holes = fc.array(anyPoint, { minLength: 2, maxLength: 6 });
    fc.assert(
      fc.property(holes, (points) => {
        const found = wayOf(
          shortRound([points.map((p): Stop => ({ gates: [p] }))], HOME).map(({ gate }) => gate),
        );
        expect(found).toBeLessThanOrEqual(1.05 * Math.min(...orders(points).map(wayOf)) + 1e-6);
      }),
      { seed: 7, numRuns: 40 },
    );
  });
  test("same stops, same round", () => {
    const stops = Array.from(
      { length: 30 },
      (_, i): Stop => ({ gates: [point((i * 377) % 1000, (i * 211) % 600)] }),
    );
    expect(shortRound([stops], HOME)).toEqual(shortRound([stops], HOME));
  });
});

function orders<T>(list: readonly T[]): T[][] {
  if (list.length <= 1) return [[...list]];
  return list.flatMap((one, i) =>
    orders([...list.slice(0, i), ...list.slice(i + 1)]).map((rest) => [one, ...rest]),
  );
}
