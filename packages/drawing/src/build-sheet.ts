import { once } from "@dryfit/geometry";
import type { Finding } from "@dryfit/joinery";
import { dryFitSection, glueSection, jointSection, orderSection } from "./build-assembly.ts";
import { costSection } from "./build-cost.ts";
import { count, cutListSection, cuttingSection, sheetDrawings } from "./build-cutting.ts";
import type { BuildSheetData } from "./build-data.ts";
import { cautionSection, finishSection, hardwareSection } from "./build-finish.ts";
import { riskSection } from "./build-risks.ts";
import { timeSection } from "./build-time.ts";
import { caseDrawing } from "./case.ts";
import { explodedDrawing } from "./exploded.ts";
import { labelPages } from "./labels.ts";
import { length } from "./lettering.ts";
import { drawing, type Paper, type Section, section, sections } from "./paper/block.ts";
import { paperHtml } from "./paper/html.ts";
import { paperPages } from "./paper/pages.ts";
import type { PaperName } from "./pdf/paper.ts";
import { pdfText } from "./pdf/write.ts";

/** The papers for the bench: the same sheet as a page and in print, and labels. */
export const BUILD_SHEET_FILES = ["build-sheet.html", "build-sheet.pdf", "labels.pdf"] as const;

interface PaperFile {
  readonly file: (typeof BUILD_SHEET_FILES)[number];
  readonly text: string;
}

export function buildSheetFiles(data: BuildSheetData, paper: PaperName = "a4"): readonly PaperFile[] {
  return BUILD_SHEET_FILES.map((file) => buildSheetFile(data, file, paper));
}

/** One of them. */
export function buildSheetFile(
  data: BuildSheetData,
  file: PaperFile["file"],
  paper: PaperName = "a4",
): PaperFile {
  const { assembly, revision } = data;
  if (file === "labels.pdf")
    return { file, text: pdfText(`${assembly.name}: labels`, labelPages(assembly, revision, paper)) };
  const sheet = sheetOf(data);
  return file === "build-sheet.html"
    ? { file, text: paperHtml(sheet) }
    : { file, text: pdfText(`${sheet.name}: build sheet`, paperPages(sheet, paper)) };
}

/** A sheet is set once for all its files. */
const sheetOf = once(buildSheet);

/** The paper for the bench, with everything from cut to finish. */
export function buildSheet(data: BuildSheetData): Paper {
  const { assembly, revision, material, thickness, verdict } = data;
  const { width, depth, height } = assembly.outside;
  const minutes = data.programs.reduce((sum, program) => sum + program.minutes, 0);
  return {
    name: assembly.name,
    subject: "Build sheet",
    revision,
    verdict,
    fields: [
      ["material", material],
      ["thickness as measured", thickness],
      ["outside, feet included", `${length(width)} × ${length(depth)} × ${length(height)} mm`],
      ["inside", `${length(assembly.inside.width)} × ${length(assembly.inside.depth)} mm`],
      ["parts", String(assembly.parts.length)],
      ...(data.making
        ? [["made by", data.making.by] as const]
        : ([
            ["sheets", String(data.sheets.length)],
            ["cutting", `${count(data.programs.length, "program")}, ${length(minutes, 0)} min`],
          ] as const)),
      ...(data.measures?.weightKg == null
        ? []
        : [["weight, bare", `${length(data.measures.weightKg)} kg`] as const]),
    ],
    sections: sections(
      findingSection(data.findings),
      section("parts-apart", "The parts", drawing(explodedDrawing(assembly))),
      section(
        "case",
        "The case",
        drawing(caseDrawing(assembly, { revision, material, thickness, verdict }), null, true),
      ),
      cutListSection(data),
      sheetDrawings(data),
      cuttingSection(data),
      ...(data.making?.sections ?? []),
      hardwareSection(data),
      jointSection(data),
      orderSection(data),
      dryFitSection(data),
      glueSection(data),
      finishSection(data),
      timeSection(data),
      costSection(data),
      riskSection(data),
      cautionSection(data),
    ),
  };
}

/** Warnings before notes, each with its way out; the same words stand once, for all the places that they are true of. */
export function findingSection(findings: readonly Finding[]): Section | null {
  const weight = { error: 0, warning: 1, note: 2 } as const;
  const wordsOf = ({ severity, message, wayOut = "" }: Finding): string => [severity, message, wayOut].join();
  const sorted = [...new Set(findings.map(wordsOf))]
    .map((words): Finding => {
      const same = findings.filter((one) => wordsOf(one) === words);
      return { ...same[0]!, path: [...new Set(same.map(({ path }) => path))].join(", ") };
    })
    .sort((a, b) => weight[a.severity] - weight[b.severity]);
  return section(
    "findings",
    "Know before you cut",
    sorted.length === 0 ? null : { kind: "findings", findings: sorted },
  );
}
