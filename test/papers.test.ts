import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { makeTemplates } from "@dryfit/bench";
import { type Job, makeBatch, makeJob, makeOrder, type OutFile, SHIPPED_SERVICES } from "@dryfit/job";
import type { FinishPlan } from "@dryfit/joinery";
import { describe, expect, test } from "vitest";

const read = (file: string): OutFile => ({
  file,
  text: readFileSync(new URL(`../samples/${file}`, import.meta.url), "utf8"),
});
const prices = read("shop/prices.yaml");
const shop = { machine: null, cutters: null, prices, version: "0" };

/** A PDF's words as a reader of PDF files finds them, page by page. */
function pagesOf({ text }: OutFile): readonly string[] {
  const words = execFileSync("pdftotext", ["-layout", "-", "-"], { input: text, encoding: "utf8" });
  return words.split("\f").slice(0, -1);
}

function plain(words: string): string {
  return words.replace(/\s+/g, " ");
}

/** A page's words without its drawings' and its style's. */
function wordsOfPage({ text }: OutFile): string {
  const words = text
    .replace(/<style>.*?<\/style>|<svg.*?<\/svg>/gs, " ")
    .replace(/<[^>]+>/g, " ")
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&quot;", '"')
    .replaceAll("&amp;", "&");
  return plain(words);
}

function fileIn(files: readonly OutFile[], name: string): OutFile {
  const found = files.find(({ file }) => file === name);
  if (!found) throw new Error(`${name} is not in ${files.map(({ file }) => file).join(", ")}`);
  return found;
}

/** The build sheet as a page and in print: both must tell the same figures. */
function sheetsIn(files: readonly OutFile[], folder = ""): readonly string[] {
  return [
    wordsOfPage(fileIn(files, `${folder}build-sheet.html`)),
    plain(pagesOf(fileIn(files, `${folder}build-sheet.pdf`)).join(" ")),
  ];
}

/** As papers print figures: no more decimals than asked, no noughts at the end. */
const figure = (value: number, decimals: number): string => String(Number(value.toFixed(decimals)));

/** Every file that we wrote, page by page where it has pages; what the maker wrote is as it was. */
function checkRevision(files: readonly OutFile[], revision: string): void {
  expect(revision).toMatch(/^[0-9a-f]{8}$/);
  const written = files.filter(({ file }) => !/\.ya?ml$/.test(file));
  expect(written.length).toBeGreaterThan(3);
  for (const one of written)
    for (const [i, page] of (one.file.endsWith(".pdf") ? pagesOf(one) : [one.text]).entries())
      expect(plain(page), `${one.file}, page ${i + 1}`).toContain(revision);
}

interface Spent {
  readonly weightKg: number | null;
  readonly cost: Job["cost"];
  readonly finish: FinishPlan | null;
}

/** What the case weighs, what it costs line by line, what goes on its wood. */
function checkSpent(sheet: string, { weightKg, cost, finish }: Spent): void {
  expect(sheet).toContain(`The bare case weighs about ${figure(weightKg!, 1)} kg.`);
  for (const { what, amount, unit, each, sum } of cost!.lines)
    expect(sheet).toContain(
      `${what} ${[figure(amount, 2), unit].filter(Boolean).join(" ")} ${each.toFixed(2)} EUR ${sum.toFixed(2)} EUR`,
    );
  expect(sheet).toContain(`Together ${cost!.total.toFixed(2)} EUR`);
  expect(finish!.lines.length).toBeGreaterThan(0);
  for (const { what, coats, edgeCoats, area, squareMetresPerLitre, litres, hours } of finish!.lines)
    expect(sheet).toContain(
      [what, coats, edgeCoats, figure(area, 2), squareMetresPerLitre, figure(litres, 2), hours].join(" "),
    );
}

/** The rows of the joints' table, in the job's order. */
function checkJoints(sheet: string, joints: Job["joints"]): void {
  const from = sheet.indexOf("Joints, as the parts will be cut");
  const rows = sheet.slice(from, sheet.indexOf("Order of assembly", from)).match(JOINT_ROW);
  expect(joints.length).toBeGreaterThan(0);
  expect(rows).toEqual(
    joints.map(({ sideClearance: { min, max }, endGap, shoulderGap, interference }) => {
      const air = max - min < 0.005 ? figure(min, 3) : `${figure(min, 3)} to ${figure(max, 3)}`;
      expect(interference).toBe(0);
      return `${air} ${figure(endGap, 3)} ${figure(shoulderGap, 3)} none`;
    }),
  );
}

const JOINT_ROW = /-?[\d.]+(?: to -?[\d.]+)? -?[\d.]+ -?[\d.]+ none/g;

type Sized = readonly { readonly id: string; readonly size: readonly [number, number] }[];

/** A line of the cut list: no figure with a point stands between a part's name and its count. */
function lineOf(id: string, x: string, y: string): RegExp {
  return new RegExp(` ${id}(?![a-z0-9-])[a-z0-9, /-]* (\\d+) ${x} ${y} `.replaceAll(".", "\\."));
}

/** Each part's finished size, on the line of the cut list that names it, and how many there are of it. */
function checkSizes(sheet: string, parts: Sized): void {
  const list = sheet.slice(sheet.indexOf("Cut list, finished sizes"), sheet.indexOf("Sizes are over all"));
  let counted = 0;
  for (const { id, size } of parts) {
    const [x, y] = size.map((mm) => figure(mm, 2));
    const named = lineOf(id, x!, y!);
    expect(list).toMatch(named);
    counted += 1 / Number(named.exec(list)![1]);
  }
  // As many lines as the shares of each part's line come to: no part is told twice, none left out.
  expect(counted).toBeCloseTo((list.match(/ \d+ [\d.]+ [\d.]+ [\d.]+ (x|y|free) /g) ?? []).length, 6);
}

/** Each program's file, face, extents, deepest Z, tabs and minutes, and the minutes of all. */
function checkPrograms(sheet: string, { sheets }: Pick<Job, "sheets">): void {
  const programs = sheets.flatMap(({ programs }) => programs);
  const minutes = programs.reduce((sum, program) => sum + program.minutes, 0);
  expect(sheet).toContain(`about ${figure(minutes, 0)} min of cutting`);
  for (const { file, setup, zZero, extents, deepest, tabs, minutes } of programs) {
    const name = file.replace("gcode/", "");
    const span = ([least, most]: readonly [number, number]) => `${figure(least, 1)} to ${figure(most, 1)}`;
    const figures = [span(extents.x), span(extents.y), figure(deepest, 2), tabs.length, figure(minutes, 1)];
    const ends = `${zZero} ${figures.join(" ")}`.replaceAll(".", "\\.");
    expect(sheet).toMatch(new RegExp(`${name} ${setup} [^:]*? ${ends}(?= |$)`));
    expect(sheet).toContain(
      `run ${name}: ${figure(minutes, minutes < 10 ? 1 : 0)} min, deepest Z ${figure(deepest, 2)}.`,
    );
  }
}

/** The sums of the worked example (tidepool's inside, its sheet and its joint), done here once more by hand. */
const WORKED: readonly (readonly [string, number, number])[] = (() => {
  const [w, d, front, back, t, l] = [540, 336, 46, 122, 14.8, 6.8];
  const [slat, gap, level, air, dropBack] = [52, 28, 62, 1, 34];
  const tier = 3 * slat + 2 * gap;
  return [
    ["cheek-left", d + 2 * t, back + t + dropBack], // 365.6 × 170.8
    ["base", w + 2 * l, d + 2 * l], // 553.6 × 349.6
    ["rail-front", w + 2 * l, front + t], // 553.6 × 60.8
    ["rail-back", w + 2 * l, back + t], // 553.6 × 136.8
    ["slat-1", w - 2 * air, slat], // 538 × 52
    ["bearer-1", tier, level - t - air], // 212 × 46.2, felt under its feet
  ];
})();

/** Each case is made once, when the first test asks for it. */
function makeOnce(name: string): ReturnType<typeof makeJob> {
  const making = made.get(name) ?? makeJob({ design: read(`${name}.yaml`), ...shop });
  made.set(name, making);
  return making;
}

const made = new Map<string, ReturnType<typeof makeJob>>();

/** What is made at the first call, however many there are. */
function once<T>(make: () => Promise<T>): () => Promise<T> {
  let making: Promise<T> | null = null;
  return () => {
    making ??= make();
    return making;
  };
}

const SAMPLES = ["tidepool", "skiff", "halyard", "lantern"] as const;

describe.each(SAMPLES)("%s on a router of one's own", (name) => {
  test("has a build sheet whose figures are its job.json's", async () => {
    const { files } = await makeOnce(name);
    const job: Job = JSON.parse(fileIn(files, "job.json").text);
    for (const sheet of sheetsIn(files)) {
      checkSizes(sheet, job.parts);
      checkPrograms(sheet, job);
      checkJoints(sheet, job.joints);
      checkSpent(sheet, job);
      const programs = job.sheets.flatMap(({ programs }) => programs);
      checkTime(
        sheet,
        `Cutting, ${programs.length} program${programs.length === 1 ? "" : "s"}`,
        programs.reduce((sum, { minutes }) => sum + minutes, 0),
      );
    }
  });
  test("bears one revision on every page and file", async () => {
    const { files, job } = await makeOnce(name);
    checkRevision(files, job!.revision);
  });
});

/** Minutes of the time's table, as the steps or the programs come to them. */
function checkTime(sheet: string, what: string, minutes: number): void {
  expect(sheet).toContain(`${what} ${figure(minutes, 0)} `);
}

type Timed = readonly { readonly id: string; readonly minutes: number; readonly instead?: true }[];

/** Of hand steps that are counted: what is another way to the same cut is not. */
function minutesBy(steps: Timed, of: (id: string) => boolean): number {
  return steps.filter(({ id, instead }) => !instead && of(id)).reduce((sum, { minutes }) => sum + minutes, 0);
}

describe.each(["tidepool", "skiff", "halyard"])("%s by hand, with templates", (name) => {
  const making = once(() =>
    makeTemplates({
      design: read(`${name}.yaml`),
      tools: read("shop/hand-router.yaml"),
      prices,
      paper: "a4",
      measured: { x: 100, y: 100 },
      version: "0",
    }),
  );
  test("has a build sheet whose figures are its job.json's", async () => {
    const { files } = await making();
    const job = JSON.parse(fileIn(files, "job.json").text);
    for (const sheet of sheetsIn(files)) {
      checkJoints(sheet, job.joints);
      checkSpent(sheet, job);
      const isSawn = (id: string): boolean => id.startsWith("saw-");
      checkTime(sheet, "Sawing", minutesBy(job.steps, isSawn));
      checkTime(
        sheet,
        "Routing and drilling",
        minutesBy(job.steps, (id) => !isSawn(id)),
      );
      for (const { minutes } of job.steps) expect(sheet).toContain(`About ${minutes} min`);
      for (const { id, offset, cutter } of job.templates) {
        expect(sheet).toContain(id);
        expect(sheet).toContain(`${cutter.id}, `);
        // One design is in inches.
        if (name !== "halyard") expect(sheet).toContain(`${figure(offset, 2)} mm`);
      }
    }
    if (name === "tidepool") for (const sheet of sheetsIn(files)) checkLines(sheet, WORKED);
  });
  test("bears one revision on every page and file", async () => {
    const { files, job } = await making();
    checkRevision(files, job!.revision);
  });
});

describe.each([
  ["tidepool", "router"],
  ["halyard", "router"],
  ["lantern", "laser"],
] as const)("%s ordered from a %s's service", (name, kind) => {
  const service = SHIPPED_SERVICES[kind];
  const making = once(() => makeOrder({ design: read(`${name}.yaml`), service, prices, version: "0" }));
  test("has a build sheet whose figures are its job.json's", async () => {
    const { files } = await making();
    const job = JSON.parse(fileIn(files, "job.json").text);
    for (const sheet of sheetsIn(files, "keep/")) {
      checkSizes(sheet, job.parts);
      checkJoints(sheet, job.joints);
      checkSpent(sheet, job);
      const { metres, contours, minutes } = job.cutting;
      expect(sheet).toContain(`about ${minutes} min of the service's machine`);
      expect(sheet).toContain(`${metres} m in ${contours} contours`);
      for (const { file, count, parts } of job.drawings)
        expect(sheet.replaceAll(/- /g, "-")).toContain(`${file} ${count} ${parts[0]}`.replaceAll(/- /g, "-"));
    }
  });
  test("bears one revision on every page and file", async () => {
    const { files, job } = await making();
    checkRevision(files, job!.revision);
  });
});

describe("two cases in one batch", () => {
  const text = "batch: 1\nname: pair\ncases:\n  - { design: tidepool.yaml }\n  - { design: weir.yaml }\n";
  const tidepool = read("tidepool.yaml");
  const weir = { file: "weir.yaml", text: tidepool.text.replace("width: 540", "width: 420") };
  const designs = [tidepool, weir].map((design) => ({ design, drawings: [] }));
  const making = once(() => makeBatch({ ...shop, batch: { file: "pair.yaml", text }, designs }));
  test("have build sheets whose figures are the job.json's, and share its sheets' price and time", async () => {
    const { files } = await making();
    const job = JSON.parse(fileIn(files, "job.json").text);
    for (const one of job.cases)
      for (const sheet of sheetsIn(files, `cases/${one.id}/`)) {
        const sizes = job.parts.filter(({ id }: { id: string }) => one.parts.includes(id));
        checkSizes(sheet, sizes);
        checkJoints(sheet, one.joints);
        checkSpent(sheet, one);
      }
    const hours = job.cases.flatMap(({ cost }: Spent) =>
      cost!.lines.filter(({ what }) => what === "Machine"),
    );
    const minutes = job.sheets.flatMap(({ programs }: Job["sheets"][number]) =>
      programs.map((p) => p.minutes),
    );
    const all = minutes.reduce((sum: number, one: number) => sum + one, 0) / 60;
    expect(hours.reduce((sum: number, { amount }: { amount: number }) => sum + amount, 0)).toBeCloseTo(
      all,
      1,
    );
  });
  test("bear one revision on every page and file", async () => {
    const { files, job } = await making();
    checkRevision(files, job!.revision);
  });
});

/** Part, x and y as the cut list's line has them. */
function checkLines(sheet: string, lines: typeof WORKED): void {
  for (const [id, x, y] of lines) expect(sheet).toMatch(lineOf(id, figure(x, 2), figure(y, 2)));
}

describe("the checks themselves", () => {
  test("tell a figure that is not the job's, wherever it stands", async () => {
    const { files, job } = await makeOnce("skiff");
    const [sheet] = sheetsIn(files);
    const { parts, sheets, joints } = job!;
    const wider = parts.map((part, i) =>
      i > 0 ? part : { ...part, size: [part.size[0] + 0.01, part.size[1]] as const },
    );
    expect(() => checkSizes(sheet!, wider)).toThrow();
    expect(() => checkSizes(sheet!, parts.slice(1))).toThrow();
    const deeper = sheets.map((one) => ({
      ...one,
      programs: one.programs.map((program) => ({ ...program, deepest: program.deepest - 0.01 })),
    }));
    expect(() => checkPrograms(sheet!, { sheets: deeper })).toThrow();
    expect(() =>
      checkJoints(sheet!, [{ ...joints[0]!, endGap: joints[0]!.endGap + 0.001 }, ...joints.slice(1)]),
    ).toThrow();
    expect(() => checkSpent(sheet!, { ...job!, weightKg: job!.weightKg! + 0.1 })).toThrow();
    expect(() =>
      checkSpent(sheet!, { ...job!, cost: { ...job!.cost!, total: job!.cost!.total + 0.01 } }),
    ).toThrow();
    expect(() => checkRevision(files, "00000000")).toThrow();
  });
});

test("tidepool's cut list is the worked example's", async () => {
  const { files } = await makeOnce("tidepool");
  for (const sheet of sheetsIn(files)) checkLines(sheet, WORKED);
});
