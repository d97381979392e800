import { areaOf, boxOf, type Instance, type InstanceItem, type Point, turned } from "./nest-instance.ts";

/** What makes an instance impossible to lay out, a sentence for each item at fault. */
export function faultsOf(instance: Instance): string[] {
  const sheets = sheetSizes(instance);
  return instance.items.flatMap((item) => {
    const told = (text: string): string[] => [`${instance.name}: item ${item.id} ${text}`];
    if (item.polygon.length < 3 || !(areaOf(item.polygon) > 0))
      return told("encloses no area: give its corners counter-clockwise");
    if (crossesItself(item.polygon)) return told("crosses its own outline: part it into simple outlines");
    if (!(Number.isInteger(item.demand) && item.demand > 0)) return told("is asked for less than once");
    if (item.allowedRotationsDeg.length === 0) return told("may not lie in any direction: allow 0 at least");
    // A knapsack may leave pieces out.
    if (instance.kind === "guillotine-knapsack" || instance.kind === "keep-out") return [];
    return sheets.some((sheet) => fits(item, sheet))
      ? []
      : told("fits no sheet in any direction it may lie in");
  });
}

function sheetSizes({
  kind,
  stripWidth,
  bin,
  sheetSizes: sizes,
  sheets,
}: Instance): (readonly [number, number])[] {
  if (kind === "strip") return [[Number.POSITIVE_INFINITY, stripWidth!]];
  if (sheets)
    return sheets.map(({ polygon }) => {
      const [x0, y0, x1, y1] = boxOf(polygon);
      return [x1 - x0, y1 - y0] as const;
    });
  return (sizes ?? [bin!]).map(({ width, height }) => [width, height] as const);
}

function fits(item: InstanceItem, [w, h]: readonly [number, number]): boolean {
  return item.allowedRotationsDeg.some((degrees) => {
    const [x0, y0, x1, y1] = boxOf(turned(item.polygon, degrees));
    return x1 - x0 <= w * (1 + 1e-9) && y1 - y0 <= h * (1 + 1e-9);
  });
}

function crossesItself(polygon: readonly Point[]): boolean {
  const n = polygon.length;
  return polygon.some((a, i) =>
    polygon.some((c, j) => j > i && properlyCross(a, polygon[(i + 1) % n]!, c, polygon[(j + 1) % n]!)),
  );
}

function properlyCross(a: Point, b: Point, c: Point, d: Point): boolean {
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

/** Above 0 where c lies left of the way from a to b. */
function side(a: Point, b: Point, c: Point): number {
  return Math.sign((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]));
}
