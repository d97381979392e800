import { type SheetPicture, sheetSvg, thicknessWords } from "@dryfit/drawing";
import { readDxf, readLayerName } from "@dryfit/dxf";
import type { Design, Finding } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import { type MachineFacts, type ReadProgram, readProgram } from "@dryfit/verify";
import { drawings, judged } from "./drawings.ts";
import type { OutFile } from "./outfile.ts";
import type { Title } from "./papers.ts";
import type { Road, WrittenProgram } from "./road.ts";

/** As much of a road as its pictures show. */
export type Pictured = Pick<Road, "assembly" | "layout" | "flips" | "programs">;

/** The sheets' pictures, drawn from the DXF and program texts as read back, never from what they were made of. */
export function pictures(
  road: Pictured,
  files: readonly OutFile[],
  readPrograms: ReadonlyMap<string, ReadProgram>,
  title: Title,
): readonly OutFile[] {
  return road.layout.sheets.map((sheet) => ({
    file: `preview/${sheet.id}.svg`,
    text: sheetSvg(pictureOf(sheet, road, files, readPrograms, title)),
  }));
}

/** A job's drawings, what a service would send back of them, and the pictures drawn from them. */
interface Drawn {
  readonly files: readonly OutFile[];
  readonly findings: readonly Finding[];
  readonly pictures: readonly OutFile[];
}

export function drawn(
  road: Pictured,
  design: Pick<Design, "cutter">,
  machine: Pick<MachineFacts, "dwellUnit">,
  title: Title,
): Drawn {
  const files = drawings(road, design, title.revision);
  return { files, findings: judged(files), pictures: picturesOf(road, files, machine, title) };
}

/** The pictures from the programs' texts, which are read first. */
export function picturesOf(
  road: Pictured,
  files: readonly OutFile[],
  { dwellUnit }: Pick<MachineFacts, "dwellUnit">,
  title: Title,
): readonly OutFile[] {
  const read = road.programs.map(({ file, text }) => [file, readProgram(text, { file, dwellUnit })] as const);
  return pictures(road, files, new Map(read), title);
}

function pictureOf(
  sheet: Sheet,
  road: Pictured,
  files: readonly OutFile[],
  readPrograms: ReadonlyMap<string, ReadProgram>,
  { revision, verdict }: Title,
): SheetPicture {
  const dxf = files.find(({ file }) => file === `dxf/${sheet.id}.dxf`)!;
  const drawing = readDxf(dxf.text, dxf.file);
  return {
    name: road.assembly.name,
    sheet: sheet.id,
    size: sheet.stock.size,
    grain: sheet.stock.grain,
    material: sheet.stock.material,
    thickness: thicknessOn(road, sheet),
    revision,
    verdict,
    flip: road.flips[sheet.id] ?? null,
    keepOuts: sheet.stock.keepOuts,
    drawing: {
      loops: drawing.loops.map(({ layer, loop }) => ({ meaning: readLayerName(layer), loop })),
      texts: drawing.texts,
    },
    programs: road.programs
      .filter((program) => program.sheet === sheet.id)
      .map((program) => {
        const read = readPrograms.get(program.file)!;
        return {
          file: program.file,
          setup: program.setup,
          cutter: cutterWords(program),
          minutes: program.minutes,
          deepest: read.facts.deepest ?? 0,
          zZero: program.zZero,
          motions: read.motions,
          tabs: program.tabs,
        };
      }),
  };
}

/** "6 mm up-cut, then 3.2 mm drill". */
export function cutterWords({ cutters }: WrittenProgram): string {
  return cutters.map((cutter) => `${cutter.diameter} mm ${cutter.kind}`).join(", then ");
}

/** Of the sheet's own plywood. */
export function thicknessOn(road: Pick<Road, "assembly">, sheet: Sheet): string {
  const id = sheet.parts[0]?.part;
  const thickness = road.assembly.parts.find((part) => part.id === id)?.thickness;
  if (!thickness) return "";
  return thicknessWords(thickness);
}
