import {
  type BuildSheetData,
  buildSheet,
  labelPages,
  paperHtml,
  paperPages,
  pdfText,
  type Verdict,
} from "@dryfit/drawing";
import { hardware } from "@dryfit/joinery";
import type { Proof, ReadProgram } from "@dryfit/verify";
import type { Shop } from "./input.ts";
import type { PlacedFinding } from "./job.ts";
import type { OutFile } from "./outfile.ts";
import { cutterWords, thicknessWords } from "./pictures.ts";
import { costOf } from "./prices.ts";
import { type Road, yieldOf } from "./road.ts";

/** What stands on every paper. */
export interface Title {
  readonly revision: string;
  readonly verdict: Verdict;
}

/** The papers for the bench; `drawn` holds the sheets' pictures. */
export function papers(
  shop: Shop,
  road: Road,
  proof: Proof,
  readPrograms: ReadonlyMap<string, ReadProgram>,
  drawn: readonly OutFile[],
  findings: readonly PlacedFinding[],
  { revision, verdict }: Title,
): readonly OutFile[] {
  const [first] = road.layout.sheets;
  const data: BuildSheetData = {
    assembly: road.assembly,
    revision,
    verdict,
    material: shop.design.sheet.name,
    thickness: first ? thicknessWords(road, first) : "",
    hardware: hardware(shop.design),
    sheets: road.layout.sheets.map((sheet) => ({
      id: sheet.id,
      size: sheet.stock.size,
      grain: sheet.stock.grain,
      parts: sheet.parts.map(({ part }) => part),
      yield: yieldOf(sheet, road.assembly.parts),
      flip: road.flips[sheet.id] ?? null,
      pins: pinsOf(sheet.id, road, shop, proof),
      svg: drawn.find(({ file }) => file === `preview/${sheet.id}.svg`)?.text ?? null,
    })),
    programs: road.programs.map((program) => {
      const { facts } = readPrograms.get(program.file)!;
      return {
        file: program.file,
        sheet: program.sheet,
        setup: program.setup,
        cutter: cutterWords(program),
        zZero: program.zZero,
        minutes: program.minutes,
        extents: facts.extents,
        deepest: facts.deepest,
        tabs: program.tabs.length,
      };
    }),
    edges: road.programs.flatMap((program) => program.edges),
    joints: proof.joints,
    order: proof.order,
    measures: proof.measures && {
      diagonals: proof.measures.diagonals,
      weightKg: proof.measures.weightKg,
      rocking: proof.measures.footing?.rocking ?? null,
    },
    findings,
    cost: costOf(shop.design, road, shop.prices?.value ?? null),
  };
  const paper = buildSheet(data);
  return [
    { file: "build-sheet.html", text: paperHtml(paper) },
    { file: "build-sheet.pdf", text: pdfText(`${paper.name}: build sheet`, paperPages(paper, "a4")) },
    { file: "labels.pdf", text: pdfText(`${paper.name}: labels`, labelPages(road.assembly, revision, "a4")) },
  ];
}

function pinsOf(sheet: string, road: Road, { machine }: Shop, proof: Proof): SheetPins {
  const pins = road.flips[sheet]?.pins;
  if (pins === undefined) return null;
  const { diameter, depth, at } = pins;
  return {
    count: at.length,
    diameter,
    depth,
    play: machine.pins.play,
    apart: proof.setupsApart?.[sheet] ?? 0,
  };
}

type SheetPins = NonNullable<BuildSheetData["sheets"][number]["pins"]> | null;
