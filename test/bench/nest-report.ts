import { type Instance, itemArea, type Solution } from "./nest-instance.ts";
import { sheetsCost, worthOf } from "./nest-solve.ts";

/**
 * Best densities published for strips, %. Source: J. Gardeyn, G. Vanden Berghe, T. Wauters 2025, arXiv 2509.13329v1,
 * tables 2 and 3 (20 minutes, 3 threads, best of 100 runs).
 */
const PUBLISHED_DENSITY: Readonly<Record<string, number>> = {
  albano: 89.82,
  dagli: 90.17,
  dighe1: 100,
  fu: 92.41,
  jakobs1: 89.26,
  mao: 86.87,
  shapes0: 69.98,
  shapes2: 86.23,
  swim: 79.83,
  trousers: 92.62,
};

export interface Report {
  readonly kind: string;
  readonly line: string;
  /** Points of density behind the published best; null where none is known. */
  readonly gap: number | null;
  /** Sheets above the optimum or bound; share of the published value. */
  readonly over: number | null;
}

export function report(instance: Instance, solution: Solution): Report {
  const name = instance.name.padEnd(28);
  if (instance.kind === "strip") {
    const length = solution.sheets[0]!.size[0];
    const width = instance.stripWidth!;
    const density = (100 * itemArea(instance)) / (length * width);
    const best =
      PUBLISHED_DENSITY[instance.name] ??
      (instance.knownOptimalLength
        ? (100 * itemArea(instance)) / (instance.knownOptimalLength * width)
        : null);
    const gap = best === null ? null : best - density;
    const against = gap === null ? "no published best" : `best ${best!.toFixed(2)} %, gap ${gap.toFixed(2)}`;
    return {
      kind: instance.kind,
      gap,
      over: null,
      line: `${name} ${density.toFixed(2)} %  ${against}${curve(solution)}`,
    };
  }
  if (instance.kind === "guillotine-knapsack" || instance.kind === "keep-out") {
    const value = worthOf(instance, solution);
    const best = instance.publishedBestValueGuillotine ?? null;
    const over = best === null ? null : (100 * value) / best;
    const against = over === null ? "no published value" : `${over.toFixed(2)} % of ${best}`;
    return { kind: instance.kind, gap: null, over, line: `${name} value ${value}  ${against}` };
  }
  const used = solution.sheets.length;
  const cost = sheetsCost(instance, solution);
  const best = instance.knownOptimalBins ?? null;
  const area = solution.sheets.reduce((sum, { size }) => sum + size[0] * size[1], 0);
  const against = best === null ? "" : `, optimum ${best}`;
  const laid = worthOf(instance, solution);
  const left =
    instance.items.reduce((sum, { demand }) => sum + demand, 0) -
    solution.sheets.reduce((sum, { placements }) => sum + placements.length, 0);
  const out = left === 0 ? "" : `, ${left} left out`;
  return {
    kind: instance.kind,
    gap: null,
    over: best === null ? null : used - best,
    line: `${name} ${used} sheets${against}, cost ${cost}, ${((100 * laid) / area).toFixed(1)} % used${out}`,
  };
}

export function summary(reports: readonly Report[]): string {
  const gaps = reports.flatMap((r) => (r.gap === null ? [] : [r.gap]));
  const values = reports.flatMap((r) =>
    r.kind === "guillotine-knapsack" && r.over !== null ? [r.over] : [],
  );
  const bins = reports.flatMap((r) => (r.kind === "bin" && r.over !== null ? [r.over] : []));
  const lines = [`${reports.length} instances`];
  if (gaps.length > 0)
    lines.push(`strips: mean gap ${mean(gaps).toFixed(2)} points, worst ${Math.max(...gaps).toFixed(2)}`);
  if (values.length > 0)
    lines.push(`guillotine: ${mean(values).toFixed(2)} % of the published value on average`);
  if (bins.length > 0)
    lines.push(
      `bins: ${bins.filter((b) => b === 0).length} of ${bins.length} at the optimum, worst ${Math.max(...bins)} above`,
    );
  return lines.join("\n");
}

/** Density over time, at the first improvement after each doubling. */
function curve({ curve: points }: Solution): string {
  let next = 0.5;
  const shown: string[] = [];
  for (const [seconds, measure] of points) {
    if (seconds < next) continue;
    shown.push(`${seconds.toFixed(1)} s ${measure.toFixed(2)}`);
    while (next <= seconds) next *= 2;
  }
  return shown.length > 0 ? `  (${shown.join(", ")})` : "";
}

function mean(list: readonly number[]): number {
  return list.reduce((a, b) => a + b, 0) / list.length;
}
