import {
  type Controller,
  defaultCutters,
  defaultMachine,
  type Machine,
  type Move,
  type Operation,
  type Position,
  type Program,
  writePrograms,
} from "@dryfit/gcode";
import { rectangle } from "@dryfit/geometry";
import type { Part } from "@dryfit/joinery";
import fc from "fast-check";
import { expect, test } from "vitest";
import { type Motion, positionAt } from "../packages/verify/src/program/motion.ts";
import { readProgram } from "../packages/verify/src/program/read-program.ts";

/** Any controller that a machine file can describe. */
const anyController: fc.Arbitrary<Controller> = fc.record({
  arcs: fc.boolean(),
  helix: fc.boolean(),
  fullCircle: fc.boolean(),
  cannedDrilling: fc.boolean(),
  cutterChange: fc.constantFrom("in-program", "pause", "separate-files"),
  lengthTable: fc.boolean(),
  comments: fc.constantFrom("parentheses", "semicolon", "none"),
  lineNumbers: fc.boolean(),
  dwellUnit: fc.constantFrom("s", "ms"),
  decimals: fc.constantFrom(3, 4, 5),
  pathMode: fc.constantFrom("none", "G61", "G64"),
  maxLineLength: fc.integer({ min: 70, max: 256 }),
  percentMarks: fc.boolean(),
  spindleControl: fc.boolean(),
  workOffset: fc.constantFrom("G54", "G55", "G56", "G57", "G58", "G59", "none"),
  programEnd: fc.constantFrom("M2", "M30"),
});

const THICKNESS = 14.837;
const SAFE = 5;

/** One step of a random toolpath, as seen from where the cutter stands. */
type Step = (at: Position) => readonly Move[];

const coordinate = fc.double({ min: -3, max: 1200, noNaN: true });
const depth = fc.double({ min: -15, max: 0, noNaN: true });
const feed = fc.constantFrom(600, 2333.3333, 4100);

const lineStep: fc.Arbitrary<Step> = fc
  .record({ x: coordinate, y: coordinate, z: depth, feed })
  .map(({ feed: f, ...to }) => () => [{ kind: "line", to, feed: f }]);

/** Tiny to huge, flat or helical, one arc or a whole circle in two. */
const arcStep: fc.Arbitrary<Step> = fc
  .record({
    radius: fc.oneof(
      fc.double({ min: 1e-4, max: 0.05, noNaN: true }),
      fc.double({ min: 0.05, max: 20, noNaN: true }),
      fc.double({ min: 20, max: 5000, noNaN: true }),
    ),
    angle: fc.double({ min: 0, max: 6.28, noNaN: true }),
    sweep: fc.oneof(
      fc.constantFrom(Math.PI, -Math.PI),
      fc.double({ min: -Math.PI, max: Math.PI, noNaN: true }).filter((s) => s !== 0),
    ),
    drop: fc.oneof(fc.constant(0), fc.double({ min: -1, max: 1, noNaN: true })),
    whole: fc.boolean(),
    feed,
  })
  .map(({ radius, angle, sweep, drop, whole, feed: f }) => (at) => {
    const centre = { x: at.x + radius * Math.cos(angle), y: at.y + radius * Math.sin(angle) };
    const arc = (from: Position, turn: number): Move & { kind: "arc" } => {
      const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
      const [dx, dy] = [from.x - centre.x, from.y - centre.y];
      const to = { x: centre.x + dx * cos - dy * sin, y: centre.y + dx * sin + dy * cos, z: from.z + drop };
      return { kind: "arc", to, centre, sweep: turn, feed: f };
    };
    if (!whole) return [arc(at, sweep)];
    const half = arc(at, Math.sign(sweep) * Math.PI);
    return [half, { ...half, to: { x: at.x, y: at.y, z: at.z + 2 * drop } }];
  });

const drillStep: fc.Arbitrary<Step> = fc
  .record({
    x: coordinate,
    y: coordinate,
    z: depth,
    peck: fc.constantFrom(null, 3, 7.5),
    dwellSeconds: fc.constantFrom(0, 0, 0.25),
    again: fc.integer({ min: 0, max: 2 }),
  })
  .map(({ again, x, y, z, ...rest }) => (at) => [
    { kind: "rapid", to: { ...at, z: SAFE } },
    ...Array.from(
      { length: again + 1 },
      (_, k): Move => ({ kind: "drill", at: { x: x + 32 * k, y, z }, from: 1.5, feed: 300, ...rest }),
    ),
    { kind: "rapid", to: { x, y: y + 1, z: SAFE } },
    { kind: "line", to: { x, y: y + 1, z: -1 }, feed: 600 },
  ]);

const passStep: fc.Arbitrary<Step> = fc
  .constantFrom("pass 2 of 3", "[odd] (words); 100 % æøå — ½", "")
  .map((text) => () => [{ kind: "comment", text }]);

const anyOperation: fc.Arbitrary<Omit<Operation, "id">> = fc
  .record({
    start: fc.record({ x: coordinate, y: coordinate, z: fc.constant(SAFE) }),
    steps: fc.array(
      fc.oneof({ weight: 3, arbitrary: lineStep }, { weight: 5, arbitrary: arcStep }, drillStep, passStep),
      { minLength: 1, maxLength: 15 },
    ),
    cutter: fc.constantFrom("up-6", "up-3", "drill-5"),
    part: fc.constantFrom("cheek-left", ""),
  })
  .map(({ start, steps, cutter, part }) => {
    const moves: Move[] = [
      { kind: "rapid", to: start },
      { kind: "line", to: { ...start, z: -1 }, feed: 600 },
    ];
    for (const step of steps) moves.push(...step(endOf(moves)));
    moves.push({ kind: "rapid", to: { ...endOf(moves), z: SAFE } });
    return { kind: "recess", part, feature: "groove", cutter, moves, tabs: [], corners: [] };
  });

/** Drills end at the height of rapids, from which they came. */
function endOf(moves: readonly Move[]): Position {
  const last = moves.findLast(({ kind }) => kind !== "comment")!;
  if (last.kind === "comment") throw new RangeError("no move");
  return last.kind === "drill" ? { ...last.at, z: SAFE } : last.to;
}

const part = {
  id: "cheek-left",
  title: "Left cheek",
  thickness: { min: 14.8, mean: THICKNESS, max: 14.9 },
} as Part;

function programsOf(operations: readonly Operation[], machine: Machine): readonly Program[] {
  const stock = {
    id: "sheet",
    material: "ply",
    size: [1220, 610],
    outline: null,
    grain: "x",
    count: null,
    price: null,
    keepOuts: [],
  } as const;
  const placed = {
    part: part.id,
    placement: { flip: false, quarters: 0, angle: 0, shift: { x: 0, y: 0 } },
  } as const;
  const { programs } = writePrograms({
    name: "Tidepool",
    parts: [{ ...part, outline: rectangle({ x: 0, y: 0 }, { x: 100, y: 100 }) }],
    sheets: [{ id: "sheet-1", stock, parts: [placed] }],
    flips: {},
    plans: [{ sheet: "sheet-1", setup: "A", operations }],
    machine,
    cutters: defaultCutters(),
    wood: "plywood",
  });
  return programs;
}

const anyJob = fc.record({
  controller: anyController,
  zZero: fc.constantFrom("bed" as const, "top" as const),
  operations: fc.array(anyOperation, { minLength: 1, maxLength: 4 }),
});

test("any controller's program is accepted by a strict reader and follows the planned path", () => {
  fc.assert(
    fc.property(anyJob, ({ controller, zZero, operations: bare }) => {
      const operations = bare.map((operation, k): Operation => ({ ...operation, id: `op-${k}` }));
      const machine: Machine = { ...defaultMachine(), zZero, controller };
      const programs = programsOf(operations, machine);
      const read = programs.map(({ text, file }) =>
        readProgram(text, { file, dwellUnit: controller.dwellUnit }),
      );
      for (const { findings } of read)
        expect(findings.filter(({ severity }) => severity === "error")).toEqual([]);
      programs.forEach((program, k) => {
        checkForm(program, controller);
        checkFacts(program, read[k]!.facts);
      });
      const zShift = zZero === "bed" ? THICKNESS : 0;
      const motions = read
        .flatMap(({ motions: m }) => m)
        .filter(({ from }) => Number.isFinite(from.x + from.y));
      checkPath(samplesOf(operations, zShift), motions);
      // The same again, byte for byte.
      expect(programsOf(operations, machine).map(({ text }) => text)).toEqual(
        programs.map(({ text }) => text),
      );
    }),
    { seed: 7, numRuns: 200 },
  );
});

function checkForm({ text, blocks }: Program, controller: Controller): void {
  const lines = text.split("\n");
  const bare = lines.filter((line) => line !== "" && line !== "%" && !/^[(;]/.test(line));
  const wrong = (list: readonly string[], is: (line: string) => boolean): void =>
    expect(list.filter(is)).toEqual([]);
  expect(bare).toHaveLength(blocks);
  expect(text.endsWith("\n")).toBe(true);
  wrong(lines, (line) => !/^[ -~]*$/.test(line));
  wrong(lines, (line) => line.length > controller.maxLineLength);
  wrong(bare, (line) => /^N\d{1,5} /.test(line) !== controller.lineNumbers);
  wrong(bare, (line) => /-0\.0+(?!\d)|e/.test(line));
  if (!controller.arcs) wrong(bare, (line) => /G[23]\b/.test(line));
  if (!controller.cannedDrilling) wrong(bare, (line) => /G8\d/.test(line));
  if (controller.comments !== "semicolon") expect(text).not.toContain(";");
  if (controller.comments !== "parentheses") expect(text).not.toContain("(");
}

function checkFacts(program: Program, facts: ReturnType<typeof readProgram>["facts"]): void {
  expect(facts.blocks).toBe(program.blocks);
  const { min, max } = facts.extents!;
  for (const axis of ["x", "y", "z"] as const) {
    expect(program.extents[axis][0]).toBeCloseTo(min[axis], 2);
    expect(program.extents[axis][1]).toBeCloseTo(max[axis], 2);
  }
  expect(program.deepest).toBeCloseTo(facts.deepest!, 4);
}

interface Sample extends Position {
  readonly kind: "rapid" | "feed";
}

/** Places along the planned path in their order; a drill's places are its mouth and its floor. */
function samplesOf(operations: readonly Operation[], zShift: number): readonly Sample[] {
  const samples: Sample[] = [];
  for (const { moves } of operations) {
    let at: Position = { x: 0, y: 0, z: SAFE };
    for (const move of moves) {
      if (move.kind === "comment") continue;
      if (move.kind === "drill") {
        samples.push({ ...move.at, z: move.from, kind: "feed" }, { ...move.at, kind: "feed" });
        at = { ...move.at, z: Math.max(at.z, move.from) };
        continue;
      }
      const kind = move.kind === "rapid" ? "rapid" : "feed";
      const shares = move.kind === "arc" ? [0.2, 0.4, 0.6, 0.8, 1] : [1];
      for (const t of shares) samples.push({ ...between(at, move, t), kind });
      at = move.to;
    }
  }
  return samples.map((sample) => ({ ...sample, z: sample.z + zShift }));
}

function between(from: Position, move: Move & { kind: "rapid" | "line" | "arc" }, t: number): Position {
  if (move.kind !== "arc") return move.to;
  const [cos, sin] = [Math.cos(move.sweep * t), Math.sin(move.sweep * t)];
  const [dx, dy] = [from.x - move.centre.x, from.y - move.centre.y];
  return {
    x: move.centre.x + dx * cos - dy * sin,
    y: move.centre.y + dx * sin + dy * cos,
    z: from.z + (move.to.z - from.z) * t,
  };
}

/** How far the printed path may be from the planned one, mm: rounding, chords of 0.001, an arc's rounded centre. */
const FOLLOWED = 0.004;

/** Every place is met in its order, at feed or rapid as planned. */
function checkPath(samples: readonly Sample[], motions: readonly Motion[]): void {
  let k = 0;
  for (const sample of samples) {
    const found = motions.findIndex((motion, j) => j >= k && meets(motion, sample));
    if (found < 0) expect({ lost: sample, after: motions[k] }).toBe("met");
    // The next place may lie on this same block.
    k = found;
  }
}

function meets(motion: Motion, place: Sample): boolean {
  if (
    motion.kind !== place.kind &&
    !(distance(motion.from, place) <= FOLLOWED || distance(motion.to, place) <= FOLLOWED)
  )
    return false;
  if (motion.arc === null) return distanceToLine(motion.from, motion.to, place) <= FOLLOWED;
  const { centre, sweep } = motion.arc;
  const begin = Math.atan2(motion.from.y - centre.y, motion.from.x - centre.x);
  const turn = Math.atan2(place.y - centre.y, place.x - centre.x) - begin;
  const whole = 2 * Math.PI;
  const ahead = ((((sweep > 0 ? turn : -turn) % whole) + whole) % whole) / Math.abs(sweep);
  const down = (place.z - motion.from.z) / (motion.to.z - motion.from.z);
  return [ahead, down, 0, 1].some(
    (t) => t >= 0 && t <= 1 && distance(positionAt(motion, t), place) <= FOLLOWED,
  );
}

function distance(a: Position, b: Position): number {
  return Math.hypot(a.x - b.x, a.y - b.y, a.z - b.z);
}

function distanceToLine(a: Position, b: Position, p: Position): number {
  const [dx, dy, dz] = [b.x - a.x, b.y - a.y, b.z - a.z];
  const square = dx * dx + dy * dy + dz * dz;
  const t = square === 0 ? 0 : ((p.x - a.x) * dx + (p.y - a.y) * dy + (p.z - a.z) * dz) / square;
  const clipped = Math.min(1, Math.max(0, t));
  return distance({ x: a.x + dx * clipped, y: a.y + dy * clipped, z: a.z + dz * clipped }, p);
}
