import type { Point, Region } from "@dryfit/geometry";
import { arccosine } from "@dryfit/geometry";
import { type Clearing, clearing, ringOf, roomsOf } from "./clear.ts";
import { engagedClearing } from "./clear-engage.ts";
import { type ClearingCut, clearingMoves } from "./clear-moves.ts";
import { longWay, rasterRing } from "./clear-raster.ts";
import type { PlanOptions } from "./plan-options.ts";
import type { ClearedBy, Move } from "./toolpath.ts";

/** What is to be cleared, and with what. */
export interface ClearingTask {
  readonly pocket: readonly Region[];
  /** What must go of the pocket; the rest is room to run out. */
  readonly asked: readonly Region[];
  /** The grain's direction; where there is none, raster lines run the long way. */
  readonly grain: Point | undefined;
  readonly stepover: number;
  readonly options: Pick<PlanOptions, "direction" | "finish" | "clearing">;
  readonly minutes: (moves: readonly Move[], near: Point) => number;
}

/** A way to clear a pocket, worked out but for where the cutter comes from: plain data. */
export interface ClearingChoice {
  readonly plan: Clearing;
  readonly by: ClearedBy;
}

/**
 * The one way to clear a pocket that is asked for, if it is possible here; else the quickest of those that keep to the
 * asked engagement, or what comes nearest to it.
 */
export function chosenClearing(task: ClearingTask, cut: ClearingCut): ClearingChoice {
  const { method, engagement } = task.options.clearing;
  const near = task.pocket[0]?.outer.vertices[0] ?? { x: 0, y: 0 };
  const inRings = clearing(task.pocket, cut.radius, task.stepover, task.options, task.asked);
  const choice = (one: Method): ClearingChoice | null => {
    const plan = one === "contour" ? inRings : planOf(one, inRings, task, cut);
    if (plan === null) return null;
    const minutes = task.minutes(clearingMoves(plan, cut, near), near);
    const name = nameOf(one, plan);
    const isHeld = name === "engagement" && plan.rings.length + plan.slots.length === 0;
    const limit = isHeld ? engagementOf(engagement, task.stepover, cut.radius) : null;
    return { plan, by: { method: name, engagement: widestOf(plan), limit, minutes } };
  };
  const contour = choice("contour")!;
  if (method !== "auto") return choice(method) ?? contour;
  const others = contour.by.method === "line" ? [] : (["raster", "engagement"] as const);
  const limit = engagement ?? Math.PI;
  return others
    .filter((one) => one !== "engagement" || limit < Math.PI)
    .map(choice)
    .reduce<ClearingChoice>(
      (best, one) => (one !== null && isBetter(one, best, limit) ? one : best),
      contour,
    );
}

type Method = Exclude<PlanOptions["clearing"]["method"], "auto">;

function isBetter({ by: one }: ClearingChoice, { by: best }: ClearingChoice, limit: number): boolean {
  const over = [one, best].map(({ engagement }) => Math.max(0, engagement - limit)) as [number, number];
  if (Math.abs(over[0] - over[1]) > SAME_ENGAGEMENT) return over[0] < over[1];
  return one.minutes < best.minutes * QUICKER;
}

/** Radians. */
const SAME_ENGAGEMENT = 1e-3;
/** What is hardly quicker is not worth the other pattern on the floor. */
const QUICKER = 0.97;

/** Another way than rings, which share their slots with it. */
function planOf(
  method: Exclude<Method, "contour">,
  inRings: Clearing,
  { pocket, grain, stepover, options }: ClearingTask,
  cut: ClearingCut,
): Clearing | null {
  const { rooms, way, finishing } = roomsOf(pocket, cut.radius, options);
  const common = { ...inRings, ...finishing, rings: [], lines: [] };
  if (method === "raster") {
    const rings = rooms.map((room) =>
      rasterRing(room, grain ?? longWay(room), { stepover, radius: cut.radius, way }),
    );
    return rings.some(({ hatch }) => hatch!.length > 0) ? { ...common, rings } : null;
  }
  const limit = engagementOf(options.clearing.engagement, stepover, cut.radius);
  const engaged = rooms.map((room) => engagedClearing(room, cut.radius, limit, way));
  if (engaged.every((one) => one === null)) return null;
  return {
    ...common,
    engaged: engaged.filter((one) => one !== null),
    rings: engaged.flatMap((one, i) => (one === null ? [ringOf(rooms[i]!, cut.radius, stepover, way)] : [])),
  };
}

/** The angle asked for; else the one at which the stepover of the cutting data cuts along a straight wall. */
export function engagementOf(asked: number | null, stepover: number, radius: number): number {
  return asked ?? arccosine(1 - Math.min(stepover, radius) / radius);
}

/** Whatever else clears a pocket starts in a full slot. */
function widestOf({ rings, lines, slots, engaged }: Clearing): number {
  const slotted = rings.length + lines.length + slots.length > 0;
  return slotted ? Math.PI : Math.max(0, ...engaged.map(({ widest }) => widest));
}

function nameOf(method: Method, { rings, engaged, lines, slots }: Clearing): ClearedBy["method"] {
  return rings.length + engaged.length === 0 && lines.length + slots.length > 0 ? "line" : method;
}
