import {
  along,
  areaOf,
  type Curve,
  difference,
  distanceTo,
  intersection,
  type Loop,
  lengthOf,
  nearest,
  offset,
  type Point,
  pathOf,
  type Region,
  type Segment,
  segmentLength,
  segments,
  union,
} from "@dryfit/geometry";

/** What geometry asks of a round cutter at one depth: where its middle must run, and how far besides. */
export interface Needed {
  /** Tracks along walls, each followed once. */
  readonly walls: readonly (readonly Segment[])[];
  /** Further way to take what the walls' tracks leave, mm. */
  readonly inner: number;
  /** Lines and arcs of the tracks along the contour, and of rings one stepover apart inside it. */
  readonly elements: number;
  /** The track on which a cutter comes down. */
  readonly innermost: Loop;
}

/** Round the outside (`by` positive) or the inside (negative) of a loop. */
export function neededAlong(loop: Loop, by: number): Needed {
  const loops = offset([{ outer: loop, holes: [] }], by).map(({ outer }) => outer);
  const walls = loops.map((one) => segments(one));
  const elements = walls.reduce((sum, wall) => sum + wall.length, 0);
  return { walls, inner: 0, elements, innermost: loops[0] ?? loop };
}

/**
 * To clear a recess down to one floor; null where the cutter does not get in.
 *
 * The wall: the recess's edge that borders on wood, one radius further in; over the part's outline the cutter may
 * run out. The rest: what lies farther than a diameter from the wall, so that the wall's own track leaves it. Of it
 * one line through the middle may be cut as wide as the cutter, in any piece: half its perimeter, less its mean
 * width and the cutter's overhang at the ends. All else is taken one stepover wide: area over stepover.
 */
export function neededIn(recess: Region, outline: Loop, radius: number, stepover: number): Needed | null {
  const part = [{ outer: outline, holes: [] }];
  const around = difference(offset(part, 3 * radius), part);
  const free = union([recess, ...around]);
  const domain = offset(free, SLACK_MM - radius);
  const walls = domain
    .flatMap(({ outer, holes }) => [outer, ...holes])
    .flatMap((loop) => runsNear(wallOf(recess, outline), segments(loop), radius + 2 * SLACK_MM));
  if (walls.length === 0) return null;
  const rest = intersection([recess], offset(domain, -radius));
  const pieces = rest.map((piece) => {
    const half = [piece.outer, ...piece.holes].reduce((sum, loop) => sum + lengthOf(loop), 0) / 2;
    const area = areaOf([piece]);
    const line = Math.max(0, half - area / half - 2 * radius);
    return line + Math.max(0, area - 2 * radius * line - Math.PI * radius ** 2) / stepover;
  });
  const room = intersection(free, offset([recess], 2 * radius));
  const rings = ringsIn(offset(room, SLACK_MM - radius), radius, stepover);
  const loops = rings.flat();
  return {
    walls,
    inner: pieces.reduce((a, b) => a + b, 0),
    elements: loops.reduce((sum, loop) => sum + segments(loop).length, 0),
    innermost: rings.at(-1)![0]!,
  };
}

/** Rings one stepover apart, from the wall inwards, until the cutter reaches across. */
function ringsIn(domain: readonly Region[], radius: number, stepover: number): Loop[][] {
  const rings: Loop[][] = [];
  for (let by = 0; ; by += stepover) {
    const ring = by === 0 ? domain : offset(domain, -by);
    rings.push(ring.flatMap(({ outer, holes }) => [outer, ...holes]));
    if (offset(domain, -(by + radius)).length === 0) return rings.filter((loops) => loops.length > 0);
  }
}

/** A slot as wide as the cutter closes up at exactly its radius, mm. */
const SLACK_MM = 0.004;

/** How finely a track is looked at, mm. */
const CHIP_MM = 1;

/** The edge of a recess that borders on wood, not on the part's outline: whole loops, or paths. */
function wallOf(recess: Region, outline: Loop): Curve[] {
  const isWall = (side: Segment): boolean =>
    [0.1, 0.5, 0.9].some((t) => distanceTo(outline, along(side, t)) > SLACK_MM);
  return [recess.outer, ...recess.holes].flatMap((loop): Curve[] => {
    const sides = segments(loop);
    const edge = sides.findIndex((side) => !isWall(side));
    if (edge < 0) return [loop];
    const runs: Segment[][] = [[]];
    for (const side of [...sides.slice(edge), ...sides.slice(0, edge)])
      if (isWall(side)) runs.at(-1)!.push(side);
      else runs.push([]);
    return runs.filter((run) => run.length > 0).map((run) => pathOf(run));
  });
}

/** Whether a track passes a wall here, rather than goes round its end. */
function passes(wall: Curve, p: Point, reach: number): boolean {
  const foot = nearest(wall, p);
  const isEnd = !wall.closed && (foot.s < SLACK_MM || foot.s > lengthOf(wall) - SLACK_MM);
  return foot.distance <= reach && !isEnd;
}

/** The stretches of a closed track whose points lie within `reach` of a wall. */
function runsNear(walls: readonly Curve[], track: readonly Segment[], reach: number): Segment[][] {
  const runs: Segment[][] = [];
  let open = false;
  for (const segment of track) {
    const count = Math.max(1, Math.ceil(segmentLength(segment) / CHIP_MM));
    const isNear = Array.from({ length: count }, (_, i) => {
      const p = along(segment, (i + 0.5) / count);
      return walls.some((wall) => passes(wall, p, reach));
    });
    for (let i = 0; i < count; i++) {
      if (!isNear[i]) {
        open = false;
        continue;
      }
      let to = i;
      while (isNear[to + 1]) to++;
      const piece = part(segment, i / count, (to + 1) / count);
      if (open) runs.at(-1)!.push(piece);
      else runs.push([piece]);
      open = to === count - 1;
      i = to;
    }
  }
  return runs;
}

function part(segment: Segment, from: number, to: number): Segment {
  const ends = { from: along(segment, from), to: along(segment, to) };
  return segment.kind === "line"
    ? { kind: "line", ...ends }
    : { ...segment, ...ends, sweep: segment.sweep * (to - from) };
}
