import { readFileSync } from "node:fs";
import { type BenchFinding, checkSawPlan, makeSawPlan, type SawMade } from "@dryfit/bench";
import { expect, test } from "vitest";

const RULES = { kerf: 2.4, trim: 10, stages: 3 };

function planned(name: string, change = (text: string) => text, rules = RULES): SawMade {
  const text = readFileSync(new URL(`../../../samples/${name}.yaml`, import.meta.url), "utf8");
  return makeSawPlan({ design: { file: `${name}.yaml`, text: change(text) }, rules, version: "0" });
}

function codes(findings: readonly BenchFinding[]): string[] {
  return findings.filter(({ severity }) => severity === "error").map(({ code, path }) => `${code} ${path}`);
}

for (const name of ["tidepool", "skiff", "halyard", "lantern"])
  test(`${name} has a saw plan: a paper, a drawing for each sheet, the same bytes the second time`, () => {
    const made = planned(name);
    expect(made.outcome).toBe("made");
    const sheets = made.job!.sheets.map(({ id }) => `saw/${id}.svg`);
    const papers = ["design.yaml", "saw-plan.html", ...sheets];
    expect(made.files.map(({ file }) => file)).toEqual(["job.json", ...papers]);
    expect(made.job!.files.map(({ file }) => file)).toEqual(papers);
    expect(planned(name)).toEqual(made);
  });

test("tidepool's base and rails fall from one strip, one after the other", () => {
  const { job } = planned("tidepool");
  const { cuts } = job!.sheets[0]!;
  const from = (id: string) => cuts.find(({ near }) => near?.name === id)!.board;
  expect(new Set(["base", "rail-front", "rail-back"].map(from)).size).toBe(1);
  expect(cuts.find(({ near }) => near?.name === from("base"))!.setting).toBe(553.6);
});

test("every cut stands in the paper, with what is left of its board", () => {
  const { files, job } = planned("tidepool");
  const paper = files.find(({ file }) => file === "saw-plan.html")!.text;
  const { cuts } = job!.sheets[0]!;
  expect(paper.match(/<tr><td>\d+<\/td>/g)).toHaveLength(cuts.length);
  expect(paper).toContain("A, 553.6 × 248");
});

test("inches are written with millimetres behind them", () =>
  expect(planned("halyard").files.find(({ file }) => file === "saw-plan.html")!.text).toMatch(
    /22.4375″ \(569.9 mm\)|22 7\/16″ \(569.9 mm\)/,
  ));

test("a sheet too small for a blank once it is trimmed is told, and nothing is made", () => {
  const made = planned("tidepool", (text) => text.replace("[1220, 610]", "[575, 575]"), {
    ...RULES,
    trim: 12,
  });
  expect([made.outcome, made.files, codes(made.findings)]).toEqual([
    "cannot",
    [],
    ["part_larger_than_sheet base", "part_larger_than_sheet rail-front", "part_larger_than_sheet rail-back"],
  ]);
});

test("a design that cannot be read is told by line", () => {
  const made = planned("tidepool", (text) => text.replace("width: 540", "width: wide"));
  expect([made.outcome, made.findings[0]?.at?.line]).toEqual(["unreadable", 9]);
});

function checked(change: (job: string) => string): string[] {
  const { files } = planned("tidepool");
  const { outcome, findings } = checkSawPlan(
    files.map(({ file, text }) => ({ file, text: file === "job.json" ? change(text) : text })),
  );
  return [outcome, ...findings.filter(({ severity }) => severity !== "note").map(({ message }) => message)];
}

test("a folder is sawn again from its own list", () => expect(checked((job) => job)).toEqual(["made"]));

test("a setting that was changed by hand saws a board too short", () =>
  expect(checked((job) => job.replace('"at": 563.6', '"at": 562.6'))).toEqual(
    expect.arrayContaining(["disproved", "Sheet-1: cut 3 does not give A as it says."]),
  ));

test("a blank that is lost from the list is told", () =>
  expect(checked((job) => job.replaceAll('"rail-front"', '"rail-lost"'))).toEqual(
    expect.arrayContaining(["disproved", "Rail-front is sawn from no sheet."]),
  ));

test("what is no list of ours is told", () =>
  expect(checked(() => "{}")).toEqual(["unreadable", "This job.json is not one that dryfit wrote."]));
