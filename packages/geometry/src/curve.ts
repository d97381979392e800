import type { Point } from "./point.ts";

/**
 * A corner of a curve, and how the segment that starts there bends.
 *
 * `bulge` is tan(sweep / 4): 0 is straight, positive turns left, 1 is half a turn (the most we allow).
 * Continuity needs no check: a segment ends where the next vertex stands.
 */
export interface Vertex<Frame extends string = string> extends Point<Frame> {
  readonly bulge: number;
}

/** A closed curve of lines and arcs; the first vertex is not repeated. */
export interface Loop<Frame extends string = string> {
  readonly closed: true;
  readonly vertices: readonly Vertex<Frame>[];
}

/** An open curve of lines and arcs; the last vertex's bulge is 0 and means nothing. */
export interface Path<Frame extends string = string> {
  readonly closed: false;
  readonly vertices: readonly Vertex<Frame>[];
}

export type Curve<Frame extends string = string> = Loop<Frame> | Path<Frame>;

/**
 * A piece of material or of removed material: `outer` counter-clockwise, `holes` clockwise,
 * none crossing or touching itself or another. Several pieces are a `Region[]`.
 */
export interface Region<Frame extends string = string> {
  readonly outer: Loop<Frame>;
  readonly holes: readonly Loop<Frame>[];
}

export interface Line<Frame extends string = string> {
  readonly kind: "line";
  readonly from: Point<Frame>;
  readonly to: Point<Frame>;
}

/** `sweep` in radians, signed: positive is counter-clockwise. */
export interface Arc<Frame extends string = string> {
  readonly kind: "arc";
  readonly from: Point<Frame>;
  readonly to: Point<Frame>;
  readonly centre: Point<Frame>;
  readonly radius: number;
  readonly sweep: number;
}

export type Segment<Frame extends string = string> = Line<Frame> | Arc<Frame>;
