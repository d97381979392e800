import {
  CUT_MM,
  differenceFlat,
  intersectionFlat,
  OUTPUT_STEP_MM,
  pathOf,
  place,
  type Region,
  rectangle,
  type Segment,
  sweepFlat,
} from "@dryfit/geometry";
import type { Finding } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import { type Level, reach } from "../cut/bench.ts";
import { nearestOn } from "../cut/gap.ts";
import { boxOfSegment, type Grid, gridOf, grown } from "../cut/grid.ts";
import { chains, depthOf, pointOn, type Stroke, sheetFromMachine, type Turnover } from "../cut/stroke.ts";
import { type Fault, firstOfEach } from "./first-of-each.ts";
import type { Run } from "./on-machine.ts";

/** A program's run with the strokes it makes, in order. */
export interface StrokedRun {
  readonly run: Run;
  readonly strokes: readonly Stroke[];
  /** Those of shaped cutters, which are judged by themselves. */
  readonly shaped: readonly Stroke[];
}

/**
 * What depends on the order of cutting: rapids through wood that still stands, and passes that take more fresh
 * depth than the cutter bears. `runs` in the order in which the sheet is cut.
 */
export function checkInOrder(
  sheet: Sheet,
  runs: readonly StrokedRun[],
  flip: Turnover | undefined,
): Finding[] {
  const all = runs.flatMap(({ strokes }) => strokes);
  const order = new Map(all.map((stroke, i) => [stroke, i]));
  const grid = gridOf(all, ({ path, radius }) => grown(boxOfSegment(path), radius), CELL_MM);
  let before = 0;
  return runs.flatMap(({ run, strokes, shaped }) => {
    const scene: Scene = { sheet, run, flip, grid, order, before, shaped };
    const faults = [...rapids(scene, strokes), ...passes(scene, strokes), ...bearings(scene, strokes)];
    before += strokes.length;
    return firstOfEach(run.program.file, faults);
  });
}

/** About a cutter's width, mm. */
const CELL_MM = 10;
/** A way that is run again is the same to within its printed digits, mm. */
const SAME_WAY_MM: number = 2 * OUTPUT_STEP_MM;

interface Scene {
  readonly sheet: Sheet;
  readonly run: Run;
  readonly flip: Turnover | undefined;
  readonly grid: Grid<Stroke>;
  readonly order: ReadonlyMap<Stroke, number>;
  /** How many strokes of earlier programs have been made. */
  readonly before: number;
  /** This run's strokes with shaped cutters. */
  readonly shaped: readonly Stroke[];
}

/** A rapid is judged at its lowest height, and on the thickest reading of the sheet. */
function* rapids(scene: Scene, strokes: readonly Stroke[]): Iterable<Fault> {
  const { run, flip } = scene;
  const { program } = run;
  const thickness = run.thickness.max;
  const toSheet = sheetFromMachine(program.setup, flip);
  let made = 0;
  for (const [index, motion] of run.read.motions.entries()) {
    while (made < strokes.length && strokes[made]!.index < index) made++;
    if (motion.kind === "feed") continue;
    const depth = depthOf(program, Math.min(motion.from.z, motion.to.z), thickness);
    const under = program.setup === "A" ? depth : thickness - depth;
    if (under <= OUTPUT_STEP_MM) continue;
    const path: Segment<"sheet"> = {
      kind: "line",
      from: place(toSheet, motion.from),
      to: place(toSheet, motion.to),
    };
    if (isWayOut(scene, index, path)) continue;
    const radius = run.cutterOf(motion).diameter / 2;
    const near = earlier(scene, path, radius, { depth, thickness }, scene.before + made);
    if (!isClear(scene.sheet, path, radius, near))
      yield {
        code: "rapid_in_wood",
        line: motion.line,
        message: `A rapid passes ${Number(under.toFixed(3))} mm deep through wood that still stands.`,
        numbers: { depth: under, x: motion.to.x, y: motion.to.y },
      };
  }
}

/** Whether a rapid is a shaped cutter's, straight up from where it has cut. */
function isWayOut({ run, shaped }: Scene, index: number, path: Segment<"sheet">): boolean {
  const { from, to } = run.read.motions[index]!;
  const last = shaped.findLast((stroke) => stroke.index < index);
  if (last === undefined || !isPoint(path) || to.z < from.z) return false;
  const on = nearestOn(last.path, path.from);
  return Math.hypot(on.x - path.from.x, on.y - path.from.y) <= SAME_WAY_MM;
}

/** A bearing only rolls: where it runs, the wood must be gone already. */
function* bearings(scene: Scene, strokes: readonly Stroke[]): Iterable<Fault> {
  const { run, shaped } = scene;
  const thickness = run.thickness.mean;
  let made = 0;
  for (const stroke of shaped) {
    while (made < strokes.length && strokes[made]!.index < stroke.index) made++;
    const radius = (stroke.cutter.bearingDiameter ?? 0) / 2;
    const depth = depthOf(run.program, Math.min(...stroke.z), thickness);
    const under = run.program.setup === "A" ? depth : thickness - depth;
    if (radius === 0 || under <= OUTPUT_STEP_MM) continue;
    const near = earlier(scene, stroke.path, radius, { depth, thickness }, scene.before + made);
    if (!isClear(scene.sheet, stroke.path, radius, near))
      yield {
        code: "bearing_in_wood",
        line: stroke.line,
        message: `The bearing of cutter ${stroke.cutter.number} is pushed through wood that still stands, ${Number(under.toFixed(3))} mm deep.`,
        numbers: { depth: under, bearing: 2 * radius },
      };
  }
}

/** Whether a cutter can pass along `path` where the earlier strokes have been. */
function isClear(sheet: Sheet, path: Segment<"sheet">, radius: number, near: readonly Piece[]): boolean {
  const covers = ({ piece, radius: wide }: Piece, p: Segment<"sheet">["from"]) => {
    const on = nearestOn(piece, p);
    return wide >= radius - SAME_WAY_MM && Math.hypot(on.x - p.x, on.y - p.y) <= SAME_WAY_MM;
  };
  const isPlunge = isPoint(path);
  if (isPlunge && near.some((piece) => covers(piece, path.to))) return true;
  const vertex = { ...path.to, bulge: 0 };
  const way = isPlunge ? { closed: false as const, vertices: [vertex] } : pathOf([path]);
  const swept = intersectionFlat(sweepFlat([way], radius - CUT_MM), [stockOf(sheet)]);
  const radii = [...new Set(near.map((piece) => piece.radius))];
  const gone = radii.flatMap((wide) =>
    sweepFlat(chains(near.filter((one) => one.radius === wide).map(({ piece }) => piece)), wide),
  );
  return differenceFlat(swept, gone).length === 0;
}

function* passes(scene: Scene, strokes: readonly Stroke[]): Iterable<Fault> {
  const { run } = scene;
  const thickness = run.thickness.mean;
  for (const [i, stroke] of strokes.entries()) {
    // A plunge is held by its own limit, and drills take any depth that their flutes have.
    if (isPoint(stroke.path)) continue;
    const most = stroke.cutter.depthPerPass ?? stroke.cutter.fluteLength;
    const depth = depthOf(run.program, (stroke.z[0] + stroke.z[1]) / 2, thickness);
    const under = run.program.setup === "A" ? depth : thickness - depth;
    if (under <= most + CUT_MM) continue;
    const at = pointOn(stroke.path, 0.5);
    const point: Segment<"sheet"> = { kind: "line", from: at, to: at };
    const level = run.program.setup === "A" ? depth - most - CUT_MM : depth + most + CUT_MM;
    const near = earlier(scene, point, 0, { depth: level, thickness }, scene.before + i);
    const isOpen = near.some(({ piece }) => {
      const on = nearestOn(piece, at);
      return Math.hypot(on.x - at.x, on.y - at.y) <= stroke.radius * FINISHING_SHARE;
    });
    if (!isOpen)
      yield {
        code: "pass_too_deep",
        line: stroke.line,
        message: `A pass down to ${Number(under.toFixed(3))} mm takes more than the ${most} mm that its cutter bears at once.`,
        numbers: { depth: under, most },
      };
  }
}

function isPoint({ from, to }: Segment): boolean {
  return Math.hypot(to.x - from.x, to.y - from.y) <= SAME_WAY_MM;
}

/** A pass this close beside an earlier one, in radii, only finishes its wall. */
const FINISHING_SHARE = 0.5;

interface Piece {
  readonly piece: Segment<"sheet">;
  readonly radius: number;
}

/** Stretches of earlier strokes that have opened the wood down to `depth`, from the face that is up. */
function earlier(
  { run, grid, order }: Scene,
  path: Segment<"sheet">,
  radius: number,
  { depth, thickness }: { readonly depth: number; readonly thickness: number },
  done: number,
): Piece[] {
  const slack = OUTPUT_STEP_MM;
  // Strokes on the other face open it only where they come out on this one.
  const level: Level =
    run.program.setup === "A" ? { a: depth - slack, b: slack } : { a: thickness - slack, b: depth + slack };
  return grid.near(grown(boxOfSegment(path), radius)).flatMap((stroke) => {
    if (order.get(stroke)! >= done) return [];
    const piece = reach(stroke, level, thickness);
    return piece === null ? [] : [{ piece, radius: stroke.radius }];
  });
}

function stockOf({ stock }: Sheet): Region<"sheet"> {
  return (
    stock.outline ?? {
      outer: rectangle({ x: 0, y: 0 }, { x: stock.size[0], y: stock.size[1] }),
      holes: [],
    }
  );
}
