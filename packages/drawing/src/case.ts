import type { Assembly, Box3, Joint, Part, Point3 } from "@dryfit/joinery";
import { cutPatterns, outsideView, sectionView } from "./case-view.ts";
import { acrossDimension, upDimension } from "./dimension.ts";
import { length, lettering, PLAIN, SMALL } from "./lettering.ts";
import { type OnPaper, spot, toPaper, type View } from "./outline.ts";
import type { Verdict } from "./picture.ts";
import { boxOfCase, type Eye, fromAbove, fromFront, fromRight, seen } from "./standing.ts";
import { drawingStyle } from "./style.ts";
import { el, escaped, group, type Markup } from "./svg.ts";
import { TITLE_WIDTH, titleBlock, titleBlockHeight } from "./title-block.ts";

export interface CaseTitle {
  readonly revision: string;
  readonly material: string;
  readonly thickness: string;
  readonly verdict: Verdict | null;
}

/**
 * The case on one A3 sheet: cheek from the right, section through the middle, plan, and the base's joint enlarged.
 * Figures that the design file gives stand plain, those that follow from them in brackets.
 */
export function caseDrawing(assembly: Assembly, title: CaseTitle): string {
  const prefix = "case";
  const box = boxOfCase(assembly);
  const scale = scaleFor(box);
  const block = {
    name: assembly.name,
    subject: "Case",
    verdict: title.verdict,
    fields: [
      [
        { caption: "material", text: title.material },
        { caption: "thickness as measured", text: title.thickness },
      ],
      [
        { caption: "lengths; derived ones in brackets", text: "mm" },
        { caption: "scale", text: `1 : ${length(1 / scale)}` },
        { caption: "revision", text: title.revision },
      ],
    ],
  };
  const top = MARGIN + INSET;
  const depth = (box.max.y - box.min.y) * scale;
  const rowTwo = top + HEAD + (box.max.z - box.min.z) * scale + FOOT_ROOM;
  const sideX = MARGIN + INSET + SIDE_ROOM;
  const sectionX = Math.max(sideX + depth + SIDE_ROOM + 22, A3.width - MARGIN - TITLE_WIDTH + SIDE_ROOM);
  const titleTop = A3.height - MARGIN - titleBlockHeight(block);
  return el(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      class: "drawing",
      viewBox: `0 0 ${A3.width} ${A3.height}`,
      width: `${A3.width}mm`,
      height: `${A3.height}mm`,
      role: "img",
      "aria-labelledby": `${prefix}-title ${prefix}-desc`,
    },
    el("title", { id: `${prefix}-title` }, escaped(`${assembly.name}, the case`)),
    el("desc", { id: `${prefix}-desc` }, escaped(description(assembly))),
    el("style", {}, drawingStyle()),
    el("defs", {}, cutPatterns(prefix)),
    el("rect", { class: "paper", width: A3.width, height: A3.height }),
    el("rect", {
      class: "border",
      x: MARGIN,
      y: MARGIN,
      width: A3.width - 2 * MARGIN,
      height: A3.height - 2 * MARGIN,
    }),
    elevation(assembly, box, placed(fromRight, box, sideX, top + HEAD, scale)),
    middleSection(assembly, box, placed(fromRight, box, sectionX, top + HEAD, scale), prefix),
    plan(assembly, box, placed(fromAbove, box, sideX, rowTwo + HEAD, scale)),
    jointDetail(assembly, prefix, {
      min: { x: A3.width - MARGIN - TITLE_WIDTH, y: rowTwo },
      max: { x: A3.width - MARGIN - INSET, y: titleTop - 4 },
    }),
    titleBlock(A3.width - MARGIN - TITLE_WIDTH, titleTop, block),
  ).concat("\n");
}

const A3 = { width: 420, height: 297 } as const;
const MARGIN = 10;
const INSET = 4;

/** Paper kept for a view's heading, for the dimensions beside it and below it. */
const HEAD = 19;
const SIDE_ROOM = 18;
const FOOT_ROOM = 18;

const SCALES = [1, 1.5, 2, 2.5, 3, 3.5, 4, 5, 6, 7.5, 10, 12.5, 15, 20] as const;

function scaleFor({ min, max }: Box3): number {
  const [width, depth, height] = [max.x - min.x, max.y - min.y, max.z - min.z];
  const room = { width: A3.width - 2 * MARGIN - 2 * INSET, height: A3.height - 2 * MARGIN - 2 * INSET };
  const fits = SCALES.find(
    (n) =>
      (2 * depth) / n + 3 * SIDE_ROOM + 22 <= room.width &&
      width / n + 2 * SIDE_ROOM <= room.width - TITLE_WIDTH &&
      (height + depth) / n + 2 * (HEAD + FOOT_ROOM) <= room.height,
  );
  return 1 / (fits ?? SCALES.at(-1)!);
}

/** A view whose upper left corner of the case stands here on the paper. */
function placed(eye: Eye, box: Box3, x: number, y: number, scale: number): View {
  const [a, b] = [seen(eye, box.min), seen(eye, box.max)];
  return { scale, origin: { x: x - Math.min(a.x, b.x) * scale, y: y + Math.max(a.y, b.y) * scale } };
}

function head(view: View, eye: Eye, box: Box3, text: string): Markup {
  const [a, b] = [seen(eye, box.min), seen(eye, box.max)];
  const corner = toPaper(view, { x: Math.min(a.x, b.x), y: Math.max(a.y, b.y) });
  return lettering(corner.x - SIDE_ROOM, corner.y - HEAD + 4, text, { size: PLAIN + 0.5, bold: true });
}

/** The right cheek from outside, on its feet, with the floor line and the rake. */
function elevation(assembly: Assembly, box: Box3, view: View): Markup {
  const at = (y: number, z: number) => toPaper(view, { x: y, y: z });
  const { min, max } = box;
  return group(
    "elevation",
    head(view, fromRight, box, "From the right"),
    outsideView(assembly, fromRight, view),
    floorLine(assembly, view),
    acrossDimension(at(min.y, min.z), at(max.y, min.z), max.y - min.y, { away: 8, derived: true }),
    upDimension(at(max.y, min.z), at(max.y, max.z), max.z - min.z, { away: 9, derived: true }),
    upDimension(
      at(min.y, lowest(assembly.feet, min.y, max.y)),
      at(min.y, frontTop(assembly)),
      frontTop(assembly) - lowest(assembly.feet, min.y, max.y),
      {
        away: -9,
        derived: true,
      },
    ),
  );
}

/** Height of the case's front foot. */
function lowest(feet: readonly Point3[], front: number, back: number): number {
  const near = feet.filter((p) => p.y < (front + back) / 2);
  return Math.min(...near.map((p) => p.z));
}

function frontTop(assembly: Assembly): number {
  return assembly.inside.front;
}

function floorLine(assembly: Assembly, view: View): Markup {
  const sorted = [...assembly.feet].sort((a, b) => a.y - b.y);
  const [first, last] = [sorted[0], sorted.at(-1)];
  if (!first || !last || first.y === last.y || Math.abs(assembly.rake) < LEVEL) return "";
  const slope = (last.z - first.z) / (last.y - first.y);
  const beyond = 6 / view.scale;
  const on = (y: number) => toPaper(view, { x: y, y: first.z + slope * (y - first.y) });
  const [a, b] = [on(first.y - beyond), on(last.y + beyond)];
  const middle = on((first.y + last.y) / 2);
  const words = `rake (${((assembly.rake * 180) / Math.PI).toFixed(1)}°)`;
  return group(
    "note",
    el("path", { class: "centre", d: `M${spot(a)}L${spot(b)}` }),
    lettering(middle.x, middle.y - 3, words, { size: SMALL, anchor: "middle" }),
  );
}

/** A rake below this is written 0.0°: the case is level. */
const LEVEL = (0.05 * Math.PI) / 180;

/** Through the middle: base, rails and tier cut, the left cheek behind. */
function middleSection(assembly: Assembly, box: Box3, view: View, prefix: string): Markup {
  const { width, depth, front, back } = assembly.inside;
  const at = (y: number, z: number) => toPaper(view, { x: y, y: z });
  return group(
    "section",
    head(view, fromRight, box, "Section through the middle"),
    sectionView(assembly, fromRight, view, width / 2, prefix),
    upDimension(at(box.min.y, 0), at(box.min.y, front), front, { away: -9 }),
    upDimension(at(box.max.y, 0), at(box.max.y, back), back, { away: 9 }),
    acrossDimension(at(0, box.min.z), at(depth, box.min.z), depth, { away: 8 }),
  );
}

function plan(assembly: Assembly, box: Box3, view: View): Markup {
  const at = (x: number, y: number) => toPaper(view, { x, y });
  const { min, max } = box;
  const { width } = assembly.inside;
  const middle = toPaper(view, { x: width / 2, y: 0 });
  const ends = [toPaper(view, { x: 0, y: max.y }), toPaper(view, { x: 0, y: min.y })] as const;
  return group(
    "plan",
    head(view, fromAbove, box, "From above"),
    outsideView(assembly, fromAbove, view),
    el("path", {
      class: "centre",
      d: `M${spot({ x: middle.x, y: ends[0].y - 3 })}V${(ends[1].y + 3).toFixed(3)}`,
    }),
    acrossDimension(at(0, max.y), at(width, max.y), width, { away: -6 }),
    acrossDimension(at(min.x, min.y), at(max.x, min.y), max.x - min.x, { away: 8, derived: true }),
    upDimension(at(min.x, min.y), at(min.x, max.y), max.y - min.y, { away: -9, derived: true }),
  );
}

/** The base's tongue in the left cheek, twice its size or more, cut from front to back. */
function jointDetail(assembly: Assembly, prefix: string, room: { min: OnPaper; max: OnPaper }): Markup {
  const found = baseJoint(assembly);
  if (!found) return "";
  const { joint, cheek } = found;
  const { min, max } = joint.tongue.box;
  const scale = 2;
  const window = { width: 70, height: Math.min(room.max.y - room.min.y - HEAD - 4, 66) };
  const centre = { x: (min.x + max.x) / 2, y: (min.z + max.z) / 2 };
  const left = room.min.x + SIDE_ROOM;
  const topEdge = room.min.y + HEAD;
  const view = {
    scale,
    origin: {
      x: left + window.width / 2 - centre.x * scale,
      y: topEdge + window.height / 2 + centre.y * scale,
    },
  };
  const at = (x: number, z: number) => toPaper(view, { x, y: z });
  const clip = `${prefix}-detail`;
  const words = [
    `tongue ${length(max.z - min.z, 2)} × ${length(max.x - min.x, 2)}`,
    `${joint.housing.behind ? "slot" : "housing"} ${length(max.z - min.z + 2 * joint.fit.side, 2)} wide, ${joint.housing.behind ? "through the inner layers" : `${length(max.x - min.x + joint.fit.end, 2)} deep`}`,
    `air: ${length(joint.fit.side, 2)} each side, ${length(joint.fit.end, 2)} at the end`,
    joint.housing.behind
      ? `outer layer ${length(cheek.thickness.min, 2)} thick`
      : `wood behind the housing ${length(cheek.thickness.min - (max.x - min.x) - joint.fit.end, 2)}`,
  ];
  return group(
    "detail",
    lettering(room.min.x, room.min.y + 4, `Base in the left cheek (${scale} : 1)`, {
      size: PLAIN + 0.5,
      bold: true,
    }),
    el("clipPath", { id: clip }, el("rect", { x: left, y: topEdge, ...window })),
    el(
      "g",
      { "clip-path": `url(#${clip})` },
      sectionView(assembly, fromFront, view, assembly.inside.depth / 2, prefix),
    ),
    el("rect", { class: "frame thin", x: left, y: topEdge, ...window }),
    upDimension(at(max.x, min.z), at(max.x, max.z), max.z - min.z, {
      away: 10,
      text: length(max.z - min.z, 2),
    }),
    acrossDimension(at(min.x, max.z), at(max.x, max.z), max.x - min.x, {
      away: -12,
      text: length(max.x - min.x, 2),
    }),
    ...words.map((line, i) => lettering(left + window.width + 6, topEdge + 6 + i * 6, line, { size: PLAIN })),
  );
}

function baseJoint(assembly: Assembly): { readonly joint: Joint; readonly cheek: Part } | null {
  const joint = assembly.joints.find(({ tongue, into, across }) => {
    const part = assembly.parts.find(({ id }) => id === tongue.part);
    return part?.panel === "base" && into === "-x" && across === "z";
  });
  const cheek = assembly.parts.find(({ id }) => id === joint?.housing.part);
  return joint && cheek ? { joint, cheek } : null;
}

function description(assembly: Assembly): string {
  const { inside, outside } = assembly;
  return [
    `Inside ${length(inside.width)} wide, ${length(inside.depth)} deep,`,
    `${length(inside.front)} high in front, ${length(inside.back)} behind.`,
    `Outside ${length(outside.width)} wide, ${length(outside.depth)} deep, ${length(outside.height)} high.`,
    `Parts: ${assembly.parts.map(({ title }) => title).join(", ")}.`,
  ].join(" ");
}
