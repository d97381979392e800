import {
  circle,
  cosine,
  inverse,
  type Loop,
  offset,
  type Placement,
  type Point,
  place,
  point,
  type Region,
  segments,
} from "@dryfit/geometry";
import { boreMoves } from "./bore.ts";
import { chosenClearing, engagementOf } from "./choose-clearing.ts";
import type { Choice } from "./choose-cutter.ts";
import { woodToGo } from "./choose-fit.ts";
import { type ClearingCut, clearingMoves } from "./clear-moves.ts";
import type { RestClearing } from "./clear-rest.ts";
import { restMoves } from "./clear-rest-moves.ts";
import type { Cut } from "./cut.ts";
import type { Cutter, CuttingData } from "./cutter.ts";
import type { Descent } from "./entry.ts";
import { type Known, recalled } from "./known.ts";
import { placeMove } from "./place-move.ts";
import type { PlanOptions } from "./plan-options.ts";
import { drawnOf, onFace, type Shape, type Task } from "./plan-task.ts";
import { type Profiled, profile } from "./profile-plan.ts";
import { type Held, heldOutline } from "./tabs.ts";
import type { ClearedBy, Move, Operation } from "./toolpath.ts";

/** Speeds and depths for a cut in a material: the caller knows the machine and the wood. */
export type DataFor = (cutter: Cutter, material: string, cut: Cut) => CuttingData;

/** What holds for a whole setup; heights over the face that is up, mm. */
export interface Bench {
  /** The highest wood, where the sheet is thicker than it counts for. */
  readonly top: number;
  /** The sheet's underside. */
  readonly underside: number;
  /** The tip of a through cut. */
  readonly through: number;
  readonly safe: number;
  readonly data: DataFor;
  /** From safe height over a place, accelerations counted. */
  readonly minutes: (moves: readonly Move[], from: Point) => number;
  readonly options: PlanOptions;
  /** All outlines that lie on the sheet, by part: a cut stays off them. */
  readonly outlines: readonly { readonly part: string; readonly loop: Loop }[];
  readonly sheetFromSetup: Placement<"sheet", "setup">;
  /** For this machine only. */
  readonly known: Known;
}

/** A task ready to be cut from wherever the cutter comes. */
export type Ready = (near: Point) => Operation;

/** Works out all of the operation that does not depend on where the cutter comes from. */
export function prepare(task: Task, choice: Choice, bench: Bench): Ready {
  const { cutter, corners } = choice;
  const { movesFrom, tabs, skin, cleared } = cutOf(task, choice, bench);
  const operation: Omit<Operation, "moves"> = {
    id: task.id,
    kind: task.kind,
    part: task.part,
    feature: task.feature,
    cutter: cutter.id,
    tabs: tabs.map(({ at, lift }) => ({
      part: task.part,
      at: onSheet(at, bench),
      length: lift.length,
      height: lift.height - (bench.underside - bench.through),
    })),
    corners: corners.map((corner) => ({
      part: task.part,
      at: onSheet(place(drawnOf(task).setupFromDrawn, corner), bench),
      radius: cutter.diameter / 2,
    })),
    ...(skin === null ? {} : { skin }),
    ...(cleared === undefined ? {} : { cleared }),
  };
  return (near) => ({ ...operation, moves: movesFrom(near) });
}

/** How far the tip goes below the face that is up. */
export function deepest(task: Task, bench: Bench): number {
  return task.depth ?? -bench.through;
}

/** What a cut comes to, and how it was cleared where it was. */
interface Worked extends Profiled {
  readonly cleared?: ClearedBy;
}

function cutOf(task: Task, choice: Choice, bench: Bench): Worked {
  const { shape } = task;
  const { cutter } = choice;
  if (shape.kind === "outside") {
    const along = (radius: number): Held[] => heldOutline(shape, task.partArea, radius);
    return profiles(task, along, [], cutter, bench);
  }
  if (shape.kind === "hole" && 2 * cutter.diameter > shape.diameter + CORE_MM) {
    const moves = bore(task, shape, cutter, bench);
    return only(() => moves);
  }
  if (task.depth === null) return openingCut(task, cutter, bench);
  return fromFace(task, recessCut(task, choice, bench));
}

/** A recess, as seen on the face that is up. */
function recessCut(task: Task, choice: Choice, bench: Bench): Worked {
  const { cutter, rough } = choice;
  if (rough !== undefined && task.share === "rough")
    return cleared(rough.plan.roughed, task, cutter, unfinished(bench));
  if (rough !== undefined && task.share === "rest") return restOf(rough.plan, task, cutter, bench);
  const { shape } = onFace(task);
  if (shape.kind !== "pocket") return cleared([region(insideOf(shape))], task, cutter, bench);
  return cleared(woodToGo(task, cutter.diameter / 2, choice), task, cutter, bench, [shape.region]);
}

/** The work done where the part lies. */
function fromFace(task: Task, worked: Worked): Worked {
  const { setupFromFace } = onFace(task);
  const faceFromSetup = inverse(setupFromFace);
  return {
    ...worked,
    movesFrom: (near) =>
      worked.movesFrom(place(faceFromSetup, near)).map((move) => placeMove(setupFromFace, move)),
  };
}

function bore(task: Task, { at, diameter }: Shape & { kind: "hole" }, cutter: Cutter, bench: Bench): Move[] {
  const data = dataFor(task, cutter, bench, cutter.kind === "drill" ? "drilling" : "slot");
  const descent = descentOf(task, bench, data);
  return boreMoves(at, { hole: diameter, cutter: cutter.diameter }, descent, bench.safe, data);
}

/** `asked` is what must go of the pocket; the rest is room to run out. */
function cleared(
  pocket: readonly Region[],
  task: Task,
  cutter: Cutter,
  bench: Bench,
  asked: readonly Region[] = pocket,
): Worked {
  const cut = clearingCut(task, cutter, bench);
  const { options, minutes, known } = bench;
  const grain = task.grain && place(onFace(task).faceFromDrawn, task.grain);
  const { stepover } = cut.side;
  const { direction, finish, clearing } = options;
  const values = [pocket, asked === pocket ? null : asked, grain, direction, finish, clearing, cut];
  const { plan, by } = recalled(known, "clearing", values, () =>
    chosenClearing({ pocket, asked, grain, stepover, options, minutes }, cut),
  );
  return { ...only((near) => clearingMoves(plan, cut, near)), cleared: by };
}

/** Without a finishing pass: another cutter makes it. */
function unfinished(bench: Bench): Bench {
  return { ...bench, options: { ...bench.options, finish: null } };
}

/** What a larger cutter has left of a recess. */
function restOf(plan: RestClearing, task: Task, cutter: Cutter, bench: Bench): Worked {
  const cut = clearingCut(task, cutter, bench);
  const movesFrom = (near: Point): Move[] => restMoves(plan, cut, near);
  const near = plan.walls[0]?.[0]?.from ?? { x: 0, y: 0 };
  const minutes = bench.minutes(movesFrom(near), near);
  return { ...only(movesFrom), cleared: { method: "rest", engagement: Math.PI, limit: null, minutes } };
}

function clearingCut(task: Task, cutter: Cutter, bench: Bench): ClearingCut {
  const [slot, side] = [dataFor(task, cutter, bench, "slot"), dataFor(task, cutter, bench, "clearing")];
  const radius = cutter.diameter / 2;
  const angle = engagementOf(bench.options.clearing.engagement, side.stepover, radius);
  const width = Math.min(cutter.diameter, radius * (1 - cosine(angle)));
  return {
    descent: descentOf(task, bench, slot),
    safe: bench.safe,
    radius,
    slot,
    side,
    engaged: bench.data(cutter, task.material, { kind: "engaged", depth: deepest(task, bench), width }),
    finishing: dataFor(task, cutter, bench, "finishing"),
    waste: bench.options.direction === "climb" ? "left" : "right",
  };
}

/** A small opening falls to chips; in a large one a slug is left, held by tabs where there is room for them. */
function openingCut(task: Task, cutter: Cutter, bench: Bench): Worked {
  const loop = insideOf(task.shape);
  const slug = offset([region(loop)], -cutter.diameter);
  if (offset(slug, -SLUG * cutter.diameter).length === 0)
    return fromFace(task, cleared([region(insideOf(onFace(task).shape))], task, cutter, bench));
  const along = (radius: number): Held[] =>
    offset([region(loop)], -radius).map(
      (piece): Held => ({ track: segments(piece.outer), edge: "right", area: 0, mating: [], recesses: [] }),
    );
  return profiles(task, along, [loop], cutter, bench);
}

/** `along` gives the tracks at a distance from the shape's edge. */
function profiles(
  task: Task,
  along: (distance: number) => readonly Held[],
  keepOff: readonly Loop[],
  cutter: Cutter,
  bench: Bench,
): Profiled {
  const radius = cutter.diameter / 2;
  const { finish } = bench.options;
  const walls = along(radius);
  const rough = finish === null || task.lastPass ? [] : along(radius + finish.allowance);
  const ready = walls.map((held, i) =>
    profile(
      {
        held,
        // Where the allowance closes a neck, one pass cuts it all.
        rough: rough.length === walls.length ? rough[i]!.track : null,
        keepOff,
        radius,
        slot: dataFor(task, cutter, bench, "slot"),
        finishing: dataFor(task, cutter, bench, "finishing"),
        lastPass: task.lastPass,
      },
      bench,
    ),
  );
  return {
    movesFrom: (near) => ready.flatMap(({ movesFrom }) => movesFrom(near)),
    tabs: ready.flatMap(({ tabs }) => tabs),
    skin: ready.find(({ skin }) => skin !== null)?.skin ?? null,
  };
}

/** A slug at most this many cutter diameters across is cleared away: loose, it would be thrown. From memory. */
const SLUG = 0.75;

/** The core that a bore's helix may leave standing, mm: none, but for rounding. */
const CORE_MM = 0.02;

function dataFor(task: Task, cutter: Cutter, bench: Bench, kind: Cut["kind"]): CuttingData {
  const { finish } = bench.options;
  const width = kind === "finishing" && finish !== null ? { width: finish.allowance } : {};
  return bench.data(cutter, task.material, { kind, depth: deepest(task, bench), ...width });
}

function descentOf(task: Task, bench: Bench, data: CuttingData): Descent {
  return {
    top: bench.top,
    bottom: -deepest(task, bench),
    most: data.depthPerPass,
    rampAngle: bench.options.rampAngle,
    score: bench.options.score,
  };
}

function insideOf(shape: Shape): Loop {
  if (shape.kind === "inside") return shape.loop;
  if (shape.kind === "hole") return circle(shape.at, shape.diameter / 2);
  throw new RangeError(`a ${shape.kind} has no inside that goes through`);
}

function onSheet(p: Point, { sheetFromSetup }: Bench): readonly [number, number] {
  const { x, y } = place(sheetFromSetup, point<"setup">(p.x, p.y));
  return [x, y];
}

const only = (movesFrom: Profiled["movesFrom"]): Profiled => ({ movesFrom, tabs: [], skin: null });

const region = (outer: Loop): Region => ({ outer, holes: [] });
