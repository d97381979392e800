import type { Curve, Loop, Path, Region, Vertex } from "./curve.ts";
import type { Point } from "./point.ts";
import { cosine, sine } from "./sine.ts";

declare const frames: unique symbol;

/**
 * A rigid move from one frame to another. First mirrored about the y axis (x → −x) where `flip`,
 * then turned `quarters` × 90° + `angle` counter-clockwise, then shifted.
 *
 * Exact where `angle` is 0: no sine, no rounding. Named right to left: `sheetFromPanel`.
 * Units: `angle` in radians in [0, π/2), `shift` in mm.
 */
export interface Placement<To extends string = string, From extends string = string> {
  readonly flip: boolean;
  readonly quarters: 0 | 1 | 2 | 3;
  readonly angle: number;
  readonly shift: Point<To>;
  readonly [frames]?: readonly [To, From];
}

export function placement<To extends string, From extends string>(
  shift: Point<To>,
  { quarters = 0, flip = false, angle = 0 }: Partial<Pick<Placement, "quarters" | "flip" | "angle">> = {},
): Placement<To, From> {
  return { flip, quarters, angle, shift };
}

export function place<To extends string, From extends string>(
  toFrom: Placement<To, From>,
  p: Point<NoInfer<From>>,
): Point<To> {
  const turned = turn(toFrom, toFrom.flip ? -p.x : p.x, p.y);
  return { x: turned.x + toFrom.shift.x, y: turned.y + toFrom.shift.y };
}

/** The placed curve. A flip reverses its sense, so it is turned round: loops keep their winding. */
export function placeCurve<To extends string, From extends string, C extends Curve<NoInfer<From>>>(
  toFrom: Placement<To, From>,
  curve: C,
): C extends Loop<NoInfer<From>> ? Loop<To> : Path<To> {
  type Result = C extends Loop<NoInfer<From>> ? Loop<To> : Path<To>;
  const moved = curve.vertices.map((v) => ({ ...place(toFrom, v), bulge: toFrom.flip ? -v.bulge : v.bulge }));
  const vertices: readonly Vertex<To>[] = toFrom.flip ? backwards(moved, curve.closed) : moved;
  return { closed: curve.closed, vertices } as unknown as Result;
}

export function placeRegion<To extends string, From extends string>(
  toFrom: Placement<To, From>,
  region: Region<NoInfer<From>>,
): Region<To> {
  return {
    outer: placeCurve(toFrom, region.outer),
    holes: region.holes.map((hole) => placeCurve(toFrom, hole)),
  };
}

/** `compose(cFromB, bFromA)` is `cFromA`. */
export function compose<C extends string, B extends string, A extends string>(
  cFromB: Placement<C, B>,
  bFromA: Placement<NoInfer<B>, A>,
): Placement<C, A> {
  const shift = place(cFromB, bFromA.shift);
  const flip = cFromB.flip !== bFromA.flip;
  // A mirror after a turn is the opposite turn after the mirror.
  const sense = cFromB.flip ? -1 : 1;
  return normalised(
    flip,
    cFromB.quarters + sense * bFromA.quarters,
    cFromB.angle + sense * bFromA.angle,
    shift,
  );
}

export function inverse<To extends string, From extends string>(
  toFrom: Placement<To, From>,
): Placement<From, To> {
  const sense = toFrom.flip ? 1 : -1;
  const back = normalised<From, To>(toFrom.flip, sense * toFrom.quarters, sense * toFrom.angle, {
    x: 0,
    y: 0,
  });
  const origin = place(back, toFrom.shift);
  // Subtracted from 0 so that no −0 is ever printed.
  return { ...back, shift: { x: 0 - origin.x, y: 0 - origin.y } };
}

/** The vertices of the curve run the other way; each bulge moves to its segment's new start. */
export function backwards<F extends string>(
  vertices: readonly Vertex<F>[],
  closed: boolean,
): readonly Vertex<F>[] {
  const n = vertices.length;
  return vertices.map((_, i) => {
    const here = vertices[n - 1 - i]!;
    const before = vertices[(2 * n - 2 - i) % n]!;
    return { ...here, bulge: !closed && i === n - 1 ? 0 : 0 - before.bulge };
  });
}

function normalised<To extends string, From extends string>(
  flip: boolean,
  quarters: number,
  angle: number,
  shift: Point<To>,
): Placement<To, From> {
  const extra = Math.floor(angle / (Math.PI / 2));
  const rest = angle - extra * (Math.PI / 2);
  return { flip, quarters: ((((quarters + extra) % 4) + 4) % 4) as 0 | 1 | 2 | 3, angle: rest, shift };
}

function turn(toFrom: Placement, x: number, y: number): { x: number; y: number } {
  if (toFrom.angle !== 0) {
    const [cos, sin] = [cosine(toFrom.angle), sine(toFrom.angle)];
    return quarterTurns(toFrom.quarters, x * cos - y * sin, x * sin + y * cos);
  }
  return quarterTurns(toFrom.quarters, x, y);
}

function quarterTurns(quarters: 0 | 1 | 2 | 3, x: number, y: number): { x: number; y: number } {
  if (quarters === 0) return { x, y };
  if (quarters === 1) return { x: 0 - y, y: x };
  if (quarters === 2) return { x: 0 - x, y: 0 - y };
  return { x: y, y: 0 - x };
}
