import type { Box, Curve, Point } from "@dryfit/geometry";

/** What is drawn on a page, in mm from its lower left corner, y up. */
export type PdfMark =
  | { readonly kind: "stroke"; readonly curves: readonly Curve[]; readonly style: PdfStroke }
  /** What lies within an odd number of the curves. */
  | { readonly kind: "fill"; readonly curves: readonly Curve[]; readonly colour: PdfColour }
  | {
      readonly kind: "text";
      readonly text: string;
      /** On the line that the letters stand on: the words' start, middle or end, as `anchor` says. */
      readonly at: Point;
      /** Of the type, mm: capitals are 0.72 of it. */
      readonly size: number;
      readonly anchor?: "start" | "middle" | "end";
      readonly bold?: boolean;
      /** How far the line of letters is turned counter-clockwise, radians; upwards: a quarter turn. */
      readonly angle?: number;
      /** Black where none is given. */
      readonly colour?: PdfColour;
      /** Kept white round the letters, mm. */
      readonly halo?: number;
    }
  | {
      /** A drawing of its own scale on the page: nothing outside `clip` (page mm) is seen. */
      readonly kind: "group";
      readonly clip: Box | null;
      /** page = shift + scale · drawing, each axis by itself. */
      readonly scale: Point;
      readonly shift: Point;
      readonly marks: readonly PdfMark[];
    }
  /** Marks of which only what lies within an odd number of the curves is seen. */
  | { readonly kind: "within"; readonly curves: readonly Curve[]; readonly marks: readonly PdfMark[] };

/** Red, green and blue, 0 to 1. */
export type PdfColour = readonly [number, number, number];

/** A pencil: `width` in mm; `dash` are lengths drawn and left out in turn; black where no colour is given. */
export interface PdfStroke {
  readonly width: number;
  readonly dash?: readonly number[];
  readonly colour?: PdfColour;
}

/** 0 is black, 1 is paper. */
export function grey(share: number): PdfColour {
  return [share, share, share];
}

export interface PdfPage {
  /** Width and height, mm. */
  readonly size: readonly [number, number];
  readonly marks: readonly PdfMark[];
}
