import { judgeDxf, readDxf } from "@dryfit/dxf";
import { areaOf, CUT_MM, differenceFlat, lengthOf, type Region, regionsOf } from "@dryfit/geometry";
import { stepBudget } from "@dryfit/nest";
import type { SolidKernel } from "@dryfit/verify";
import { z } from "zod";
import { makeTemplates, type TemplatesMade } from "./make-templates.ts";
import type { BenchFinding, TextFile } from "./templates-job.ts";

/**
 * A folder of templates against the design and tools that lie in it: they are worked out again, and what was
 * changed since is told. A drawing that no longer cuts its template is an error, a paper's other words are not.
 */
export async function checkTemplates(
  folder: readonly TextFile[],
  kernel?: SolidKernel,
): Promise<TemplatesMade> {
  const textOf = (name: string): string | undefined => folder.find(({ file }) => file === name)?.text;
  const manifest = readManifest(textOf("job.json") ?? "");
  if (manifest === null)
    return unread([told("not_our_job", "job.json", "This job.json is not one that dryfit wrote.")]);
  const files = ["design.yaml", "tools.yaml", ...manifest.files.map(({ file }) => file)];
  const missing = [...new Set(files)].filter((name) => textOf(name) === undefined);
  if (missing.length > 0)
    return unread(missing.map((file) => told("file_missing", file, `${file} is not in the folder.`)));
  const prices = textOf("prices.yaml");
  const input = {
    design: { file: "design.yaml", text: textOf("design.yaml")! },
    tools: { file: "tools.yaml", text: textOf("tools.yaml")! },
    drawings: folder,
    prices: prices === undefined ? null : { file: "prices.yaml", text: prices },
    work: manifest.work,
    paper: manifest.paper,
    measured: manifest.measured,
    version: manifest.tool.version,
    sawBudget: stepBudget(manifest.sawSteps),
  };
  const made = await makeTemplates(input, kernel);
  if (made.outcome !== "made") return made;
  const changes = made.files
    .filter(({ file }) => file !== "job.json")
    .flatMap(({ file, text }) => {
      const found = textOf(file);
      if (found === undefined) return [told("file_missing", file, `${file} is not in the folder.`)];
      return found === text ? [] : changed(file, found, text);
    });
  const findings = [...made.findings, ...changes];
  const wrong = changes.some(({ severity }) => severity === "error");
  return wrong ? { outcome: "disproved", files: [], job: null, findings } : { ...made, findings };
}

const manifestShape = z.looseObject({
  kind: z.literal("templates"),
  tool: z.looseObject({ name: z.literal("dryfit"), version: z.string() }),
  work: z.enum(["case", "coupon"]),
  paper: z.enum(["a4", "a3", "letter"]),
  measured: z.object({ x: z.number(), y: z.number() }),
  sawSteps: z.number(),
  files: z.array(z.object({ file: z.string(), sha256: z.string() })),
});

function readManifest(text: string): z.infer<typeof manifestShape> | null {
  try {
    const read = manifestShape.safeParse(JSON.parse(text));
    return read.success ? read.data : null;
  } catch {
    return null;
  }
}

/** A drawing is judged by what it cuts; any other file only by its letters. */
function changed(file: string, found: string, expected: string): readonly BenchFinding[] {
  const note = told("file_changed", file, `${file} was changed since it was made.`, "warning");
  if (!file.endsWith(".dxf")) return [note];
  const judged = judgeDxf(found, { file }).map((one): BenchFinding => ({ ...one, at: null }));
  const [a, b] = [cutBy(found), cutBy(expected)];
  const off = areaOf(differenceFlat(a, b)) + areaOf(differenceFlat(b, a));
  const slack =
    CUT_MM *
    b.reduce((sum, { outer, holes }) => sum + [outer, ...holes].reduce((s, l) => s + lengthOf(l), 0), 0);
  if (off <= slack) return [note, ...judged];
  return [
    ...judged,
    told(
      "template_changed",
      file,
      `${file} no longer cuts the template that this design and these tools ask for.`,
    ),
  ];
}

function cutBy(text: string): readonly Region[] {
  const loops = readDxf(text).loops.filter(({ layer }) => layer.startsWith("THROUGH_"));
  return regionsOf(loops.map(({ loop }) => loop));
}

function unread(findings: readonly BenchFinding[]): TemplatesMade {
  return { outcome: "unreadable", files: [], job: null, findings };
}

function told(
  code: string,
  path: string,
  message: string,
  severity: BenchFinding["severity"] = "error",
): BenchFinding {
  return {
    code,
    severity,
    path,
    message,
    numbers: {},
    wayOut:
      severity === "error" ? "Make the folder again with dryfit templates." : "What was made is as it was.",
    at: null,
  };
}
