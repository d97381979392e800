import { rectangle } from "@dryfit/geometry";
import { acrossDimension, upDimension } from "./dimension.ts";
import { length, lettering, PLAIN, SMALL, textWidth } from "./lettering.ts";
import { pathData, toPaper, type View } from "./outline.ts";
import type { SawBox, SawLine, SawPlanData, SawSheetData } from "./saw-data.ts";
import { drawingStyle } from "./style.ts";
import { el, escaped, group, type Markup } from "./svg.ts";
import { TITLE_WIDTH, type TitleBlock, titleBlock, titleBlockHeight } from "./title-block.ts";
import { grainLines, keepOutMark } from "./wood-marks.ts";

/** One sheet as the saw divides it: blanks, numbered cuts, and the rests worth keeping. A3 across. */
export function sawSheetSvg(plan: SawPlanData, sheet: SawSheetData): string {
  const block = titleFor(plan, sheet, 1);
  const band = titleBlockHeight(block) + 4;
  const room = { wide: A3.width - 2 * EDGE, tall: A3.height - 2 * EDGE - band };
  const scale = scaleFor(sheet, room);
  const view = viewOf(sheet, room, scale);
  const title = titleFor(plan, sheet, scale);
  const corners = [rectangle({ x: 0, y: 0 }, { x: sheet.size[0], y: sheet.size[1] })];
  const id = `saw-${sheet.id}`;
  return el(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      class: "drawing",
      viewBox: `0 0 ${A3.width} ${A3.height}`,
      width: `${A3.width}mm`,
      height: `${A3.height}mm`,
      role: "img",
      "aria-labelledby": `${id}-title ${id}-desc`,
    },
    el("title", { id: `${id}-title` }, escaped(`${plan.name}, saw plan, ${sheet.id}`)),
    el("desc", { id: `${id}-desc` }, escaped(description(plan, sheet))),
    el("style", {}, `${drawingStyle()}\n${SAW_STYLE}`),
    el("rect", { class: "paper", width: A3.width, height: A3.height }),
    el("rect", {
      class: "border",
      ...{ x: MARGIN, y: MARGIN, width: A3.width - 2 * MARGIN, height: A3.height - 2 * MARGIN },
    }),
    lettering(EDGE, EDGE + 3, `Saw plan, face A up  (1 : ${length(1 / scale)})`, {
      size: PLAIN + 0.5,
      bold: true,
    }),
    el("path", { class: "sheet", d: pathData(view, corners) }),
    el("path", { class: "part", d: pathData(view, sheet.blanks.map(outlineOf)) }),
    grainLines(sheet, { parts: sheet.blanks.map((box) => ({ outline: outlineOf(box) })) }, view, id),
    ...sheet.rests.map((rest) => restMark(view, rest)),
    ...sheet.avoid.map((box) => keepOutMark(view, outlineOf(box))),
    el("path", { class: "outline", d: pathData(view, sheet.blanks.map(outlineOf)) }),
    ...sheet.cuts.map((cut) => el("path", { class: "blade", d: pathData(view, [outlineOf(cut.path)]) })),
    ...sheet.blanks.map((blank) => label(view, blank, blank.id, blank.words)),
    ...sheet.cuts.map((cut) => balloon(view, sheet, cut)),
    dimensions(view, sheet),
    key(EDGE, A3.height - EDGE - band + 8),
    titleBlock(A3.width - MARGIN - TITLE_WIDTH, A3.height - MARGIN - titleBlockHeight(title), title),
  ).concat("\n");
}

/** Marks of the saw's own, beside those that all drawings share. */
const SAW_STYLE = `
.drawing .blade { fill: var(--path); stroke: var(--ink); stroke-width: .1; }
.drawing .balloon { fill: var(--paper); stroke: var(--ink); stroke-width: .3; }
.drawing .rest { fill: var(--paper); stroke: var(--pencil); stroke-width: .25; stroke-dasharray: 2.4 1.2; }
`.trim();

const A3 = { width: 420, height: 297 } as const;
const MARGIN = 10;
const EDGE = 14;
const HEADING = 16;
const BESIDE = 22;

/** Drawing scales to choose from, 1 : n. */
const SCALES = [1, 1.5, 2, 2.5, 3, 3.5, 4, 5, 6, 7.5, 10, 12.5, 15, 20] as const;

interface Room {
  readonly wide: number;
  readonly tall: number;
}

function scaleFor({ size }: SawSheetData, room: Room): number {
  const fits = SCALES.find(
    (n) => size[0] / n <= room.wide - BESIDE - 8 && size[1] / n <= room.tall - HEADING - BESIDE,
  );
  return 1 / (fits ?? SCALES.at(-1)!);
}

function viewOf({ size }: SawSheetData, room: Room, scale: number): View {
  const spare = Math.max(0, room.wide - BESIDE - size[0] * scale);
  return { scale, origin: { x: EDGE + BESIDE + spare / 2, y: EDGE + HEADING + size[1] * scale } };
}

function outlineOf({ x, y, w, h }: SawBox): ReturnType<typeof rectangle> {
  return rectangle({ x, y }, { x: x + w, y: y + h });
}

function restMark(view: View, rest: SawSheetData["rests"][number]): Markup {
  return (
    el("path", { class: "rest", d: pathData(view, [outlineOf(rest)]) }) +
    label(view, rest, "keep", rest.words)
  );
}

/** A name and its size in the middle of a box, upright where that is the only way, left out where neither fits. */
function label(view: View, box: SawBox, name: string, words: string): Markup {
  const middle = toPaper(view, { x: box.x + box.w / 2, y: box.y + box.h / 2 });
  const [wide, tall] = [box.w * view.scale, box.h * view.scale];
  const both = `${name}  ${words}`;
  const turned = tall > wide && textWidth(both, SMALL) > wide - 2;
  const [long, short] = turned ? [tall, wide] : [wide, tall];
  const at = (text: string, off: number, bold: boolean): Markup =>
    lettering(turned ? middle.x + off : middle.x, turned ? middle.y : middle.y + off, text, {
      size: SMALL,
      anchor: "middle",
      bold,
      turned,
    });
  if (short > 2.4 * SMALL && textWidth(words, SMALL) < long - 2)
    return group("note", at(name, -SMALL * 0.62, true), at(words, SMALL * 0.62, false));
  return group("note", at(textWidth(both, SMALL) < long - 4 ? both : name, 0, true));
}

/** The cut's number at the line's end: outside the sheet for strips, on the board for what follows. */
function balloon(view: View, sheet: SawSheetData, { number, stage, path, axis }: SawLine): Markup {
  const upright = axis === "x";
  const start = upright
    ? { x: path.x + path.w / 2, y: path.y + path.h }
    : { x: path.x, y: path.y + path.h / 2 };
  const at = toPaper(view, start);
  const edge = upright ? path.y + path.h >= sheet.size[1] - 1 : path.x <= 1;
  const off = edge ? BALLOON + 1.4 : -(BALLOON + 0.6);
  const [x, y] = upright ? [at.x, at.y - off] : [at.x - off, at.y];
  return group(
    `cut-number stage-${stage}`,
    el("circle", { class: "balloon", cx: x, cy: y, r: BALLOON }),
    lettering(x, y, String(number), { size: SMALL - 0.4, anchor: "middle", bold: stage < 2 }),
  );
}

const BALLOON = 2.3;

function dimensions(view: View, { size }: SawSheetData): Markup {
  const low = toPaper(view, { x: 0, y: 0 });
  const high = toPaper(view, { x: size[0], y: size[1] });
  return (
    acrossDimension(low, { x: high.x, y: low.y }, size[0], { away: 9 }) +
    upDimension(low, { x: low.x, y: high.y }, size[1], { away: -14 })
  );
}

function key(x: number, y: number): Markup {
  const row = (k: number, swatch: Markup, text: string): Markup =>
    swatch + lettering(x + 17, y + k * 6.5, text, { size: SMALL });
  return group(
    "legend",
    row(
      0,
      el("rect", { class: "blade", x, y: y - 0.5, width: 14, height: 1 }),
      "a cut, as wide as the blade",
    ),
    row(
      1,
      el("circle", { class: "balloon", cx: x + 7, cy: y + 6.5, r: BALLOON }) +
        lettering(x + 7, y + 6.5, "1", { size: SMALL - 0.4, anchor: "middle", bold: true }),
      "its number in the list: saw in this order",
    ),
    row(2, el("rect", { class: "rest", x, y: y + 11, width: 14, height: 4 }), "a rest worth keeping"),
    row(
      3,
      el("path", { class: "outline", d: `M${x} ${y + 19.5}h14` }),
      "a blank's edge; thin lines are the grain",
    ),
  );
}

function titleFor(plan: SawPlanData, sheet: SawSheetData, scale: number): TitleBlock {
  return {
    name: plan.name,
    subject: `Saw plan, ${sheet.id.replace("-", " ")}`,
    verdict: null,
    fields: [
      [
        { caption: "material", text: plan.material },
        { caption: "thickness as measured", text: plan.thickness },
      ],
      [
        { caption: "blanks", text: String(sheet.blanks.length) },
        { caption: "cuts", text: String(sheet.cuts.length) },
        { caption: "blade", text: plan.kerf },
        { caption: "off every edge", text: plan.trim },
      ],
      [
        { caption: "used", text: `${length(100 * sheet.yield)} %` },
        { caption: "lengths", text: "mm" },
        { caption: "scale", text: `1 : ${length(1 / scale)}` },
        { caption: "revision", text: plan.revision },
      ],
    ],
  };
}

function description(plan: SawPlanData, { blanks, cuts, size }: SawSheetData): string {
  const names = blanks.map(({ id }) => id).join(", ");
  return `A sheet of ${plan.material}, ${length(size[0])} by ${length(size[1])} mm, sawn with ${cuts.length} straight cuts into ${names}.`;
}
