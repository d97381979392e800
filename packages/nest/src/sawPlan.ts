import { type Budget, stepBudget } from "./budget.ts";
import { ringBounds, ringOf } from "./ring.ts";
import { type Rng, rngFrom, shuffle } from "./rng.ts";
import { type Sawn, sawn } from "./sawCuts.ts";
import { type Draft, draft, type FirstAxis, fitsOneStrip, type Item, pricesOf } from "./sawDraft.ts";
import { blanksApart, onKeepOut, refusedBlanks, sheetsUsedUp } from "./sawFindings.ts";
import type { SawJob, SawPlan, SawSheet } from "./sawJob.ts";

/** Plenty for a case: a few tenths of a second. */
const STEPS = 3000;

/**
 * Blanks sawn from sheets with straight cuts, each right across a board: first into strips, then those into lengths,
 * where allowed those narrower once more. Every draft is a tree of such cuts, so any of them can be sawn; the search
 * looks for the one with the cheapest sheets, then with few settings, few cuts and a large rest.
 *
 * Never throws for a bad job; what cannot be sawn is `unplaced`, with a finding. The same job and number of steps give
 * the same plan.
 */
export function sawPlan(job: SawJob, budget: Budget = stepBudget(STEPS)): SawPlan {
  const { placeable, findings } = refusedBlanks(job);
  const items = itemsOf(job, placeable);
  const { best, steps } = search(job, items, budget);
  const sheets = best.sawn.map(
    ({ blanks, cuts, rests }, k): SawSheet => ({
      id: `sheet-${k + 1}`,
      stock: best.draft.sheets[k]!.stock,
      blanks,
      cuts,
      rests: [...rests].sort((a, b) => b.w * b.h - a.w * a.h),
    }),
  );
  const left = best.draft.left.map((k) => job.blanks[k]!);
  const apart = items.filter((item) => item.shared !== null && !fitsOneStrip(job, item));
  return {
    sheets,
    unplaced: job.blanks
      .filter((_, k) => !placeable.includes(k) || best.draft.left.includes(k))
      .map(({ id }) => id),
    steps,
    findings: [
      ...findings,
      ...left.map(sheetsUsedUp),
      ...apart.map(({ blanks }) => blanksApart(blanks.map((k) => job.blanks[k]!.id))),
      ...sheets.flatMap((sheet) => onKeepOut(sheet, hits(sheet))),
    ],
  };
}

/** Groups that share a setting first, then single blanks; whoever could not be sawn at all is left out of its group. */
function itemsOf(job: SawJob, placeable: readonly number[]): Item[] {
  const grouped = new Set<number>();
  const groups = job.together.flatMap(({ blanks, axis }): Item[] => {
    const members = placeable.filter((k) => blanks.includes(job.blanks[k]!.id) && !grouped.has(k));
    if (members.length < 2) return [];
    for (const k of members) grouped.add(k);
    return [{ blanks: members, shared: axis }];
  });
  const singles = placeable.filter((k) => !grouped.has(k)).map((k): Item => ({ blanks: [k], shared: null }));
  return [...groups, ...singles];
}

interface Tried {
  readonly draft: Draft;
  readonly sawn: readonly Sawn[];
  /** Smaller is better, the first that differs decides. */
  readonly rank: readonly number[];
}

/** Orders of blanks and ways of the first cuts; the best so far is changed a little, again and again. */
function search(job: SawJob, items: readonly Item[], budget: Budget): { best: Tried; steps: number } {
  const rng = rngFrom(job.seed);
  const area = (item: Item): number =>
    item.blanks.reduce((sum, k) => sum + job.blanks[k]!.size[0] * job.blanks[k]!.size[1], 0);
  const longest = (item: Item): number => Math.max(...item.blanks.flatMap((k) => job.blanks[k]!.size));
  let best: Tried | null = null;
  let order: readonly Item[] = items;
  let axes = 0;
  let steps = 0;
  const attempt = (tried: readonly Item[], mask: number, astray: Rng | null): void => {
    const found = judged(job, draft(job, tried, axisFrom(mask), astray));
    steps += Math.max(1, items.length);
    if (best && compare(found.rank, best.rank) > 0) return;
    best = found;
    order = tried;
    axes = mask;
  };
  for (const measure of [area, longest])
    for (const mask of [0, 0xffff]) {
      const sorted = [...items].sort(
        (a, b) => Number(a.shared === null) - Number(b.shared === null) || measure(b) - measure(a),
      );
      attempt(sorted, mask, null);
    }
  while (items.length > 1 && budget.spent(steps) < 1) {
    const changed = [...order];
    if (rng() < 0.1) shuffle(changed, rng);
    for (let k = 1 + Math.floor(rng() * 3); k > 0; k--) {
      const [i, j] = [Math.floor(rng() * changed.length), Math.floor(rng() * changed.length)];
      changed.splice(j, 0, ...changed.splice(i, 1));
    }
    const mask = rng() < 0.2 ? axes ^ (1 << Math.floor(rng() * 4)) : axes;
    attempt(changed, mask, rng() < 0.5 ? rng : null);
  }
  return { best: best!, steps };
}

function axisFrom(mask: number): FirstAxis {
  return (sheet) => (((mask >> (sheet % 16)) & 1) === 0 ? "x" : "y");
}

function compare(a: readonly number[], b: readonly number[]): number {
  for (let k = 0; k < a.length; k++) if (Math.abs(a[k]! - b[k]!) > 1e-9) return a[k]! - b[k]!;
  return 0;
}

/** What a setting and a cut weigh against wood saved in one piece: shares of a sheet. Ours, no source. */
const SETTING_SHARE = 0.004;
const CUT_SHARE = 0.002;

function judged(job: SawJob, tried: Draft): Tried {
  const sheets = tried.sheets.map((sheet, k) => sawn(job, sheet, `sheet-${k + 1}`));
  const onKeepOuts = sheets.reduce(
    (sum, { blanks }, k) => sum + hits({ blanks, stock: tried.sheets[k]!.stock }).length,
    0,
  );
  const whole = Math.max(1, ...tried.sheets.map(({ stock }) => stock.size[0] * stock.size[1]));
  const largest = Math.max(0, ...sheets.flatMap(({ rests }) => rests.map(({ w, h }) => w * h)));
  const work = sheets.reduce(
    (sum, { cuts, settings }) => sum + CUT_SHARE * cuts.length + SETTING_SHARE * settings,
    0,
  );
  const left = tried.left.reduce((sum, k) => sum + job.blanks[k]!.size[0] * job.blanks[k]!.size[1], 0);
  return {
    draft: tried,
    sawn: sheets,
    rank: [left, pricesOf(tried), tried.sheets.length, onKeepOuts, work - largest / whole],
  };
}

/** Blanks that lie on a knot, a screw or whatever else is to be avoided. */
function hits({ blanks, stock }: Pick<SawSheet, "blanks" | "stock">): readonly string[] {
  const zones = stock.keepOuts.map((zone) => ringBounds(ringOf(zone.outer)));
  return blanks
    .filter(({ x, y, w, h }) =>
      zones.some(([x0, y0, x1, y1]) => x < x1 && x0 < x + w && y < y1 && y0 < y + h),
    )
    .map(({ id }) => id);
}
