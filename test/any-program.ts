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

/** Any controller that a machine file can describe. */
export const anyController: fc.Arbitrary<Controller> = fc.record({
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

export const THICKNESS = 14.837;
export const SAFE = 5;

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

export function programsOf(operations: readonly Operation[], machine: Machine): readonly Program[] {
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

/** A machine of any kind, and something for it to cut. */
export interface AnyJob {
  readonly machine: Machine;
  readonly operations: readonly Operation[];
}

export const anyJob: fc.Arbitrary<AnyJob> = fc
  .record({
    controller: anyController,
    zZero: fc.constantFrom("bed" as const, "top" as const),
    operations: fc.array(anyOperation, { minLength: 1, maxLength: 4 }),
  })
  .map(({ operations, ...flags }) => ({
    machine: { ...defaultMachine(), ...flags },
    operations: operations.map((operation, k): Operation => ({ ...operation, id: `op-${k}` })),
  }));
