import {
  type Loop,
  type Placement,
  type Point,
  place,
  placeCurve,
  placement,
  rectangle,
} from "@dryfit/geometry";
import type { Face } from "@dryfit/joinery";
import { cutterPath } from "./cutter-path.ts";
import { acrossDimension, arrowhead, upDimension } from "./dimension.ts";
import { length, lettering, PLAIN, SMALL } from "./lettering.ts";
import { noteMark } from "./note-marks.ts";
import { type PaperBox, placeNotes } from "./notes.ts";
import { pathData, spot, toPaper, type View } from "./outline.ts";
import type { ReadDrawing, SheetPicture } from "./picture.ts";
import { notesOf, strokesFor } from "./sheet-notes.ts";
import { el, group, type Markup } from "./svg.ts";
import { outlineWithTabs } from "./tabs.ts";
import { woodOf } from "./wood.ts";
import { boreMark, grainLines, keepOutMark, openingMark, recessMark } from "./wood-marks.ts";

export interface SheetViewPlace {
  /** Upper left of the room that the view may take, and its size, mm of paper. */
  readonly room: PaperBox;
  /** Paper millimetres per millimetre of wood. */
  readonly scale: number;
  /** Keeps ids of two drawings on one page apart. */
  readonly prefix: string;
}

/** One face of the sheet as it lies on the machine: what is cut, and the way of the cutter. */
export function sheetView(
  picture: SheetPicture,
  face: Face,
  { room, scale, prefix }: SheetViewPlace,
): Markup {
  const lies = face === "A" ? null : turnOver(picture);
  const drawing = lies ? turned(picture.drawing, lies) : picture.drawing;
  const wood = woodOf(drawing);
  const view = viewOf(picture, lies, room, scale);
  const corners = sheetCorners(picture, lies);
  const programs = picture.programs.filter((program) => program.setup === face);
  const edge = wood.edge.length > 0 ? wood.edge : [rectangle(corners.min, corners.max)];
  const tabs = programs
    .flatMap((program) => program.tabs)
    .map((tab) => ({ ...tab, at: liesAt(lies, tab.at) }));
  const notes = notesOf(wood, view, face);
  const placed = placeNotes(notes, dimensionRoom(view, corners), strokesFor(wood, edge, view), room);
  return el(
    "g",
    { class: `face face-${face.toLowerCase()}-up` },
    lettering(room.min.x, room.min.y + 3, headingText(picture, face, scale), {
      size: PLAIN + 0.5,
      bold: true,
    }),
    el("path", { class: "sheet", d: pathData(view, edge), "fill-rule": "evenodd" }),
    ...wood.parts.map((part) => el("path", { class: "part", d: pathData(view, [part.outline]) })),
    grainLines(picture, wood, view, prefix + face),
    ...wood.recesses.map((recess) => recessMark(view, recess, face, prefix)),
    ...wood.openings.map((opening) => openingMark(view, opening)),
    ...wood.bores.map((bore) => boreMark(view, bore, face)),
    ...picture.keepOuts.map((area) => keepOutMark(view, lies ? placeCurve(lies, area.outer) : area.outer)),
    cutterPath(
      view,
      programs.flatMap((program) => program.motions),
    ),
    ...wood.parts.map((part) => outlineWithTabs(view, part.outline, tabs)),
    picture.flip ? foldLine(picture, view, lies) : "",
    zeroMark(view),
    ...placed.map(noteMark),
    sheetDimensions(view, corners),
  );
}

/** Where the sheet frame's points lie after the sheet has been turned over. */
function turnOver({ flip, sheet }: SheetPicture): Placement {
  if (!flip) throw new RangeError(`${sheet} has a program for face B, but is never turned over`);
  return flip.axis === "y"
    ? placement({ x: 2 * flip.at, y: 0 }, { flip: true })
    : placement({ x: 0, y: 2 * flip.at }, { flip: true, quarters: 2 });
}

function turned(drawing: ReadDrawing, lies: Placement): ReadDrawing {
  return {
    loops: drawing.loops.map(({ meaning, loop }) => ({ meaning, loop: placeCurve(lies, loop) as Loop })),
    texts: drawing.texts.map((text) => ({ ...text, at: place(lies, text.at) })),
  };
}

function liesAt(lies: Placement | null, [x, y]: readonly [number, number]): Point {
  return lies ? place(lies, { x, y }) : { x, y };
}

function sheetCorners({ size }: SheetPicture, lies: Placement | null): { min: Point; max: Point } {
  const [a, b] = [liesAt(lies, [0, 0]), liesAt(lies, size)];
  return {
    min: { x: Math.min(a.x, b.x), y: Math.min(a.y, b.y) },
    max: { x: Math.max(a.x, b.x), y: Math.max(a.y, b.y) },
  };
}

/** The sheet stands in the middle of its room, clear of the heading above and the dimensions round it. */
function viewOf(picture: SheetPicture, lies: Placement | null, room: PaperBox, scale: number): View {
  const { min, max } = sheetCorners(picture, lies);
  const wide = (max.x - min.x) * scale;
  const spare = room.max.x - room.min.x - DIMENSION_ROOM - wide;
  return {
    scale,
    origin: {
      x: room.min.x + DIMENSION_ROOM + Math.max(0, spare / 2) - min.x * scale,
      y: room.min.y + HEADING_ROOM + max.y * scale,
    },
  };
}

/** Paper kept free for the heading, and for a dimension line with its figure. */
export const HEADING_ROOM = 16;
export const DIMENSION_ROOM = 16;

function headingText(picture: SheetPicture, face: Face, scale: number): string {
  const turn =
    face === "A" || !picture.flip
      ? ""
      : `, turned over about the ${picture.flip.axis === "y" ? "upright" : "level"} line`;
  return `Setup ${face}: face ${face} up${turn}  (1 : ${length(1 / scale)})`;
}

/** The line about which the sheet is turned over, with arrowheads beyond its edges. */
function foldLine(picture: SheetPicture, view: View, lies: Placement | null): Markup {
  const { axis, at } = picture.flip!;
  const { min, max } = sheetCorners(picture, lies);
  const beyond = 5 / view.scale;
  const [a, b] =
    axis === "y"
      ? [
          { x: at, y: min.y - beyond },
          { x: at, y: max.y + beyond },
        ]
      : [
          { x: min.x - beyond, y: at },
          { x: max.x + beyond, y: at },
        ];
  const [from, to] = [toPaper(view, a), toPaper(view, b)];
  const way = axis === "y" ? { x: 0, y: -1 } : { x: 1, y: 0 };
  const words =
    axis === "y"
      ? lettering(to.x, to.y - 2.5, "turn over about this line", { size: SMALL, anchor: "middle" })
      : lettering(to.x + 1, to.y - 3, "turn over", { size: SMALL, anchor: "end" });
  return group(
    "axis",
    el("path", { class: "fold", d: `M${spot(from)}L${spot(to)}` }),
    arrowhead(to, way),
    arrowhead(from, { x: -way.x, y: -way.y }),
    words,
  );
}

/** The program's zero in X and Y, and the ways they count. */
function zeroMark(view: View): Markup {
  const o = toPaper(view, { x: 0, y: 0 });
  const [x, y] = [
    { x: o.x + 9, y: o.y },
    { x: o.x, y: o.y - 9 },
  ];
  return group(
    "note zero",
    el("path", { class: "leader", d: `M${spot(y)}L${spot(o)}L${spot(x)}` }),
    arrowhead(x, { x: 1, y: 0 }, 2),
    arrowhead(y, { x: 0, y: -1 }, 2),
    el("circle", { class: "cut-end", cx: o.x, cy: o.y, r: 1 }),
    lettering(x.x - 2, x.y + 3, "X", { size: SMALL, anchor: "middle" }),
    lettering(y.x - 3, y.y + 2, "Y", { size: SMALL, anchor: "middle" }),
  );
}

/** Where the dimensions' lines and figures stand. */
function dimensionRoom(view: View, { min, max }: { min: Point; max: Point }): readonly PaperBox[] {
  const [low, high] = [toPaper(view, min), toPaper(view, max)];
  const deep = DIMENSION_AWAY + 4;
  return [
    { min: { x: low.x - deep, y: high.y }, max: { x: low.x - DIMENSION_AWAY + 1, y: low.y } },
    {
      min: { x: low.x, y: low.y + DIMENSION_AWAY - 4 },
      max: { x: high.x, y: low.y + DIMENSION_AWAY + 1 },
    },
  ];
}

const DIMENSION_AWAY = 9;

function sheetDimensions(view: View, { min, max }: { min: Point; max: Point }): Markup {
  const [low, high] = [toPaper(view, min), toPaper(view, max)];
  return (
    acrossDimension(low, { x: high.x, y: low.y }, max.x - min.x, { away: DIMENSION_AWAY }) +
    upDimension(low, { x: low.x, y: high.y }, max.y - min.y, { away: -DIMENSION_AWAY })
  );
}
