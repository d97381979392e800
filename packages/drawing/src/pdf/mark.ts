import type { Box, Curve, Point } from "@dryfit/geometry";

/** What is drawn on a page, in mm from its lower left corner, y up. */
export type PdfMark =
  | { readonly kind: "stroke"; readonly curves: readonly Curve[]; readonly style: PdfStroke }
  | {
      readonly kind: "text";
      readonly text: string;
      /** On the line that the letters stand on: the words' start, middle or end, as `anchor` says. */
      readonly at: Point;
      /** Of the type, mm: capitals are 0.72 of it. */
      readonly size: number;
      readonly anchor?: "start" | "middle" | "end";
      readonly bold?: boolean;
      /** Written upwards, a quarter turn counter-clockwise. */
      readonly turned?: boolean;
    }
  | {
      /** A drawing of its own scale on the page: nothing outside `clip` (page mm) is seen. */
      readonly kind: "group";
      readonly clip: Box | null;
      /** page = shift + scale · drawing, each axis by itself. */
      readonly scale: Point;
      readonly shift: Point;
      readonly marks: readonly PdfMark[];
    };

/** A pencil: `width` in mm; `dash` are lengths drawn and left out in turn; `grey` is 0 for black, 1 for paper. */
export interface PdfStroke {
  readonly width: number;
  readonly dash?: readonly number[];
  readonly grey?: number;
}

export interface PdfPage {
  /** Width and height, mm. */
  readonly size: readonly [number, number];
  readonly marks: readonly PdfMark[];
}
