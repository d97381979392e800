import { arcsine, type Curve, circle, type Point, rectangle, tangentOf, type Vertex } from "@dryfit/geometry";
import type { SvgNode } from "./svg-tree.ts";

/** The outline that an element draws, y down as it stands there. Empty for one that draws none. */
export function curvesOf({ name, attributes }: SvgNode): readonly Curve[] {
  const n = (key: string): number => Number(attributes[key] ?? 0);
  switch (name) {
    case "path":
      return pathCurves(attributes.d ?? "");
    case "line":
      return [open([vertex({ x: n("x1"), y: n("y1") }), vertex({ x: n("x2"), y: n("y2") })])];
    case "circle":
      return [circle({ x: n("cx"), y: n("cy") }, n("r"))];
    case "rect": {
      const min = { x: n("x"), y: n("y") };
      return [rectangle(min, { x: min.x + n("width"), y: min.y + n("height") })];
    }
    default:
      return [];
  }
}

/** Path data as we write it: lines, and arcs of circles. */
function pathCurves(data: string): readonly Curve[] {
  const curves: Curve[] = [];
  let run: Vertex[] = [];
  let at: Point = { x: 0, y: 0 };
  const close = (closed: boolean): void => {
    const whole = closed && run.length > 1 && same(run[0]!, run.at(-1)!) ? run.slice(0, -1) : run;
    if (whole.length > 1) curves.push(closed ? { closed: true, vertices: whole } : open(whole));
    run = [];
  };
  const to = (next: Point): void => {
    run.push(vertex(next));
    at = next;
  };
  for (const [, command, inside] of data.matchAll(/([A-Za-z])([^A-Za-z]*)/g)) {
    const numbers = inside!.match(/-?[\d.]+(?:e-?\d+)?/g)?.map(Number) ?? [];
    const kind = command!.toUpperCase();
    const size = SIZES[kind];
    if (size === undefined) throw new RangeError(`a drawing's path has the command ${command}`);
    if (kind === "Z") {
      const [first] = run;
      close(true);
      at = first ?? at;
      continue;
    }
    for (let i = 0; i < numbers.length; i += size) {
      const [a, b, , large, sweep, x, y] = numbers.slice(i, i + size) as [number, number, ...number[]];
      const o = command === kind ? { x: 0, y: 0 } : at;
      if (kind === "M" && i === 0) close(false);
      if (kind !== "M" && run.length === 0) run.push(vertex(at));
      if (kind === "H") to({ x: o.x + a, y: at.y });
      else if (kind === "V") to({ x: at.x, y: o.y + a });
      else if (kind === "A") {
        const end = { x: o.x + x!, y: o.y + y! };
        run[run.length - 1] = { ...run.at(-1)!, bulge: arcBulge(at, end, a, large === 1, sweep === 1) };
        to(end);
      } else to({ x: o.x + a, y: o.y + b });
    }
  }
  close(false);
  return curves;
}

const SIZES: Readonly<Record<string, number>> = { M: 2, L: 2, H: 1, V: 1, A: 7, Z: 0 };

/** The tangent of a quarter of the turn: positive where it runs from x to y. */
function arcBulge(from: Point, to: Point, radius: number, large: boolean, positive: boolean): number {
  const half = arcsine(Math.min(1, Math.hypot(to.x - from.x, to.y - from.y) / (2 * radius)));
  const turn = large ? 2 * Math.PI - 2 * half : 2 * half;
  return tangentOf(turn / 4) * (positive ? 1 : -1);
}

function vertex({ x, y }: Point): Vertex {
  return { x, y, bulge: 0 };
}

function open(vertices: readonly Vertex[]): Curve {
  return { closed: false, vertices };
}

function same(a: Point, b: Point): boolean {
  return Math.hypot(a.x - b.x, a.y - b.y) < 1e-9;
}
