import {
  boundsOf,
  type Curve,
  contains,
  flatten,
  type Loop,
  lengthOf,
  type Path,
  type Placement,
  type Point,
  place,
  placeCurve,
  placement,
  pointAt,
  rectangle,
  signedArea,
  tangentAt,
} from "@dryfit/geometry";
import type { Face } from "@dryfit/joinery";
import { cutterPath } from "./cutter-path.ts";
import { acrossDimension, arrowhead, upDimension } from "./dimension.ts";
import { hatchId } from "./hatch.ts";
import { length, lettering, PLAIN, SMALL } from "./lettering.ts";
import { noteMark } from "./note-marks.ts";
import { type Note, type PaperBox, placeNotes, type Stroke } from "./notes.ts";
import { type OnPaper, pathData, spot, toPaper, type View } from "./outline.ts";
import type { ReadDrawing, SheetPicture } from "./picture.ts";
import { el, group, type Markup } from "./svg.ts";
import { outlineWithTabs } from "./tabs.ts";
import { type DrawnBore, type DrawnPart, type DrawnRecess, type Wood, woodOf } from "./wood.ts";

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
  const placed = placeNotes(notes, [], strokesFor(wood, edge, view), room);
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

function recessMark(view: View, { depth, face, region }: DrawnRecess, up: Face, prefix: string): Markup {
  const classes = ["recess", face === "B" ? "face-b" : "", face === up ? "" : "hidden"]
    .filter(Boolean)
    .join(" ");
  return el("path", {
    class: classes,
    "fill-rule": "evenodd",
    fill: `url(#${hatchId(prefix, { depth, face })})`,
    d: pathData(view, [region.outer, ...region.holes]),
    "data-depth": depth,
  });
}

/** A continuous line with short ticks to the inside, where nothing is left. */
function openingMark(view: View, loop: Loop): Markup {
  const inward = Math.sign(signedArea(loop));
  const round = lengthOf(loop) * view.scale;
  const count = Math.max(4, Math.round(round / TICK_STEP));
  const ticks = Array.from({ length: count }, (_, i) => {
    const s = (lengthOf(loop) * (i + 0.5)) / count;
    const [p, way] = [toPaper(view, pointAt(loop, s)), tangentAt(loop, s)];
    const end = { x: p.x - way.y * inward * TICK, y: p.y - way.x * inward * TICK };
    return `M${spot(p)}L${spot(end)}`;
  });
  return group(
    "through",
    el("path", { class: "opening", d: pathData(view, [loop]) }),
    el("path", { class: "waste", d: pathData(view, [loop]) }),
    el("path", { class: "tick", d: ticks.join("") }),
  );
}

const TICK_STEP = 12;
const TICK = 1.3;

function boreMark(view: View, bore: DrawnBore, up: Face): Markup {
  const at = toPaper(view, bore.centre);
  const reach = (bore.diameter / 2) * view.scale + 1.2;
  const hidden = bore.depth !== null && bore.face !== up;
  return (
    el("path", { class: hidden ? "bore hidden" : "bore", d: pathData(view, [bore.loop]) }) +
    el("path", {
      class: "centre",
      d: `M${spot({ x: at.x - reach, y: at.y })}h${(2 * reach).toFixed(3)}M${spot({ x: at.x, y: at.y - reach })}v${(2 * reach).toFixed(3)}`,
    })
  );
}

/** A broken outline with a diagonal cross: nothing may be cut here. */
function keepOutMark(view: View, loop: Loop): Markup {
  const points = flatten(loop, 0.1).map((p) => toPaper(view, p));
  const [xs, ys] = [points.map((p) => p.x), points.map((p) => p.y)];
  const [x0, x1, y0, y1] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const cross = `M${spot({ x: x0, y: y0 })}L${spot({ x: x1, y: y1 })}M${spot({ x: x0, y: y1 })}L${spot({ x: x1, y: y0 })}`;
  return el("path", { class: "keep-out", d: `${pathData(view, [loop])} ${cross}` });
}

/** Faint lines along the face grain, at uneven distances as wood has them, on the parts alone. */
function grainLines(picture: SheetPicture, wood: Wood, view: View, id: string): Markup {
  const [width, height] = picture.size;
  const upright = picture.grain === "y";
  const across = upright ? width : height;
  const clip = el(
    "clipPath",
    { id: `${id}-parts` },
    el("path", {
      d: pathData(
        view,
        wood.parts.map((part) => part.outline),
      ),
      "clip-rule": "evenodd",
    }),
  );
  const uneven = [1, 0.55, 1.3, 0.8, 0.4, 1.1, 0.7];
  const lines: string[] = [];
  for (let at = 0, i = 0; at < across; i++) {
    at += (uneven[i % uneven.length]! * 5) / view.scale;
    const [a, b] = upright
      ? [
          { x: at, y: 0 },
          { x: at, y: height },
        ]
      : [
          { x: 0, y: at },
          { x: width, y: at },
        ];
    lines.push(`M${spot(toPaper(view, a))}L${spot(toPaper(view, b))}`);
  }
  return clip + el("path", { class: "grain", d: lines.join(""), "clip-path": `url(#${id}-parts)` });
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

function sheetDimensions(view: View, { min, max }: { min: Point; max: Point }): Markup {
  const [low, high] = [toPaper(view, min), toPaper(view, max)];
  return (
    acrossDimension(low, { x: high.x, y: low.y }, max.x - min.x, { away: 9 }) +
    upDimension(low, { x: low.x, y: high.y }, max.y - min.y, { away: -9 })
  );
}

/** Part names first: they matter most. Then depths, then bores. */
function notesOf(wood: Wood, view: View, up: Face): readonly Note[] {
  return [
    ...wood.parts.map((part) => partNote(part, view, up)),
    ...wood.recesses.map(({ depth, middle }) => ({
      at: toPaper(view, middle),
      lines: [`${length(depth, 2)} deep`],
      size: SMALL,
    })),
    ...boreNotes(wood, view),
  ];
}

function partNote(part: DrawnPart, view: View, up: Face): Note {
  const [x, y] = part.size;
  const size = Math.min(4.2, Math.max(SMALL, part.labelHeight * view.scale));
  const measure = `${length(x)} × ${length(y)}`;
  const remark = up === "A" ? part.remark : "";
  return {
    at: toPaper(view, part.labelAt),
    lines: [part.id, measure, remark].filter(Boolean),
    otherwise: [
      [part.id, measure],
      [[part.id, measure, remark].filter(Boolean).join("  ")],
      [`${part.id}  ${measure}`],
      [part.id],
    ],
    home: homeOf(part, view),
    size,
    named: true,
    turned: part.labelTurned,
  };
}

function homeOf({ outline }: DrawnPart, view: View): PaperBox {
  const { min, max } = boundsOf(outline);
  const [low, high] = [toPaper(view, min), toPaper(view, max)];
  return { min: { x: low.x, y: high.y }, max: { x: high.x, y: low.y } };
}

/** One note for all bores of a kind in a part: "4 × Ø3.2, 8 deep". */
function boreNotes(wood: Wood, view: View): readonly Note[] {
  const groups = new Map<string, DrawnBore[]>();
  for (const bore of wood.bores) {
    const part = wood.parts.findIndex(({ outline }) => contains(outline, bore.centre) === "inside");
    const key = `${part} ${bore.diameter} ${bore.depth} ${bore.face}`;
    groups.set(key, [...(groups.get(key) ?? []), bore]);
  }
  return [...groups.values()].map((bores) => {
    const [{ diameter, depth, centre }] = bores as [DrawnBore, ...DrawnBore[]];
    const count = bores.length > 1 ? `${bores.length} × ` : "";
    const how = depth === null ? "through" : `${length(depth, 2)} deep`;
    return { at: toPaper(view, centre), lines: [`${count}Ø${length(diameter, 2)} ${how}`], size: SMALL };
  });
}

/** The lines that words should not stand on. */
function strokesFor(wood: Wood, edge: readonly Loop[], view: View): readonly Stroke[] {
  const curves: readonly Curve[] = [
    ...edge,
    ...wood.parts.map((part) => part.outline),
    ...wood.openings,
    ...wood.recesses.flatMap(({ region }) => [region.outer, ...region.holes]),
    ...wood.bores.map((bore) => bore.loop),
  ];
  return curves.flatMap((curve) => {
    const points: readonly OnPaper[] = flatten(curve as Path, 0.5).map((p) => toPaper(view, p));
    return points.map((p, i): Stroke => [p, points[(i + 1) % points.length]!]);
  });
}
