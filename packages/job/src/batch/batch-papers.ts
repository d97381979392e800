import {
  type BuildSheetData,
  buildSheetFiles,
  cuttingSheetFiles,
  MACHINE_RISKS,
  machineWords,
  paragraph,
  section,
  table,
} from "@dryfit/drawing";
import type { OutFile } from "../outfile.ts";
import type { BatchCase } from "./make-batch.ts";

/** A case's own build sheet: its sheets are shared, so the batch's cutting sheet has them, and its parts are found there. */
export function casePapers(
  { id, assembly }: BatchCase,
  told: BuildSheetData,
  minutes: number,
): readonly OutFile[] {
  const lies = (part: string): string => told.sheets.find(({ parts }) => parts.includes(part))?.id ?? "";
  const own = new Set(assembly.parts.map((part) => part.id));
  const found = section(
    "on-sheets",
    "Where its parts lie",
    paragraph(
      "cutting-sheet.html, beside the cases' folder, has the sheets with their setups and programs. Collect the parts as they come off the machine, and put a label on each.",
    ),
    table(
      [{ title: "sheet" }, { title: "parts" }],
      told.sheets.map((sheet) => [sheet.id, sheet.parts.filter((part) => own.has(part)).join(", ")]),
    ),
  );
  return buildSheetFiles({
    ...told,
    sheets: [],
    programs: [],
    making: {
      by: `the batch, ${[...new Set(assembly.parts.map((part) => lies(part.id)))].sort().join(", ")}`,
      sections: found ? [found] : [],
      cautions: machineWords,
      time: [
        {
          what: "Cutting, its share",
          minutes,
          waitingHours: 0,
          by: "the batch's programs by the area of its parts; setups are the batch's",
        },
      ],
      risks: MACHINE_RISKS,
    },
  }).map(({ file, text }) => ({ file: `cases/${id}/${file}`, text }));
}

/** The paper for the machine: every sheet of the batch with its setups and programs. */
export function sheetPapers(
  name: string,
  cases: readonly BatchCase[],
  told: Omit<Parameters<typeof cuttingSheetFiles>[0], "name" | "cases">,
): readonly OutFile[] {
  return cuttingSheetFiles({ ...told, name, cases: cases.map(({ id }) => id) });
}
