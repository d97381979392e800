import { stepBudget } from "@dryfit/nest";
import { z } from "zod";
import { changedFile, foundFolder, told } from "./check-folder.ts";
import { makeSawPlan, type SawMade, sawCase } from "./make-saw-plan.ts";
import { blankOf } from "./saw-plan.ts";
import { replaySaw } from "./saw-replay.ts";
import type { TextFile } from "./templates-job.ts";

/**
 * A folder with a saw plan, sawn again from its own list: what falls must be the blanks of the design that lies in it.
 * A paper that was changed since is told.
 */
export function checkSawPlan(folder: readonly TextFile[]): SawMade {
  const found = foundFolder(folder, manifestShape, ["design.yaml"], "saw");
  if (!("manifest" in found)) return { outcome: "unreadable", files: [], job: null, findings: found };
  const { manifest, textOf } = found;
  const design = { file: "design.yaml", text: textOf("design.yaml")! };
  const { rules, tool, sheets } = manifest;
  const budget = stepBudget(manifest.steps);
  const made = makeSawPlan({ design, drawings: folder, rules, version: tool.version, budget });
  const read = sawCase({ design, drawings: folder, rules, version: tool.version });
  if (made.outcome !== "made" || !("assembly" in read)) return made;
  const blanks = read.assembly.parts.map(blankOf);
  const fallen = new Set(sheets.flatMap((sheet) => sheet.blanks.map(({ id }) => id)));
  const wrong = [
    ...sheets.flatMap((sheet) => replaySaw(sheet, blanks, rules).map((fault) => `${sheet.id}: ${fault}`)),
    ...blanks.filter(({ id }) => !fallen.has(id)).map(({ id }) => `${id} is sawn from no sheet`),
  ].map((fault) => told("saw_plan_wrong", "job.json", `${fault[0]!.toUpperCase()}${fault.slice(1)}.`));
  const changed = made.files
    .filter(({ file, text }) => file !== "job.json" && textOf(file) !== text)
    .map(({ file }) => changedFile(file));
  const findings = [...made.findings, ...wrong, ...changed];
  return wrong.length > 0 ? { outcome: "disproved", files: [], job: null, findings } : { ...made, findings };
}

const number = z.number();
const box = { x: number, y: number, w: number, h: number };
const board = z.looseObject({ ...box, name: z.string(), blank: z.string().nullable() });
const cut = z.looseObject({
  ...{ stage: number, grain: z.enum(["along", "across"]), board: z.string(), axis: z.enum(["x", "y"]) },
  ...{ at: number, setting: number, near: board.nullable(), far: board.nullable() },
});
const manifestShape = z.looseObject({
  kind: z.literal("saw-plan"),
  tool: z.looseObject({ name: z.literal("dryfit"), version: z.string() }),
  rules: z.object({ kerf: number, trim: number, stages: number }),
  steps: number,
  sheets: z.array(
    z.looseObject({
      id: z.string(),
      size: z.tuple([number, number]),
      blanks: z.array(z.looseObject({ ...box, id: z.string(), turned: z.boolean() })),
      cuts: z.array(cut),
    }),
  ),
  files: z.array(z.object({ file: z.string(), sha256: z.string() })),
});
