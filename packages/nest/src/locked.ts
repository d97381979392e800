import { placeCurve } from "@dryfit/geometry";
import type { Finding, Part } from "@dryfit/joinery";
import type { Layout, Lock, NestJob, PlacedPart, Sheet, Stock } from "./layout.ts";

/** A sheet on which parts are locked, as its maker numbers it. */
interface LockedSheet {
  readonly number: number;
  readonly stock: Stock;
  readonly parts: readonly PlacedPart[];
  /** The same sheet to the search: one piece, paid for, and nothing may lie where a locked part lies. */
  readonly rest: Stock;
}

/** The job without its locked parts: what they leave of their sheets is stock like any other. */
export function aroundLocked(job: NestJob): {
  readonly rest: NestJob;
  /** The rest's layout with the locked parts in it, every sheet at its number. */
  readonly whole: (layout: Layout) => Layout;
} {
  const parts = new Map(job.parts.map((part) => [part.id, part]));
  const locks = (job.locks ?? []).filter(
    (lock, i, all) => parts.has(lock.part) && all.findIndex(({ part }) => part === lock.part) === i,
  );
  const sheets = lockedSheets(job, locks, parts);
  const lost = locks.filter(({ sheet }) => !sheets.some(({ number }) => number === sheet));
  const placed = new Set(sheets.flatMap((sheet) => sheet.parts.map(({ part }) => part)));
  const stocks = job.stocks.map((stock) => {
    const taken = sheets.filter((sheet) => sheet.stock === stock).length;
    return stock.count === null ? stock : { ...stock, count: Math.max(0, stock.count - taken) };
  });
  return {
    rest: {
      ...job,
      locks: [],
      parts: job.parts.filter(({ id }) => !placed.has(id)),
      stocks: [...sheets.map(({ rest }) => rest), ...stocks],
    },
    whole: (layout) =>
      withLocked(sheets, job.stocks, {
        ...layout,
        findings: [...layout.findings, ...lost.map(notAtHand)],
      }),
  };
}

function lockedSheets(
  job: NestJob,
  locks: readonly Lock[],
  parts: ReadonlyMap<string, Part>,
): readonly LockedSheet[] {
  const numbers = [...new Set(locks.map(({ sheet }) => sheet))].sort((a, b) => a - b);
  return numbers.flatMap((number) => {
    const own = locks.filter(({ sheet }) => sheet === number);
    const stock = job.stocks.find(({ id }) => id === own[0]!.stock);
    if (!stock) return [];
    const outlines = own.map(({ part, placement }) => placeCurve(placement, parts.get(part)!.outline));
    return [
      {
        number,
        stock,
        parts: own.map(({ part, placement }) => ({ part, placement })),
        rest: {
          ...stock,
          id: `${stock.id}, sheet ${number}`,
          count: 1,
          price: 0,
          keepOuts: [...stock.keepOuts, ...outlines.map((outer) => ({ outer, holes: [] }))],
        },
      },
    ];
  });
}

function withLocked(
  locked: readonly LockedSheet[],
  stocks: readonly Stock[],
  { sheets, unplaced, findings }: Layout,
): Layout {
  const others = sheets.filter(({ stock }) => !locked.some(({ rest }) => rest.id === stock.id));
  const numbered: Omit<Sheet, "id">[] = [];
  const moved: Finding[] = [];
  const left = { locked: [...locked], others: [...others] };
  while (left.locked.length + left.others.length > 0) {
    const at = numbered.length + 1;
    const [next] = left.locked;
    if (!next || (next.number > at && left.others.length > 0)) {
      const other = left.others.shift()!;
      // The search counts fewer of it, the job has as many as it said.
      numbered.push({ ...other, stock: stocks.find(({ id }) => id === other.stock.id) ?? other.stock });
      continue;
    }
    left.locked.shift();
    const beside = sheets.filter(({ stock }) => stock.id === next.rest.id).flatMap((sheet) => sheet.parts);
    numbered.push({ stock: next.stock, parts: [...next.parts, ...beside] });
    if (next.number !== at) moved.push(renumbered(next, at));
  }
  return {
    sheets: numbered.map((sheet, i) => ({ ...sheet, id: `sheet-${i + 1}` })),
    unplaced,
    findings: [...findings, ...moved],
  };
}

function notAtHand({ part, sheet, stock }: Lock): Finding {
  return {
    code: "locked_stock_missing",
    severity: "warning",
    path: part,
    message: `${part} is locked on sheet ${sheet}, a ${stock}, which is not at hand: it is nested like the others.`,
    numbers: { sheet },
    wayOut: "Name a sheet that is at hand, or take the lock away.",
  };
}

function renumbered({ number, parts: [first] }: LockedSheet, at: number): Finding {
  return {
    code: "locked_sheet_moved",
    severity: "warning",
    path: first!.part,
    message: `${first!.part} is locked on sheet ${number}, but so many are not cut: it lies on sheet ${at}.`,
    numbers: { asked: number, sheet: at },
    wayOut: `Say sheet ${at}.`,
  };
}
