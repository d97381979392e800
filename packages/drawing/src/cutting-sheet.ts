import { cuttingSection, sheetDrawings, sheetWords } from "./build-cutting.ts";
import type { BuildSheetData } from "./build-data.ts";
import { machineCautions } from "./build-finish.ts";
import { findingSection } from "./build-sheet.ts";
import { length } from "./lettering.ts";
import { type Paper, section, sections, table } from "./paper/block.ts";
import { paperHtml } from "./paper/html.ts";
import { paperPages } from "./paper/pages.ts";
import { pdfText } from "./pdf/write.ts";

/** What whoever stands at the machine needs of sheets that several cases share. */
interface CuttingSheetData
  extends Pick<
    BuildSheetData,
    "revision" | "verdict" | "material" | "thickness" | "sheets" | "programs" | "findings"
  > {
  readonly name: string;
  /** The cases, by name. */
  readonly cases: readonly string[];
}

/** The paper for the machine, as a page and in print. */
export function cuttingSheetFiles(
  data: CuttingSheetData,
): readonly { readonly file: string; readonly text: string }[] {
  const paper = cuttingSheet(data);
  return [
    { file: "cutting-sheet.html", text: paperHtml(paper) },
    { file: "cutting-sheet.pdf", text: pdfText(`${paper.name}: cutting sheet`, paperPages(paper, "a4")) },
  ];
}

function cuttingSheet(data: CuttingSheetData): Paper {
  const { name, revision, verdict, material, thickness, cases, sheets, programs } = data;
  const minutes = programs.reduce((sum, program) => sum + program.minutes, 0);
  return {
    name,
    subject: "Cutting sheet",
    revision,
    verdict,
    fields: [
      ["material", material],
      ["thickness as measured", thickness],
      ["cases", String(cases.length)],
      ["parts", String(sheets.reduce((sum, { parts }) => sum + parts.length, 0))],
      ["sheets", String(sheets.length)],
      ["cutting", `${programs.length} programs, ${length(minutes, 0)} min`],
    ],
    sections: sections(
      findingSection(data.findings),
      section(
        "on-sheets",
        "What lies on each sheet",
        table(
          [{ title: "sheet" }, { title: "parts" }],
          sheets.map(({ id, parts }) => [sheetWords(id), parts.join(", ")]),
        ),
      ),
      cuttingSection(data),
      sheetDrawings(data),
      machineCautions(),
    ),
  };
}
