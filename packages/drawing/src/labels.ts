import { boundsOf, rectangle } from "@dryfit/geometry";
import type { Assembly, Part } from "@dryfit/joinery";
import { length } from "./lettering.ts";
import { grey, type PdfMark, type PdfPage } from "./pdf/mark.ts";
import { MARGIN, type PaperName, papers } from "./pdf/paper.ts";
import { textAt } from "./pdf/rows.ts";
import { textWidth } from "./pdf/text.ts";
import { line } from "./pdf/write.ts";

/** One label a part, to be cut out and stuck on its face A as it leaves the machine. */
export function labelPages(assembly: Assembly, revision: string, paper: PaperName): readonly PdfPage[] {
  const [width, height] = papers[paper];
  const rows = Math.floor((height - 2 * MARGIN) / TALL);
  const wide = (width - 2 * MARGIN) / COLUMNS;
  const each = rows * COLUMNS;
  const count = Math.ceil(assembly.parts.length / each);
  return Array.from({ length: count }, (_, page) => ({
    size: [width, height] as const,
    marks: assembly.parts.slice(page * each, (page + 1) * each).flatMap((part, i) => {
      const x = MARGIN + (i % COLUMNS) * wide;
      const y = height - MARGIN - TALL * (1 + Math.floor(i / COLUMNS));
      return labelMarks(part, assembly.name, revision, { x, y, wide });
    }),
  }));
}

const COLUMNS = 3;
const TALL = 34;

interface Spot {
  readonly x: number;
  readonly y: number;
  readonly wide: number;
}

function labelMarks(part: Part, name: string, revision: string, { x, y, wide }: Spot): readonly PdfMark[] {
  const { min, max } = boundsOf(part.outline);
  const room = wide - 6;
  const title = Math.min(5, (5 * room) / textWidth(part.title, 5, true));
  const lines = [
    part.id,
    `${length(max.x - min.x, 2)} × ${length(max.y - min.y, 2)} × ${length(part.thickness.mean, 2)} mm`,
    `this face: A, ${part.faceNames.A}; other: B, ${part.faceNames.B}`,
    `${name}, revision ${revision}`,
  ];
  return [
    {
      kind: "stroke",
      curves: [rectangle({ x, y }, { x: x + wide, y: y + TALL })],
      style: { width: 0.13, dash: [2, 2], colour: grey(0.5) },
    },
    { ...textAt(part.title, x + 3, y + TALL - 8, title), bold: true },
    ...lines.map((words, i) => {
      const size = Math.min(3, (3 * (room - (i < 2 ? 12 : 0))) / textWidth(words, 3));
      return textAt(words, x + 3, y + TALL - 13.5 - 4.6 * i, size);
    }),
    ...grainMarks(part, { x: x + wide - 13, y: y + TALL - 16, wide: 10 }),
  ];
}

/** An arrow both ways along the face grain, as the part's own x and y lie. */
function grainMarks({ grain }: Part, { x, y, wide }: Spot): readonly PdfMark[] {
  if (grain === "free") return [];
  const style = { width: 0.25 };
  const [a, b] =
    grain === "x"
      ? [
          { x, y },
          { x: x + wide, y },
        ]
      : [
          { x: x + wide / 2, y: y - wide / 2 },
          { x: x + wide / 2, y: y + wide / 2 },
        ];
  const way = grain === "x" ? { x: 1.6, y: 0 } : { x: 0, y: 1.6 };
  const side = { x: 0.6 * way.y, y: 0.6 * way.x };
  const barb = (tip: { x: number; y: number }, sign: 1 | -1): readonly PdfMark[] =>
    ([1, -1] as const).map((k) =>
      line(tip.x, tip.y, tip.x + sign * way.x + k * side.x, tip.y + sign * way.y + k * side.y, style),
    );
  return [
    line(a!.x, a!.y, b!.x, b!.y, style),
    ...barb(a!, 1),
    ...barb(b!, -1),
    { ...textAt("grain", x + wide / 2, y - (grain === "x" ? 3 : wide / 2 + 3), 2.2), anchor: "middle" },
  ];
}
