import { needsFlip } from "@dryfit/gcode";
import {
  type Budget,
  checkLayout,
  type Layout,
  type Lock,
  type NestJob,
  nest,
  priceOf,
  type Sheet,
} from "@dryfit/nest";

/**
 * The layout with its two-faced parts gathered on as few sheets as hold them, or as it was where that would turn no
 * fewer sheets or would cost more wood: each sheet that is turned over is one more setup, with pins and a fresh zero.
 *
 * The two-faced parts are laid by themselves first, then the others round them. `budget`: a fresh one for each search.
 */
export function withFewestFlips(job: NestJob, layout: Layout, budget: () => Budget): Layout {
  const before = flipsOf(job, layout);
  if (before < 2) return layout;
  const held = new Set((job.locks ?? []).map(({ part }) => part));
  const alone = { ...job, parts: job.parts.filter((part) => needsFlip(part) || held.has(part.id)) };
  const gathered = nest(alone, { budget: budget() });
  const locks = gathered.sheets.flatMap(locksOn);
  const moved = (lock: Lock): boolean =>
    locks.some(({ part, sheet }) => part === lock.part && sheet !== lock.sheet);
  if (gathered.unplaced.length > 0 || flipsOf(job, gathered) >= before || job.locks?.some(moved))
    return layout;

  const around = nest({ ...job, locks }, { budget: budget() });
  const better =
    around.unplaced.length <= layout.unplaced.length &&
    around.sheets.length <= layout.sheets.length &&
    costOf(around) <= costOf(layout) &&
    flipsOf(job, around) < before &&
    checkLayout(job, around).length <= checkLayout(job, layout).length;
  // What is said of parts laid by hand stands as it was: those gathered here are no one's wish.
  return better ? { ...around, findings: layout.findings } : layout;
}

/** How many of its sheets are turned over. */
function flipsOf({ parts }: NestJob, { sheets }: Layout): number {
  const twoFaced = new Set(parts.filter(needsFlip).map(({ id }) => id));
  return sheets.filter((sheet) => sheet.parts.some(({ part }) => twoFaced.has(part))).length;
}

function locksOn({ stock, parts }: Sheet, index: number): readonly Lock[] {
  return parts.map(({ part, placement }) => ({ part, placement, sheet: index + 1, stock: stock.id }));
}

function costOf({ sheets }: Layout): number {
  return sheets.reduce((sum, { stock }) => sum + priceOf(stock), 0);
}
