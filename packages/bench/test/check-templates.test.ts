import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { checkTemplates, makeTemplates, type TemplatesMade, type TextFile } from "../src/index.ts";

const sample = (file: string): TextFile => ({
  file,
  text: readFileSync(new URL(`../../../samples/${file}`, import.meta.url), "utf8"),
});

const made = await makeTemplates({
  design: sample("skiff.yaml"),
  tools: sample("shop/hand-router.yaml"),
  paper: "a3",
  measured: { x: 100, y: 100 },
  version: "0",
});

function check(change: (file: TextFile) => TextFile | null): Promise<TemplatesMade> {
  return checkTemplates(made.files.flatMap((file) => change(file) ?? []));
}

function codes({ findings }: TemplatesMade) {
  return findings.flatMap(({ code, severity }) => (severity === "note" ? [] : [code]));
}

const inFile = (name: RegExp, edit: (text: string) => string) => (file: TextFile) =>
  name.test(file.file) ? { ...file, text: edit(file.text) } : file;

describe("a folder of templates", () => {
  test("passes as it was made", async () => {
    const again = await check((file) => file);
    expect(again.outcome).toBe("made");
    expect(codes(again)).toEqual(codes({ ...again, findings: made.findings }));
  });

  test("tells of a paper that was changed, and proves the rest", async () => {
    const again = await check(inFile(/settings\.pdf/, (text) => `${text} `));
    expect(again.outcome).toBe("made");
    expect(codes(again)).toContain("file_changed");
  });

  test("does not pass where a drawing no longer cuts its template", async () => {
    // The right edge, a centimetre off.
    const again = await check(
      inFile(/housing-level\.dxf/, (text) => text.replaceAll("\n258.4\n", "\n268.4\n")),
    );
    expect(again.outcome).toBe("disproved");
    expect(codes(again)).toContain("template_changed");
  });

  test("names a file that is gone, and a job.json that is none of ours", async () => {
    expect(codes(await check((file) => (/settings/.test(file.file) ? null : file)))).toEqual([
      "file_missing",
    ]);
    expect(codes(await check(inFile(/job\.json/, () => "[]")))).toEqual(["not_our_job"]);
  });
});
