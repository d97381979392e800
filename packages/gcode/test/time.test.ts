import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { defaultMachine, type Machine, type Move, minutesOf, type Position } from "../src/index.ts";
import { motionsOf } from "../src/motion.ts";
import { secondsOf } from "../src/time.ts";
import { cornerSpeed, type Stretch, trapezoid, velocityPlan } from "../src/velocity.ts";

/** The machine of the worked examples: 500 mm/s², 0.01 mm at corners. */
const machine: Machine = {
  ...defaultMachine(),
  accelerationMmPerS2: { xy: 500, z: 300 },
  cornerDeviation: 0.01,
};

const line = (x: number, y: number, z = 0, feed = 3000): Move => ({ kind: "line", to: { x, y, z }, feed });

function seconds(
  moves: readonly Move[],
  on: Machine = machine,
  start: Position = { x: 0, y: 0, z: 0 },
): number {
  return minutesOf(moves, on, start) * 60;
}

describe("worked examples", () => {
  test("100 mm at 50 mm/s take 2.1 s", () => expect(seconds([line(100, 0)])).toBeCloseTo(2.1, 9)); // C4
  test("4 mm never reach 50 mm/s", () => {
    // C5: 0.178885 s, peak 44.7214.
    const { seconds: s, peak } = trapezoid(4, 50, 500, 0, 0);
    expect(s).toBeCloseTo(0.178885, 6);
    expect(peak).toBeCloseTo(44.7214, 4);
    expect(seconds([line(4, 0)])).toBeCloseTo(0.178885, 6);
  });
  test("corners of 60, 90, 120 and 150 degrees", () => {
    // C6 and the table of corner speeds: a 500, d 0.01.
    const speeds = [60, 90, 120, 150].map((inside) =>
      cornerSpeed(-Math.cos((inside * Math.PI) / 180), 500, 0.01),
    );
    [2.2361, 3.4743, 5.6851, 11.9054].forEach((expected, k) => {
      expect(speeds[k]).toBeCloseTo(expected, 4);
    });
  });
  test("straight on there is no corner, back there is a stop", () => {
    expect(cornerSpeed(1, 500, 0.01)).toBe(Number.POSITIVE_INFINITY);
    expect(cornerSpeed(-1, 500, 0.01)).toBe(0);
  });
  test("a rectangle of 200 × 100 from rest to rest", () => {
    // T1: 4.09329 + 2.08659 + 4.08659 + 2.09329 = 12.35976 s.
    const moves = [line(200, 0), line(200, 100), line(0, 100), line(0, 0)];
    const start = { x: 0, y: 0, z: 0 };
    const each = secondsOf(
      motionsOf(moves, start, { controller: machine.controller, zShift: 0 }),
      machine,
      start,
    );
    [4.09329, 2.08659, 4.08659, 2.09329].forEach((expected, k) => {
      expect(each[k]).toBeCloseTo(expected, 5);
    });
    expect(seconds(moves)).toBeCloseTo(12.35976, 5);
  });
});

describe("what takes time", () => {
  test("a line in pieces takes as long as in one", () =>
    expect(seconds([line(30, 0), line(31, 0), line(100, 0)])).toBeCloseTo(seconds([line(100, 0)]), 9));
  test("a small circle is slower than its feed: √(a r)", () => {
    const round = (r: number): Move[] =>
      [1, -1].map((side) => ({
        kind: "arc",
        to: { x: side * r, y: 0, z: 0 },
        centre: { x: 0, y: 0 },
        sweep: Math.PI,
        feed: 6000,
      }));
    const turn = (r: number): Move[] =>
      Array.from({ length: 50 }, () => round(r))
        .flat()
        .reverse();
    const r = 2;
    const many = seconds([...turn(r), ...turn(r)], machine, { x: r, y: 0, z: 0 });
    const fewer = seconds(turn(r), machine, { x: r, y: 0, z: 0 });
    // derived: 50 more turns at √(500 · 2) mm/s.
    expect(many - fewer).toBeCloseTo((50 * 2 * Math.PI * r) / Math.sqrt(500 * r), 3);
  });
  test("rapids run at the machine's own speed", () => {
    // derived: L/v + v/a at 100 mm/s.
    expect(seconds([{ kind: "rapid", to: { x: 600, y: 0, z: 0 } }])).toBeCloseTo(600 / 100 + 100 / 500, 9);
  });
  test("Z has its own limits", () => {
    // derived: 1500 mm/min = 25 mm/s at 300 mm/s².
    expect(seconds([line(0, 0, -50, 5000)])).toBeCloseTo(50 / 25 + 25 / 300, 9);
  });
  test("a dwell counts, and stops the look-ahead", () => {
    const hole: Move = {
      kind: "drill",
      at: { x: 0, y: 0, z: -5 },
      from: 0,
      peck: null,
      dwellSeconds: 0.5,
      feed: 600,
    };
    // derived: 5 mm down at 10 mm/s, 0.5 s, 5 mm up as a triangle or trapezoid at 300 mm/s².
    const up = trapezoid(5, 2000 / 60, 300, 0, 0).seconds;
    expect(seconds([hole])).toBeCloseTo(5 / 10 + 10 / 300 + 0.5 + up, 9);
  });
  test("pecking takes longer than one stroke", () => {
    const hole = (peck: number | null): Move => ({
      kind: "drill",
      at: { x: 0, y: 0, z: -12 },
      from: 2,
      peck,
      dwellSeconds: 0,
      feed: 600,
    });
    const above = { x: 0, y: 0, z: 5 };
    expect(seconds([hole(4)], machine, above)).toBeGreaterThan(seconds([hole(null)], machine, above) + 0.5);
  });
  test("a controller that reads slowly is slow on many short moves", () => {
    const moves = Array.from({ length: 100 }, (_, k) => line((k + 1) / 10, 0));
    const slow = { ...machine, timing: { acceleration: 1, blockSeconds: 0.05 } };
    expect(seconds(moves, slow)).toBeCloseTo(5, 1);
  });
  test("exact path is slower round corners", () => {
    const moves = [line(20, 0), line(20, 20), line(0, 20), line(0, 0)];
    const exact = { ...machine, controller: { ...machine.controller, pathMode: "G61" as const } };
    expect(seconds(moves, exact)).toBeGreaterThan(seconds(moves));
  });
});

/** Stretches as a real path has them: short and long, slow and fast, sharp and smooth. */
const stretch: fc.Arbitrary<Stretch> = fc.record({
  length: fc.double({ min: 0.001, max: 500, noNaN: true }),
  speed: fc.double({ min: 0.1, max: 200, noNaN: true }),
  acceleration: fc.double({ min: 20, max: 3000, noNaN: true }),
  cornerSpeed: fc.oneof(fc.constant(Number.POSITIVE_INFINITY), fc.double({ min: 0, max: 100, noNaN: true })),
});

test("no plan exceeds a speed, an acceleration or a corner, and none dawdles", () => {
  fc.assert(
    fc.property(fc.array(stretch, { minLength: 1, maxLength: 60 }), (path) => {
      const speeds = velocityPlan(path);
      const plan = path.map(({ length, speed, acceleration }, k) =>
        trapezoid(length, speed, acceleration, speeds[k]!, speeds[k + 1]!),
      );
      const dust = 1e-9;
      expect(plan[0]!.entry).toBe(0);
      expect(plan.at(-1)!.exit).toBe(0);
      plan.forEach(({ entry, exit, peak, seconds: s }, k) => {
        const { length, speed, acceleration, cornerSpeed: corner } = path[k]!;
        const next = path[k + 1];
        expect(entry).toBeLessThanOrEqual(Math.min(speed, k === 0 ? 0 : corner) + dust);
        expect(peak).toBeLessThanOrEqual(speed + dust);
        expect(Math.max(entry, exit)).toBeLessThanOrEqual(peak + 1e-6);
        if (next !== undefined) expect(exit).toBe(plan[k + 1]!.entry);
        // Up and down again within the length, at no more than the acceleration.
        const ways = (2 * peak ** 2 - entry ** 2 - exit ** 2) / (2 * acceleration);
        expect(ways).toBeLessThanOrEqual(length * (1 + 1e-9) + 1e-6);
        // Not slower than crawling at the lower of both ends, nor faster than the peak all along.
        expect(s).toBeGreaterThanOrEqual((length / peak) * (1 - 1e-9));
        if (Math.min(entry, exit) > 0)
          expect(s).toBeLessThanOrEqual((length / Math.min(entry, exit)) * (1 + 1e-9));
        // Tight: each joint is as fast as a corner, a speed, or the ways before or behind it allow.
        if (next === undefined) return;
        const limits = [
          next.cornerSpeed,
          speed,
          next.speed,
          Math.sqrt(entry ** 2 + 2 * acceleration * length),
          Math.sqrt(plan[k + 1]!.exit ** 2 + 2 * next.acceleration * next.length),
        ];
        expect(exit).toBeGreaterThanOrEqual(Math.min(...limits) * (1 - 1e-9) - 1e-9);
      });
    }),
    { seed: 42, numRuns: 300 },
  );
});

test("planning grows with the path and no faster", () => {
  const path = (n: number): Stretch[] =>
    Array.from({ length: n }, (_, k) => ({
      length: 1 + (k % 7),
      speed: 50,
      acceleration: 500,
      cornerSpeed: 5 + (k % 11),
    }));
  const time = (n: number): number => {
    const stretches = path(n);
    const begin = performance.now();
    velocityPlan(stretches);
    return performance.now() - begin;
  };
  // The best of a few: what else the computer does meanwhile is none of ours.
  const best = (n: number): number => Math.min(...Array.from({ length: 9 }, () => time(n)));
  const [small, large] = [best(100_000), best(400_000)];
  expect(large).toBeLessThan(10 * Math.max(small, 10));
});
