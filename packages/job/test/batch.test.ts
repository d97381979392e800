import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { readBatch } from "../src/batch/batch-file.ts";
import { checkBatch } from "../src/batch/check-batch.ts";
import { type BatchInput, designsOf, makeBatch } from "../src/batch/make-batch.ts";

const tidepool = readFileSync(new URL("../../../samples/tidepool.yaml", import.meta.url), "utf8");
const narrow = tidepool.replace("width: 540", "width: 420").replace("name: tidepool", "name: weir");

const PAIR = `batch: 1
name: pair
thickness: [14.7, 14.8]
cases:
  - { design: cases/tidepool.yaml }
  - { design: cases/weir.yaml }
`;

function input(text: string, designs: Readonly<Record<string, string>>): BatchInput {
  return {
    batch: { file: "pair.yaml", text },
    designs: Object.entries(designs).map(([file, text]) => ({ design: { file, text }, drawings: [] })),
    machine: null,
    cutters: null,
    version: "0",
  };
}

function problemsOf(text: string): readonly string[] {
  const read = readBatch(text, "pair.yaml");
  return read.ok ? [] : read.problems.map(({ line, column, allowed }) => `${line}:${column} ${allowed}`);
}

test("copies of one design are counted through, wherever they stand", () => {
  const read = readBatch(
    "batch: 1\nname: spring\ncases:\n  - { design: a/reef.yaml, copies: 2 }\n  - { design: weir.yaml }\n  - { design: b/reef.yaml }\n",
    "spring.yaml",
  );
  expect(read.ok && read.value.cases.map(({ id }) => id)).toEqual(["reef-1", "reef-2", "weir", "reef-3"]);
});

test("each design is asked for once", () =>
  expect(
    designsOf({ file: "b.yaml", text: PAIR.replace("weir", "tidepool").replace("tidepool", "tidepool") }),
  ).toEqual(["cases/tidepool.yaml"]));

test("no copies, a name with a slash and a sheet of nothing are each told at their place", () =>
  expect(
    problemsOf("batch: 1\nname: a/b\nthickness: 0\ncases:\n  - { design: x.yaml, copies: 0 }\n"),
  ).toEqual([
    "2:7 a name of up to 40 letters, digits, - and _",
    "3:12 a thickness from 3 to 40 mm",
    "5:31 how many, a whole number from 1 to 50",
  ]));

test("two cases are made as one job, each stood up by itself, and proved again from the folder", async () => {
  const designs = { "cases/tidepool.yaml": tidepool, "cases/weir.yaml": narrow };
  const made = await makeBatch(input(PAIR, designs));
  expect(made.outcome).toBe("made");
  const { cases, parts, verification, sheets } = made.job!;
  expect(cases.map(({ id }) => id)).toEqual(["tidepool", "weir"]);
  expect(parts).toHaveLength(24);
  expect(verification).toMatchObject({ pass: true });
  expect(cases.flatMap(({ joints }) => joints.map(({ interference }) => interference))).toEqual(
    Array.from({ length: 16 }, () => 0),
  );
  for (const { joints } of cases)
    for (const { shoulderGap } of joints) expect(Math.abs(shoulderGap)).toBeLessThanOrEqual(0.01);
  // What was cut is parted over the cases, nothing lost.
  const minutes = sheets
    .flatMap(({ programs }) => programs)
    .reduce((sum, program) => sum + program.minutes, 0);
  expect(cases.reduce((sum, one) => sum + one.minutes, 0)).toBeCloseTo(minutes, 2);
  // The batch's own thickness stands in each design of the folder.
  const design = made.files.find(({ file }) => file === "cases/weir/design.yaml")!;
  expect(design.text).toBe(narrow.replace("thickness: 14.8", "thickness: [14.7 mm, 14.8 mm]"));
  const checked = await checkBatch(made.files);
  expect(checked.outcome).toBe("made");
  expect(checked.job!.verification.pass).toBe(true);
  expect(checked.job!.cases.map(({ order }) => order)).toEqual(cases.map(({ order }) => order));
});

test("cases of two thicknesses cannot share a sheet", async () => {
  const thin = narrow.replace("thickness: 14.8", "thickness: 12").replace("thickness: 7,", "thickness: 6,");
  const made = await makeBatch(
    input(PAIR.replace(/thickness.*\n/, ""), { "cases/tidepool.yaml": tidepool, "cases/weir.yaml": thin }),
  );
  expect(made.outcome).toBe("cannot");
  expect(made.findings.map(({ code }) => code)).toContain("batch_sheets_differ");
});

test("a design that cannot be read is told once, however many copies are wanted", async () => {
  const text = PAIR.replace("weir.yaml }", "weir.yaml, copies: 3 }");
  const designs = {
    "cases/tidepool.yaml": tidepool,
    "cases/weir.yaml": narrow.replace("width: 420", "width: -1"),
  };
  const made = await makeBatch(input(text, designs));
  expect(made.outcome).toBe("unreadable");
  expect(made.findings.map(({ at }) => at?.file)).toEqual(["cases/weir.yaml"]);
});
