import {
  couponSheet,
  type PdfMark,
  type PdfStroke,
  paperHtml,
  pdfText,
  type TiledDrawing,
  tiled,
} from "@dryfit/drawing";
import { partDxf } from "@dryfit/dxf";
import type { Machine } from "@dryfit/gcode";
import { type Box, boundsOf, type Loop } from "@dryfit/geometry";
import {
  type Assembly,
  couponLetter,
  couponTrials,
  couponWays,
  type Design,
  kerfCoupon,
  kerfTrials,
  type Part,
  type Recess,
} from "@dryfit/joinery";
import { nominalNote } from "./drawings.ts";
import type { OutFile } from "./outfile.ts";

/** For a laser: slots through the sheet, drawn as they are, so that what fits tells the kerf. */
export function kerfDrawings(design: Design, revision: string): readonly OutFile[] {
  const text = partDxf(kerfCoupon(design), { runOut: 0, note: nominalNote(revision) });
  return [{ file: "dxf/parts/coupon-kerf.dxf", text }];
}

/** What is read at the bench: which letter is which, how to try them, and the plates at full size. */
export function couponPapers(
  design: Design,
  assembly: Assembly,
  machine: Machine,
  revision: string,
): readonly OutFile[] {
  const kerf = kerfCoupon(design);
  const drawings = [...assembly.parts.filter(({ id }) => id !== kerf.id), kerf].map((part) =>
    fullSize(part, assembly.name, revision),
  );
  const options = { paper: "a4", measured: { x: 100, y: 100 } } as const;
  return [
    {
      file: "coupon.html",
      text: paperHtml(
        couponSheet({
          name: design.name,
          revision,
          tongue: design.layers ? null : design.joint.tongue,
          ...couponTrials(design),
          kerfs: kerfTrials(design),
          thickness: design.sheet.thickness.mean,
          by: "program",
          plates: assembly.parts.flatMap(({ id }) => {
            const way = couponWays[id];
            return way === undefined ? [] : [{ part: id, way, now: way === machine.cutting.direction }];
          }),
        }),
      ),
    },
    {
      file: "coupon-a4.pdf",
      text: pdfText(
        assembly.name,
        drawings.flatMap((each) => tiled(each, options).pages),
      ),
    },
  ];
}

const EDGE: PdfStroke = { width: 0.5 };
const RECESS: PdfStroke = { width: 0.25 };

/** The part at full size, its letters beside the housings: to mark out by hand, or to lay on the cut one. */
function fullSize(part: Part, name: string, revision: string): TiledDrawing {
  const frame: Box = boundsOf(part.outline);
  return {
    title: `${name}: ${part.id}`,
    facts: [`Seen from face A (${part.faceNames.A}). Recesses and slots as designed, at full size.`],
    frame,
    revision,
    marks: [
      { kind: "stroke", curves: [part.outline], style: EDGE },
      ...part.features.flatMap((feature): readonly PdfMark[] => {
        if (feature.kind === "bore") return [];
        const loops = feature.kind === "opening" ? [feature.loop] : loopsOf(feature);
        return [{ kind: "stroke", curves: loops, style: RECESS }, ...letter(feature.id, boundsOf(loops))];
      }),
    ],
  };
}

function loopsOf({ region }: Recess): readonly Loop[] {
  return [region.outer, ...region.holes];
}

/** "width-c-along": C, to the left of a level housing and under an upright one. */
function letter(id: string, { min, max }: Box): readonly PdfMark[] {
  const found = couponLetter(id);
  if (found === null) return [];
  const level = max.x - min.x > max.y - min.y;
  const at = level
    ? { x: min.x - 4, y: (min.y + max.y) / 2 - 1.3 }
    : { x: (min.x + max.x) / 2, y: min.y - 4.5 };
  return [{ kind: "text", text: found, at, size: 4, anchor: "middle", bold: true }];
}
