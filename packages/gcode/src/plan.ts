import {
  areaOf,
  type Box,
  boundsOf,
  type Loop,
  placeCurve,
  placeRegion,
  type Region,
} from "@dryfit/geometry";
import type { Face, Finding, Part } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import { assign } from "./assign.ts";
import { benchFor, goingWay } from "./bench-for.ts";
import { isEndMill } from "./choose-cutter.ts";
import { checkEngagement } from "./clear-checks.ts";
import type { Cutter } from "./cutter.ts";
import { setupFrames } from "./flip.ts";
import { checkKeepOuts, keepOutsOf, overKeepOuts } from "./keep-outs.ts";
import type { Known } from "./known.ts";
import type { Machine } from "./machine.ts";
import type { Assigned } from "./order.ts";
import { gatesOf } from "./order-gates.ts";
import { type Bench, type DataFor, prepare } from "./plan-build.ts";
import { channelTasks, type EdgePass, edgePasses, edgeWork, takenByEdges } from "./plan-edges.ts";
import { limitFindings } from "./plan-limits.ts";
import { type Direction, optionsOf, type PlanOptions } from "./plan-options.ts";
import { pinHolesFor, pinTask } from "./plan-pins.ts";
import { naiveOrder, operationsOf, travelOf, type Work } from "./plan-round.ts";
import { needsFlip, type Task, tasksOf } from "./plan-task.ts";
import { noRoomForPins, pinSet, turningFor } from "./plan-turning.ts";
import type { Flip } from "./program.ts";
import { heldOutline, tabsFor } from "./tabs.ts";
import type { SetupPlan } from "./toolpath.ts";
import { checkZero } from "./zero-checks.ts";

export interface PlanJob {
  readonly sheet: Sheet;
  /** All parts of the case; those that lie on the sheet are cut. */
  readonly parts: readonly Part[];
  readonly cutters: readonly Cutter[];
  /** Cutters too wide for the corners as drawn, which may rough a recess all the same. */
  readonly roughers?: readonly Cutter[];
  readonly machine: Machine;
  readonly data: DataFor;
  readonly options?: Partial<PlanOptions>;
  /** Parts that are cut another way than the machine file says, by id. */
  readonly directions?: Readonly<Record<string, Direction>>;
  /** Of a rehearsal, or of other sheets: what is missing is added. */
  readonly known?: Known;
}

export interface SheetPlan {
  /** One, or two where the sheet is turned over. */
  readonly setups: readonly SetupPlan[];
  readonly flip: Flip | null;
  /** Rapids over the sheet, mm: as planned, and in the order of the parts and their features. */
  readonly travel: { readonly planned: number; readonly naive: number };
  readonly findings: readonly Finding[];
}

/**
 * How one sheet is cut: which cutter does what, in which setup and order, along which path.
 *
 * The sheet is turned over only where a part has something on face B. Then setup A cuts face A's recesses, bores
 * and the pin holes; setup B, found again by the pins, face B's recesses and bores; and what goes through, openings
 * and then outlines, comes last of all: until then the sheet stays whole and stiff, and no part can shift between
 * the setups. One exception: a part that no tab can hold and that has nothing on face B is cut out last in setup A,
 * down to a skin. There the skin lies on the bed; in setup B a rebate below its edge would leave no skin to cut.
 * Edges that shaped cutters make come after the recesses of the setup in which their face is up.
 * Same sheet, same plan. Errors are findings; what has one is left out of the plan.
 */
export function planSheet(job: PlanJob): SheetPlan {
  const {
    sheet,
    parts,
    cutters,
    machine,
    data,
    options,
    directions = {},
    roughers = [],
    known = new Map(),
  } = job;
  const chosen = { ...optionsOf(machine), ...options };
  const byId = new Map(parts.map((part) => [part.id, part]));
  const here = sheet.parts.flatMap(({ part }) => byId.get(part) ?? []);
  const twoFaced = here.filter(needsFlip);
  const outlines = sheet.parts.flatMap(({ part, placement }) => {
    const { outline } = byId.get(part) ?? {};
    return outline === undefined ? [] : [{ part, loop: placeCurve(placement, outline) }];
  });
  const first = here[0];
  const holes =
    first === undefined || twoFaced.length === 0
      ? null
      : pinHolesFor(cutters, first, chosen, first.thickness.mean + machine.bedAllowance);
  const turning = holes === null ? null : turningFor(sheet, outlines, cutters, holes, here, chosen);
  const findings: Finding[] = [];
  if (twoFaced.length > 0 && turning === null) findings.push(noRoomForPins(sheet, twoFaced, chosen));

  const flip: Flip | null =
    holes === null || turning === null ? null : { ...turning.flip, pins: pinSet(holes, turning) };
  const frames = setupFrames(flip);
  const last: Face = flip === null ? "A" : "B";
  const freedIn = (part: Part): Face =>
    flip === null || needsFlip(part) || bearsTabs(part, cutters, chosen) ? last : "A";
  const setups = (flip === null ? ["A"] : ["A", "B"]) as readonly Face[];
  const edges = edgePasses({
    placed: sheet.parts,
    parts: byId,
    cutters,
    setupFromSheet: frames,
    setups,
    freedIn,
    outlines,
    pins: { at: turning?.pins ?? [], diameter: holes?.diameter ?? 0 },
    bearsTabs: (part, without) => bearsTabs(part, cutters, chosen, without),
  });
  const own = tasksOf(sheet.parts, byId, frames, last, freedIn).filter(({ setup }) => setups.includes(setup));
  const outlineOf = ({ id }: Part): Task => own.find(({ part, kind }) => part === id && kind === "outline")!;
  const tasks = [
    ...own.map((task) => withoutTabsAt(task, edges.passes, freedIn)),
    ...edges.passes.flatMap((pass) => channelTasks(pass, outlineOf(pass.part))),
  ];
  const pins =
    holes === null || turning === null
      ? []
      : turning.pins.map((at, i) =>
          pinTask(at, i, first!, holes.diameter, first!.thickness.mean + holes.depth),
        );
  const bench = (setup: Face): Bench => benchFor(frames[setup], outlines, here, machine, data, chosen, known);
  const benches = { A: bench("A"), B: bench("B") };
  const benchOf = ({ part, setup }: Task): Bench => goingWay(benches[setup], directions[part]);
  const boxes = (own: Bench): Boxed[] => own.outlines.map((one) => ({ ...one, box: boundsOf(one.loop) }));
  const boxed = { A: boxes(benches.A), B: boxes(benches.B) };
  const widest = Math.max(0, ...cutters.map(({ diameter }) => diameter));
  const { assigned, findings: unassigned } = assign(
    [...tasks, ...pins],
    { cutters, roughers },
    chosen,
    benchOf,
    (task) => neighboursOf(task, boxed[task.setup], widest),
  );
  const work = setups.map((setup): Work[] => [
    ...[...assigned, ...lastPasses(assigned, chosen)]
      .filter(({ task }) => task.setup === setup)
      .map(({ task, choice }) => ({
        task,
        choice,
        ready: prepare(task, choice, benchOf(task)),
        gates: gatesOf(task.shape),
      })),
    ...edges.passes
      .filter(({ face }) => face === setup)
      .map((pass) => ({
        task: { kind: "round-over" as const, partArea: 0, lastPass: false },
        choice: pass.tool,
        ...edgeWork(pass, benches[setup]),
      })),
  ]);
  const keepOuts = { A: keepOutsOf(sheet, frames.A, machine), B: keepOutsOf(sheet, frames.B, machine) };
  const plans = setups.map(
    (setup, i): SetupPlan => ({
      sheet: sheet.id,
      setup,
      operations: operationsOf(work[i]!).map((one) =>
        overKeepOuts(one, [...cutters, ...roughers], keepOuts[setup]),
      ),
    }),
  );
  const sum = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0);
  const travel = {
    planned: sum(plans.map(({ operations }) => travelOf(operations))),
    naive: sum(work.map((own) => travelOf(naiveOrder(own)))),
  };
  return {
    setups: plans,
    flip,
    travel,
    findings: [
      ...findings,
      ...checkZero(here, machine),
      ...edges.findings,
      ...(holes?.findings ?? []),
      ...unassigned,
      ...limitFindings(assigned, ({ task }) => benches[task.setup]),
      ...plans.flatMap(({ operations }) => checkEngagement(operations, chosen)),
      ...plans.flatMap(({ setup, operations }) =>
        checkKeepOuts(operations, [...cutters, ...roughers], keepOuts[setup]),
      ),
    ],
  };
}

/** Whether tabs find room on the part's outline, whichever of the cutters goes round it. */
function bearsTabs(
  part: Part,
  cutters: readonly Cutter[],
  { hold }: PlanOptions,
  without: readonly Region<"panel">[] = [],
): boolean {
  if (hold.kind === "skin") return false;
  const radius = Math.max(0, ...cutters.filter(isEndMill).map((cutter) => cutter.diameter)) / 2;
  const recesses = part.features.flatMap((feature) => (feature.kind === "recess" ? [feature.region] : []));
  const outside = { loop: part.outline, mating: part.mating, recesses: [...recesses, ...without] };
  return heldOutline(outside, areaOf([{ outer: part.outline, holes: [] }]), radius).every(
    (held) => tabsFor(held, hold, radius).length > 0,
  );
}

/** An outline with no tabs where edges have taken the wood on the face that lies down. */
function withoutTabsAt(task: Task, passes: readonly EdgePass[], freedIn: (part: Part) => Face): Task {
  if (task.shape.kind !== "outside") return task;
  const here = passes.filter(({ part }) => part.id === task.part);
  const taken = here.flatMap((pass) =>
    takenByEdges([pass], pass.part, freedIn(pass.part)).map((region) =>
      placeRegion(pass.onSetup(task.setup), region),
    ),
  );
  if (taken.length === 0) return task;
  const { shape } = task;
  return { ...task, shape: { ...shape, recesses: [...shape.recesses, ...taken] } };
}

/** The outlines once more, through the skin, where the maker asks for it. */
function lastPasses(assigned: readonly Assigned[], { hold }: PlanOptions): Assigned[] {
  if (hold.kind !== "skin" || !hold.finalPass) return [];
  return assigned
    .filter(({ task }) => task.kind === "outline")
    .map((one) => ({ ...one, task: { ...one.task, id: `${one.task.id}-last`, lastPass: true } }));
}

type Boxed = Bench["outlines"][number] & { readonly box: Box };

/** The other parts' outlines that a cutter no wider than `reach` may meet on its way round this one. */
function neighboursOf({ part, shape }: Task, outlines: readonly Boxed[], reach: number): Loop[] {
  if (shape.kind !== "outside") return [];
  const { min, max } = boundsOf(shape.loop);
  const isNear = ({ box }: Boxed): boolean =>
    box.min.x < max.x + reach &&
    box.max.x > min.x - reach &&
    box.min.y < max.y + reach &&
    box.max.y > min.y - reach;
  return outlines.flatMap((one) => (one.part !== part && isNear(one) ? [one.loop] : []));
}
