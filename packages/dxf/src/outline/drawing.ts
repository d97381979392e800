import type { Piece } from "./piece.ts";

/** A stroke of a file, in the file's own units with y up, and where it stands there. */
export interface Stroke {
  readonly piece: Piece;
  /** DXF layer, or the id of the nearest SVG group that has one; "" where there is none. */
  readonly layer: string;
  readonly line: number;
}

/** Something in a file that is no stroke: a text, a picture, a surface. */
export interface Leftover {
  readonly what: string;
  readonly layer: string;
  readonly line: number;
  /** Whether it may be part of a contour, so that leaving it out would change the shape. */
  readonly matters: boolean;
  readonly reason: string;
}

/** What a DXF or SVG file draws. */
export interface Strokes {
  readonly strokes: readonly Stroke[];
  readonly leftovers: readonly Leftover[];
  /** mm for one unit of the file; null where the file does not say. */
  readonly mmPerUnit: number | null;
}

/** Why a text is no file of its kind at all. */
export interface NotRead {
  readonly line: number;
  readonly reason: string;
}
