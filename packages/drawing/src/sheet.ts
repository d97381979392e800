import { type HatchKind, hatchPattern } from "./hatch.ts";
import { legend } from "./legend.ts";
import { length } from "./lettering.ts";
import type { ProgramPicture, SheetPicture } from "./picture.ts";
import { DIMENSION_ROOM, HEADING_ROOM, sheetView } from "./sheet-view.ts";
import { drawingStyle } from "./style.ts";
import { el, escaped, type Markup } from "./svg.ts";
import { paperTable, tableHeight } from "./table.ts";
import { TITLE_WIDTH, type TitleBlock, titleBlock, titleBlockHeight } from "./title-block.ts";

/**
 * One sheet as a working drawing: A3 across, or taller where the sheet is turned over.
 *
 * Drawn only from the exported DXF and the program text as they were read back, so that what one sees is
 * what the machine will read.
 */
export function sheetSvg(picture: SheetPicture): string {
  const faces = picture.programs.some((program) => program.setup === "B")
    ? (["A", "B"] as const)
    : (["A"] as const);
  const prefix = picture.sheet.replace(/[^A-Za-z0-9-]/g, "-");
  const hatches = hatchKinds(picture);
  const block = titleFor(picture, 1);
  const band = Math.max(titleBlockHeight(block), tableHeight(picture.programs.length), 36) + 4;
  const scale = scaleFor(picture, A3.width - 2 * MARGIN - 2 * INSET, A3.height - 2 * MARGIN - band);
  const needed = HEADING_ROOM + picture.size[1] * scale + DIMENSION_ROOM + INSET;
  const height = Math.max(A3.height, 2 * MARGIN + band + needed * faces.length);
  const each = (height - 2 * MARGIN - band) / faces.length;
  const foot = height - MARGIN - INSET;
  const bandTop = foot - band + 4;
  const tableLeft = MARGIN + INSET + LEGEND_WIDTH + 4;
  const right = A3.width - MARGIN;
  const title = titleFor(picture, scale);
  return el(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      class: "drawing",
      viewBox: `0 0 ${A3.width} ${height}`,
      width: `${A3.width}mm`,
      height: `${height}mm`,
      role: "img",
      "aria-labelledby": `${prefix}-title ${prefix}-desc`,
    },
    el("title", { id: `${prefix}-title` }, escaped(`${picture.name}, ${wordsFor(picture.sheet)}`)),
    el("desc", { id: `${prefix}-desc` }, escaped(description(picture))),
    el("style", {}, drawingStyle()),
    el("defs", {}, ...hatches.map((kind) => hatchPattern(prefix, kind))),
    el("rect", { class: "paper", width: A3.width, height }),
    el("rect", {
      class: "border",
      x: MARGIN,
      y: MARGIN,
      width: A3.width - 2 * MARGIN,
      height: height - 2 * MARGIN,
    }),
    ...faces.map((face, i) => {
      const top = MARGIN + INSET + i * each;
      const room = {
        min: { x: MARGIN + INSET, y: top },
        max: { x: A3.width - MARGIN - INSET, y: top + each - INSET },
      };
      return sheetView(picture, face, { room, scale, prefix });
    }),
    legend(MARGIN + INSET, bandTop, LEGEND_WIDTH, prefix, {
      hatches,
      openings: picture.drawing.loops.some(({ meaning }) => meaning?.kind === "inside"),
      bores: picture.drawing.loops.some(({ meaning }) => meaning?.kind === "bore"),
      paths: picture.programs.length > 0,
      tabs: picture.programs.some((program) => program.tabs.length > 0),
      flip: picture.flip !== null,
      keepOuts: picture.keepOuts.length > 0,
    }),
    paperTable(
      tableLeft,
      bandTop,
      right - TITLE_WIDTH - 4 - tableLeft,
      [
        { title: "program", share: 8 },
        { title: "cutter", share: 6 },
        { title: "deepest Z", share: 5, figures: true },
        { title: "min", share: 3, figures: true },
      ],
      picture.programs.map(programRow),
    ),
    titleBlock(right - TITLE_WIDTH, height - MARGIN - titleBlockHeight(title), title),
  ).concat("\n");
}

const A3 = { width: 420, height: 297 } as const;
const MARGIN = 10;
const INSET = 4;
const LEGEND_WIDTH = 132;

/** Drawing scales to choose from, 1 : n. */
const SCALES = [1, 1.5, 2, 2.5, 3, 3.5, 4, 5, 6, 7.5, 10, 12.5, 15, 20] as const;

function scaleFor({ size }: SheetPicture, width: number, height: number): number {
  const fits = SCALES.find(
    (n) => size[0] / n <= width - DIMENSION_ROOM - 4 && size[1] / n <= height - HEADING_ROOM - DIMENSION_ROOM,
  );
  return 1 / (fits ?? SCALES.at(-1)!);
}

function hatchKinds({ drawing }: SheetPicture): readonly HatchKind[] {
  const kinds = new Map<string, HatchKind>();
  for (const { meaning } of drawing.loops)
    if (meaning?.kind === "recess") kinds.set(`${meaning.face} ${meaning.depth}`, meaning);
  return [...kinds.values()].sort((a, b) =>
    a.face === b.face ? a.depth - b.depth : a.face < b.face ? -1 : 1,
  );
}

function programRow({ file, cutter, deepest, minutes, zZero }: ProgramPicture): readonly string[] {
  return [file, cutter, `${length(deepest, 2)} (${zZero})`, length(minutes, minutes < 10 ? 1 : 0)];
}

function titleFor(picture: SheetPicture, scale: number): TitleBlock {
  const { drawing, programs } = picture;
  const parts = drawing.loops.filter(({ meaning }) => meaning?.kind === "outside").length;
  const minutes = programs.reduce((sum, program) => sum + program.minutes, 0);
  const tabs = programs.reduce((sum, program) => sum + program.tabs.length, 0);
  return {
    name: picture.name,
    subject: wordsFor(picture.sheet),
    verdict: picture.verdict,
    fields: [
      [
        { caption: "material", text: picture.material },
        { caption: "thickness as measured", text: picture.thickness },
      ],
      [
        { caption: "parts", text: String(parts) },
        { caption: "programs", text: String(programs.length) },
        { caption: "tabs", text: String(tabs) },
        { caption: "cutting time", text: `${length(minutes, 0)} min` },
      ],
      [
        { caption: "lengths", text: "mm" },
        { caption: "scale", text: `1 : ${length(1 / scale)}` },
        { caption: "revision", text: picture.revision },
      ],
    ],
  };
}

/** "sheet-1" as a person says it. */
function wordsFor(sheet: string): string {
  return sheet.replace(/^./, (letter) => letter.toUpperCase()).replaceAll("-", " ");
}

function description(picture: SheetPicture): Markup {
  const names = picture.drawing.texts.map(({ text }) => text.split(": ")[0]).join(", ");
  const [x, y] = picture.size;
  return [
    picture.verdict.sentence,
    `A sheet of ${picture.material}, ${length(x)} by ${length(y)} mm, ${picture.thickness} thick, holds ${names}.`,
    ...picture.programs.map(
      (p) =>
        `Program ${p.file}: ${p.cutter}, face ${p.setup} up, ${length(p.minutes)} min, deepest Z ${length(p.deepest, 2)}.`,
    ),
  ].join(" ");
}
