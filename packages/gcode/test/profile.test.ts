import { circle, point, rectangle, segments } from "@dryfit/geometry";
import { describe, expect, test } from "vitest";
import { passes, winding, zigzag } from "../src/entry.ts";
import { follow, trackLength } from "../src/plan-track.ts";
import { finishMoves, type Lift, liftedOver, profileMoves } from "../src/profile.ts";
import { DATA, steps } from "./swath.ts";

const ANGLE = (3 * Math.PI) / 180;
const DESCENT = { top: 0, bottom: -15, most: 4, rampAngle: ANGLE };
const SQUARE = segments(rectangle(point(0, 0), point(200, 100)));

describe("winding down a closed track", () => {
  function check(round: number, turns: number): void {
    const knots = winding(round, DESCENT);
    const step = 15 / turns;
    expect(knots.at(-1)!.z).toBe(-15);
    // One turn for each step, then once more over the last ramp.
    expect(knots.at(-1)!.s).toBeCloseTo(turns * round + Math.min(round, step / Math.tan(ANGLE)), 9);
    knots.slice(1).forEach((knot, i) => {
      const { s, z } = knots[i]!;
      expect(knot.s).toBeGreaterThanOrEqual(s - 1e-9);
      expect(z - knot.z).toBeLessThanOrEqual((knot.s - s) * Math.tan(ANGLE) + 1e-9);
    });
  }
  test("a large outline takes four turns of 3.75 mm", () => check(600, 4));
  test("a short one sinks no steeper than the ramp", () => check(20, Math.ceil(15 / (20 * Math.tan(ANGLE)))));
  test("no turn takes more than a pass may", () => {
    for (const round of [15, 60, 100, 900]) {
      const turns = winding(round, DESCENT).filter((_, i) => i % 2 === 0);
      expect(Math.max(...turns.slice(1).map(({ z }, i) => turns[i]!.z - z))).toBeLessThanOrEqual(4 + 1e-9);
    }
  });
  test("passes are equal and end on the floor", () =>
    expect(passes(DESCENT)).toEqual([-3.75, -7.5, -11.25, -15]));
  test("a depth of exactly three passes takes three", () =>
    expect(passes({ ...DESCENT, bottom: -12 })).toHaveLength(3));
});

test("a slot is entered by a ramp there and back, and every pass runs all along it", () => {
  const track = segments(rectangle(point(0, 0), point(80, 10))).slice(0, 1);
  const moves = [
    { kind: "rapid" as const, to: { x: 0, y: 0, z: 0 } },
    ...zigzag(track, { ...DESCENT, bottom: -6, most: 3 }, DATA),
  ];
  for (const { from, to } of steps(moves)) {
    const length = Math.hypot(to.x - from.x, to.y - from.y);
    expect((from.z - to.z) / length).toBeLessThanOrEqual(Math.tan(ANGLE) + 1e-9);
  }
  for (const z of [-3, -6])
    expect(
      steps(moves).some(({ from, to }) => from.z === z && to.z === z && Math.abs(to.x - from.x) === 80),
    ).toBe(true);
});

describe("a profile", () => {
  const lift: Lift = { s: 100, length: 15, height: 2 };
  const cut = {
    descent: DESCENT,
    safe: 5,
    data: DATA,
    lifts: [lift],
    start: 20,
    waste: "right" as const,
    lead: 1,
  };
  const moves = profileMoves(SQUARE, cut);

  test("starts and ends at safe height and leads off the wall on an arc", () => {
    expect(moves[0]).toMatchObject({ kind: "rapid", to: { z: 5 } });
    expect(moves.at(-1)).toMatchObject({ kind: "rapid", to: { z: 5 } });
    expect(moves.at(-2)).toMatchObject({ kind: "arc", to: { z: -15 }, sweep: -Math.PI / 2 });
  });
  test("leaves a tab as long and as high as it was told", () => {
    const low = steps(moves).filter(
      ({ from, to }) => Math.min(from.z, to.z) < -15 + 2 - 1e-9 && from.y === 0 && to.y === 0,
    );
    for (const { from, to } of low) {
      const [a, b] = [Math.min(from.x, to.x), Math.max(from.x, to.x)];
      // Under full height only outside the tab's flat, at the floor only outside all of it.
      expect(b <= 100 - 7.5 + 2 + 1e-9 || a >= 100 + 7.5 - 2 - 1e-9).toBe(true);
      if (Math.max(from.z, to.z) === -15) expect(b <= 92.5 + 1e-9 || a >= 107.5 - 1e-9).toBe(true);
    }
  });
  test("cuts through everywhere else", () => {
    const floor = steps(moves).filter(
      ({ from, to, kind }) => from.z === -15 && to.z === -15 && kind === "line",
    );
    const way = floor.reduce((sum, { from, to }) => sum + Math.hypot(to.x - from.x, to.y - from.y), 0);
    expect(way).toBeGreaterThanOrEqual(trackLength(SQUARE) - lift.length);
  });
  test("never sinks faster than the plunge feed", () => {
    for (const [i, move] of moves.entries()) {
      const before = moves[i - 1];
      if (move.kind !== "line" || before === undefined || !("to" in before)) continue;
      const sink = before.to.z - move.to.z;
      const length = Math.hypot(move.to.x - before.to.x, move.to.y - before.to.y, sink);
      expect((move.feed * sink) / length).toBeLessThanOrEqual(DATA.plungeMmPerMin + 1e-9);
    }
  });
});

test("the higher of ramp and tab wins, and they meet where they cross", () => {
  const knots = [
    { s: 0, z: 0 },
    { s: 100, z: -10 },
  ];
  const over = liftedOver(knots, [{ s: 80, length: 20, height: 6 }], 1000, -10);
  for (const { s, z } of over) expect(z).toBeGreaterThanOrEqual(-s / 10 - 1e-9);
  expect(over.some(({ s, z }) => s > 74 && s < 86 && Math.abs(z + 4) < 1e-9)).toBe(true);
});

test("a circle is followed by arcs of at most half a turn, helical where it sinks", () => {
  const moves = follow(
    segments(circle(point(0, 0), 10)),
    winding(20 * Math.PI, { ...DESCENT, bottom: -3 }),
    DATA,
  );
  expect(moves.every((move) => move.kind === "arc" && Math.abs(move.sweep) <= Math.PI + 1e-9)).toBe(true);
  expect(moves.length).toBeLessThanOrEqual(6);
});

describe("a finishing pass in a round hole", () => {
  const holes = [1.2, 2, 5, 9.5, 11.9, 12.1, 40];
  for (const radius of holes)
    for (const allowance of [0.15, 0.3, 0.5])
      test(`of ${radius} mm and an allowance of ${allowance} comes in from where the hole is clear`, () => {
        const moves = finishMoves(segments(circle(point(0, 0), radius)), {
          descent: { top: 0, bottom: -10, most: 3, rampAngle: 0.1 },
          safe: 5,
          data: DATA,
          lifts: [],
          start: 0,
          waste: "left",
          allowance,
        });
        // Nothing of it leaves the track's own circle, and it comes down within the roughed one, or all but.
        const away = moves.flatMap((move) => ("to" in move ? [Math.hypot(move.to.x, move.to.y)] : []));
        expect(Math.max(...away)).toBeLessThanOrEqual(radius + 1e-6);
        // In a hole hardly wider than the cutter a quarter turn as wide as the allowance is all there is room for.
        const room = Math.max(radius - 0.85 * allowance, Math.hypot(radius - allowance, allowance) + 1e-9);
        expect(away[0]).toBeLessThanOrEqual(room);
        expect(away.at(-1)).toBeLessThanOrEqual(room);
        const arcs = moves.flatMap((move) => (move.kind === "arc" ? [move] : []));
        expect(arcs.every(({ sweep }) => Math.abs(sweep) <= Math.PI + 1e-9)).toBe(true);
      });

  test("begins at the wall's own start, give or take float noise, as it does exactly there", () => {
    const wall = segments(rectangle(point(0, 0), point(60, 40)));
    const cut = { descent: DESCENT, safe: 5, data: DATA, lifts: [], waste: "left" as const, allowance: 0.3 };
    const there = finishMoves(wall, { ...cut, start: 0 });
    for (const start of [-1e-15, 1e-15, 1e-9, 200 - 1e-9, 200 + 1e-13])
      steps(finishMoves(wall, { ...cut, start })).forEach(({ to }, i) => {
        const exact = steps(there)[i]!.to;
        expect(Math.hypot(to.x - exact.x, to.y - exact.y, to.z - exact.z)).toBeLessThan(1e-6);
      });
  });
});
