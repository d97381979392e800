import { CUT_MM, offsetFlat, type Point, type Region } from "@dryfit/geometry";

export interface Farthest<F extends string> {
  readonly value: number;
  readonly at: Point<F>;
  readonly piece: Region<F>;
}

/**
 * Where a distance from something outside the pieces is greatest over them, of the points that count; null
 * where it is nowhere above 0.
 *
 * A sliver is judged at its corners: nowhere in it is the distance more than its width greater than there.
 * What is left when slivers are taken away is looked at all along its edge, and along edges drawn farther and
 * farther in, which close on the places that are deepest.
 */
export function farthest<F extends string>(
  pieces: readonly Region<F>[],
  distance: (p: Point<F>) => number,
  counts: (p: Point<F>) => boolean,
): Farthest<F> | null {
  let best: Farthest<F> | null = null;
  const offer = (at: Point<F>, piece: Region<F>) => {
    const value = distance(at);
    if (value > (best?.value ?? 0) && counts(at)) best = { value, at, piece };
  };
  for (const piece of pieces) for (const { x, y } of corners(piece)) offer({ x, y }, piece);
  if (best !== null && (best as Farthest<F>).value > GROSS_MM) return best;
  const thick = offsetFlat(offsetFlat(pieces, -SLIVER_MM / 2), SLIVER_MM / 2);
  for (const piece of thick)
    for (let inset = 0, ring = [piece]; ring.length > 0; ) {
      for (const region of ring) for (const p of alongEdges(region)) offer(p, piece);
      inset = inset === 0 ? SLIVER_MM : 2 * inset;
      ring = offsetFlat([piece], -inset);
    }
  return best;
}

/** Narrower than what a proof lets pass, wood is a sliver, mm. */
const SLIVER_MM = CUT_MM;
/** Wood this wide is plainly left standing: how much wider it is somewhere else is not worth a search, mm. */
const GROSS_MM = 1;
/** How often an edge is looked at, at most, and how close together it need not be looked at, mm. */
const LOOKS = 8;
const LOOK_MM = 0.5;

function corners<F extends string>({ outer, holes }: Region<F>): readonly Point<F>[] {
  return [outer, ...holes].flatMap(({ vertices }) => vertices);
}

function* alongEdges<F extends string>({ outer, holes }: Region<F>): Iterable<Point<F>> {
  for (const { vertices } of [outer, ...holes])
    for (const [i, from] of vertices.entries()) {
      const to = vertices[(i + 1) % vertices.length]!;
      const looks = Math.min(LOOKS, Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / LOOK_MM));
      for (let k = 0; k < looks; k++) {
        const t = k / looks;
        yield { x: from.x + (to.x - from.x) * t, y: from.y + (to.y - from.y) * t };
      }
    }
}
