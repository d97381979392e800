declare const frame: unique symbol;

/**
 * A position or a vector in the frame that its type names ("panel", "sheet", "machine" …), mm.
 * The frame exists in the types only.
 */
export interface Point<Frame extends string = string> {
  readonly x: number;
  readonly y: number;
  readonly [frame]?: Frame;
}

/** An axis-aligned box, mm; `min` is the lower left corner. */
export interface Box<Frame extends string = string> {
  readonly min: Point<Frame>;
  readonly max: Point<Frame>;
}

export function point<F extends string>(x: number, y: number): Point<F> {
  return { x, y };
}

export function add<F extends string>(a: Point<F>, b: Point<NoInfer<F>>): Point<F> {
  return { x: a.x + b.x, y: a.y + b.y };
}

export function subtract<F extends string>(a: Point<F>, b: Point<NoInfer<F>>): Point<F> {
  return { x: a.x - b.x, y: a.y - b.y };
}

export function scale<F extends string>(a: Point<F>, factor: number): Point<F> {
  return { x: a.x * factor, y: a.y * factor };
}

export function dot<F extends string>(a: Point<F>, b: Point<NoInfer<F>>): number {
  return a.x * b.x + a.y * b.y;
}

/** Positive where `b` lies to the left of `a`. */
export function cross<F extends string>(a: Point<F>, b: Point<NoInfer<F>>): number {
  return a.x * b.y - a.y * b.x;
}

export function distance<F extends string>(a: Point<F>, b: Point<NoInfer<F>>): number {
  const [x, y] = [a.x - b.x, a.y - b.y];
  return Math.sqrt(x * x + y * y);
}

/** The point a share `t` of the way from `a` to `b`. */
export function between<F extends string>(a: Point<F>, b: Point<NoInfer<F>>, t: number): Point<F> {
  return { x: a.x + (b.x - a.x) * t, y: a.y + (b.y - a.y) * t };
}
