import { judgeDxf, readDxf } from "@dryfit/dxf";
import { areaOf, CUT_MM, differenceFlat, lengthOf, type Region, regionsOf } from "@dryfit/geometry";
import { stepBudget } from "@dryfit/nest";
import type { SolidKernel } from "@dryfit/verify";
import { z } from "zod";
import { again, changedFile, foundFolder, told } from "./check-folder.ts";
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
  const found = foundFolder(folder, manifestShape, ["design.yaml", "tools.yaml"], "templates");
  if (!("manifest" in found)) return { outcome: "unreadable", files: [], job: null, findings: found };
  const { manifest, textOf } = found;
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
      if (found === undefined)
        return [told("file_missing", file, `${file} is not in the folder.`, again("templates"))];
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

/** A drawing is judged by what it cuts; any other file only by its letters. */
function changed(file: string, found: string, expected: string): readonly BenchFinding[] {
  const note = changedFile(file);
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
      again("templates"),
    ),
  ];
}

function cutBy(text: string): readonly Region[] {
  const loops = readDxf(text).loops.filter(({ layer }) => layer.startsWith("THROUGH_"));
  return regionsOf(loops.map(({ loop }) => loop));
}
