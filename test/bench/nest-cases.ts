import { readFileSync } from "node:fs";
import { areaOf } from "@dryfit/geometry";
import { type Part, readDesign, recipe } from "@dryfit/joinery";
import {
  checkLayout,
  type Layout,
  type NestJob,
  nestWithin,
  offcutsOf,
  type Stock,
  sheetsBound,
  timeBudget,
} from "@dryfit/nest";

/** The samples, and five mixed cases as one job: how soon a layout is there, and what more time makes of it. */
export function* nestCases(seconds: number, now: () => number): Generator<string> {
  for (const [name, job] of jobs()) {
    let first: { at: number; layout: Layout } | null = null;
    const start = now();
    const { layout, steps } = nestWithin(job, {
      within: timeBudget(seconds, now),
      first: 2500,
      onFirst: (found) => {
        first = { at: now() - start, layout: found };
      },
    });
    const wrong = checkLayout(job, layout);
    if (wrong.length > 0) throw new RangeError(wrong[0]!.message);
    const { at, layout: before } = first!;
    const bound = sheetsBound(job);
    const sheets = layout.sheets.length;
    yield [
      name.padEnd(14),
      `first layout after ${Math.round(at * 1000)} ms`,
      `${sheets} ${sheets === 1 ? "sheet" : "sheets"}, ${bound === sheets ? "no fewer can do" : `bound ${bound}`}`,
      `used ${share(job, before)} % at first, ${share(job, layout)} % after ${steps} steps`,
      `largest rest ${rest(job, before)} at first, ${rest(job, layout)} after`,
    ].join("; ");
  }
}

function* jobs(): Generator<readonly [string, NestJob]> {
  const own = (name: string): NestJob => caseJob([name], null);
  for (const name of ["tidepool", "skiff", "halyard"]) yield [name, own(name)];
  const sheet = { outline: null, grain: "x", count: null, price: null, keepOuts: [] } as const;
  const stock: Stock = { ...sheet, id: "1525x1525", material: "birch", size: [1525, 1525] };
  yield ["five cases", caseJob(["tidepool", "halyard", "skiff", "tidepool", "halyard"], stock)];
}

/** The parts of some samples as one job; from one stock if given, else from the first design's sheets. */
function caseJob(names: readonly string[], stock: Stock | null): NestJob {
  const designs = names.map((name) => {
    const read = readDesign(
      readFileSync(new URL(`../../samples/${name}.yaml`, import.meta.url), "utf8"),
      name,
    );
    if (!read.ok) throw new RangeError(`${name} cannot be read`);
    return read.value;
  });
  const [{ sheet, cutter }] = designs as [(typeof designs)[number]];
  const parts = designs.flatMap((design, k) =>
    recipe(design).parts.map(
      (part): Part => (stock ? { ...part, id: `${k + 1}-${part.id}`, material: stock.material } : part),
    ),
  );
  const stocks = sheet.sizes.map(
    ({ id, size, grain, count, price }): Stock => ({
      ...{ id, material: sheet.name, size, outline: null, grain, count, price, keepOuts: [] },
    }),
  );
  const rules = { spacing: cutter + sheet.web, margin: sheet.margin };
  return { parts, stocks: stock ? [stock] : stocks, rules, seed: 1 };
}

function share(job: NestJob, { sheets }: Layout): string {
  const wood = areaOf(job.parts.map(({ outline }) => ({ outer: outline, holes: [] })));
  const whole = sheets.reduce((sum, { stock }) => sum + stock.size[0] * stock.size[1], 0);
  return ((100 * wood) / whole).toFixed(1);
}

function rest(job: NestJob, layout: Layout): string {
  const [largest] = offcutsOf(job, layout);
  return largest ? `${Math.round(largest.w)} × ${Math.round(largest.h)}` : "none";
}
