import type { Finding } from "@dryfit/joinery";
import { emptyStack, turnsOn } from "./sawDraft.ts";
import type { Blank, SawJob, SawSheet } from "./sawJob.ts";
import { openings } from "./sawStack.ts";

/** Which blanks could be sawn from an empty sheet, by number, and why the others could not. */
export function refusedBlanks(job: SawJob): { placeable: number[]; findings: Finding[] } {
  const placeable: number[] = [];
  const findings: Finding[] = [];
  job.blanks.forEach((blank, k) => {
    const finding = refusal(job, blank, k);
    if (finding) findings.push(finding);
    else placeable.push(k);
  });
  return { placeable, findings };
}

export function sheetsUsedUp(blank: Blank): Finding {
  return {
    code: "no_stock_left",
    severity: "error",
    path: blank.id,
    message: `${blank.id} found no place: the sheets of ${blank.material} are used up.`,
    numbers: {},
    wayOut: "Add a sheet, or take a part out of this job.",
  };
}

export function blanksApart(ids: readonly string[]): Finding {
  return {
    code: "saw_strips_apart",
    severity: "note",
    path: ids[0]!,
    message: `${ids.join(", ")} share a measure, but do not fit one strip of any sheet.`,
    numbers: { blanks: ids.length },
    wayOut: "Their strips are sawn one after the other, at one setting of the fence.",
  };
}

export function onKeepOut(sheet: Pick<SawSheet, "id">, ids: readonly string[]): Finding[] {
  return ids.map((id) => ({
    code: "saw_keep_out_hit",
    severity: "error",
    path: id,
    message: `${id} would be sawn from a place of ${sheet.id} that is to be avoided.`,
    numbers: {},
    wayOut: "Turn the sheet so that the place lies at its far end, or use another sheet.",
  }));
}

function refusal(job: SawJob, blank: Blank, k: number): Finding | null {
  const [width, height] = blank.size;
  const size = `${mm(width)} × ${mm(height)} mm`;
  if (!(width > 0 && height > 0 && Number.isFinite(width + height)))
    return {
      code: "zero_area_outline",
      severity: "error",
      path: blank.id,
      message: `${blank.id} has an outline without area.`,
      numbers: {},
      wayOut: "Draw its outline as one closed line around the wood.",
    };
  const stocks = job.stocks.filter((stock) => stock.material === blank.material);
  if (stocks.every(({ count }) => count === 0)) return sheetsUsedUp(blank);
  if (fits(job, blank, k)) return null;
  if (blank.grain !== "free" && fits(job, { ...blank, grain: "free" }, k))
    return {
      code: "contradictory_grain",
      severity: "error",
      path: blank.id,
      message: `${blank.id} (${size}) fits its sheet only across the grain, which it must follow.`,
      numbers: { width, height },
      wayOut: "Free its grain, or use a sheet whose grain runs the other way.",
    };
  const largest = stocks.reduce((a, b) => (a.size[0] * a.size[1] >= b.size[0] * b.size[1] ? a : b));
  return {
    code: "part_larger_than_sheet",
    severity: "error",
    path: blank.id,
    message: `${blank.id} (${size}) is larger than any sheet of ${blank.material} once ${mm(job.rules.trim)} mm are off its edges.`,
    numbers: {
      ...{ width, height, trim: job.rules.trim },
      ...{ sheetWidth: largest.size[0], sheetHeight: largest.size[1] },
    },
    wayOut: "Use a larger sheet, trim less, or make the part smaller.",
  };
}

function fits(job: SawJob, blank: Blank, k: number): boolean {
  return job.stocks.some(
    (stock) =>
      stock.material === blank.material &&
      stock.count !== 0 &&
      (["x", "y"] as const).some((axis) =>
        turnsOn(blank, k, stock).some(
          (lying) => openings(emptyStack(stock, job.rules, axis), lying, job.rules.stages).length > 0,
        ),
      ),
  );
}

function mm(length: number): string {
  return String(Number(length.toFixed(1)));
}
