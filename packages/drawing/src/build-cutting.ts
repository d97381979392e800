import { cutList, type Face } from "@dryfit/joinery";
import type { BuildSheetData, ProgramEntry, SheetEntry } from "./build-data.ts";
import { length } from "./lettering.ts";
import {
  BLANK,
  type Block,
  drawing,
  paragraph,
  type Section,
  section,
  steps,
  table,
  title,
} from "./paper/block.ts";

/** What to cut, with a column for what the caliper says afterwards. */
export function cutListSection({ assembly }: BuildSheetData): Section | null {
  const rows = cutList(assembly).map((line) => [
    line.title,
    line.parts.join(", "),
    String(line.parts.length),
    length(line.size[0], 2),
    length(line.size[1], 2),
    length(line.thickness.mean, 2),
    line.grain === "free" ? "free" : line.grain,
    line.faces.join(", "),
    BLANK,
  ]);
  return section(
    "cut-list",
    "Cut list, finished sizes",
    table(
      [
        { title: "part" },
        { title: "named on drawings" },
        { title: "count", figures: true },
        { title: "x", figures: true },
        { title: "y", figures: true },
        { title: "thick", figures: true },
        { title: "grain along" },
        { title: "faces" },
        { title: "measured" },
      ],
      rows,
    ),
    paragraph(
      "Sizes are over all in mm, tongues included. Measure the first part of each kind before you cut the rest.",
    ),
  );
}

/** How each sheet lies, which programs run on it, and what each of them does. */
export function cuttingSection(data: Pick<BuildSheetData, "programs" | "sheets">): Section | null {
  if (data.programs.length === 0) return null;
  const minutes = data.programs.reduce((sum, program) => sum + program.minutes, 0);
  return section(
    "setups",
    "Setups and programs",
    paragraph(
      `${count(data.programs.length, "program")} on ${count(data.sheets.length, "sheet")}, about ${length(minutes, 0)} min of cutting. Lengths in mm; X0 Y0 is the sheet's lower left corner as it lies.`,
    ),
    ...data.sheets.flatMap((sheet) => sheetSteps(sheet, data)),
    table(
      [
        { title: "program" },
        { title: "face up" },
        { title: "cutter" },
        { title: "Z zero" },
        { title: "X", figures: true },
        { title: "Y", figures: true },
        { title: "deepest Z", figures: true },
        { title: "tabs", figures: true },
        { title: "min", figures: true },
      ],
      data.programs.map(programRow),
    ),
  );
}

/** The drawings of the sheets, as large as the page allows. */
export function sheetDrawings({ sheets }: Pick<BuildSheetData, "sheets">): Section | null {
  return section(
    "sheets",
    "Sheets",
    ...sheets.map(({ id, svg }) => (svg === null ? null : drawing(svg, sheetWords(id), true))),
  );
}

function sheetSteps(sheet: SheetEntry, data: Pick<BuildSheetData, "programs">): readonly (Block | null)[] {
  const [x, y] = sheet.size;
  const on = data.programs.filter((program) => program.sheet === sheet.id);
  const faces = (["A", "B"] as const).filter((face) => on.some((program) => program.setup === face));
  const todo = faces.flatMap((face) =>
    setupSteps(
      sheet,
      face,
      on.filter((program) => program.setup === face),
    ),
  );
  const share = Math.round(sheet.yield * 100);
  return [
    title(`${sheetWords(sheet.id)}: ${length(x)} × ${length(y)} mm, ${share} % becomes parts`),
    steps(todo),
  ];
}

function setupSteps(sheet: SheetEntry, face: Face, programs: readonly ProgramEntry[]): readonly string[] {
  const [first] = programs;
  const board =
    sheet.pins && sheet.pins.depth > 0
      ? ` The board under it must be thicker than ${length(sheet.pins.depth)}: holes for pins go so deep.`
      : "";
  const lay =
    face === "A"
      ? `Lay the sheet face A up, grain along ${sheet.grain.toUpperCase()}, its lower left corner at X0 Y0. Hold it down outside the parts, as the drawing shows them.${board}`
      : turnOverStep(sheet);
  const zero =
    first?.zZero === "top"
      ? "Set Z0 on the face that is up."
      : "Set Z0 on the bed, beside the sheet; set it again after every change of cutter.";
  return [
    lay,
    zero,
    ...programs.map(
      ({ file, cutter, minutes, deepest }) =>
        `${fitted(cutter)} and run ${file}: ${length(minutes, minutes < 10 ? 1 : 0)} min, deepest Z ${length(deepest ?? 0, 2)}.`,
    ),
  ];
}

/** "6 mm up-cut" is a cutter's kind, "3.2 mm drill" says itself what it is; a machine that changes cutters has several. */
function fitted(cutter: string): string {
  if (cutter.includes(", then ")) return `Have the cutters in the changer (${cutter})`;
  return `Fit the ${cutter}${cutter.endsWith("drill") ? "" : " cutter"}`;
}

function turnOverStep({ flip, pins }: SheetEntry): string {
  if (!flip) return "Turn the sheet over, face B up.";
  const line =
    flip.axis === "y" ? `the upright line X ${length(flip.at, 2)}` : `the level line Y ${length(flip.at, 2)}`;
  const hand = flip.axis === "y" ? "left edge becomes right edge" : "front edge becomes back edge";
  const set = pins
    ? `set ${count(pins.count, "pin")} of ${length(pins.diameter)} into the board where setup A bored their holes, ${length(pins.depth)} deep`
    : "set pins into the bed where setup A bored their holes";
  const meet = pins
    ? ` With ${length(pins.play, 2)} of play on each pin, the two faces meet within ${length(pins.apart, 3)}.`
    : "";
  return `Clear the chips and ${set}. Turn the sheet over about ${line} (its ${hand}) and press it on to the pins, which fit this way only: face B is up.${meet}`;
}

function programRow(program: ProgramEntry): readonly string[] {
  const span = (axis: "x" | "y") =>
    program.extents ? `${length(program.extents.min[axis])} to ${length(program.extents.max[axis])}` : "";
  return [
    program.file,
    program.setup,
    program.cutter,
    program.zZero,
    span("x"),
    span("y"),
    program.deepest === null ? "" : length(program.deepest, 2),
    String(program.tabs),
    length(program.minutes, 1),
  ];
}

export function sheetWords(id: string): string {
  return id.replace(/^./, (letter) => letter.toUpperCase()).replaceAll("-", " ");
}

export function count(n: number, what: string): string {
  return `${n} ${what}${n === 1 ? "" : "s"}`;
}
