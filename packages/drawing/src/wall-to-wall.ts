import { areaOf, boundsOf, distance, meetings, type Region, type Segment, segments } from "@dryfit/geometry";

/**
 * How wide a channel or a frame is: from the middle of its longest straight wall across to the next one, mm.
 * Null for what fills its box, such as a rectangle, whose sides say all.
 */
export function wallToWall(region: Region): number | null {
  const { min, max } = boundsOf(region.outer);
  if (areaOf([region]) > FILLED * (max.x - min.x) * (max.y - min.y)) return null;
  const walls = [region.outer, ...region.holes].flatMap((loop) => segments(loop));
  const [longest] = walls
    .filter(({ kind }) => kind === "line")
    .sort((a, b) => distance(b.from, b.to) - distance(a.from, a.to));
  if (!longest) return null;
  const { from, to } = longest;
  const long = distance(from, to);
  const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
  const reach = max.x - min.x + (max.y - min.y);
  // The region lies to the left of its walls: outlines run counter-clockwise, holes clockwise.
  const across = {
    x: middle.x - ((to.y - from.y) / long) * reach,
    y: middle.y + ((to.x - from.x) / long) * reach,
  };
  const ray: Segment = { kind: "line", from: middle, to: across };
  const met = walls
    .filter((wall) => wall !== longest)
    .flatMap((wall) => meetings(ray, wall))
    .map((p) => distance(middle, p));
  return met.length === 0 ? null : Math.min(...met);
}

/** Of its box: a rectangle with rounded corners fills more. */
const FILLED = 0.85;
