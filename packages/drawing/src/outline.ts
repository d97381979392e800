import { type Curve, type Point, segments } from "@dryfit/geometry";
import { figure } from "./svg.ts";

/** A position on the paper, mm from its upper left, y down. */
export interface OnPaper {
  readonly x: number;
  readonly y: number;
}

/** From the wood's frame (y up) to the paper (y down): `scale` paper millimetres per millimetre. */
export interface View {
  readonly origin: OnPaper;
  readonly scale: number;
}

export function toPaper({ origin, scale }: View, p: Point): OnPaper {
  return { x: origin.x + p.x * scale, y: origin.y - p.y * scale };
}

/** The `d` of an SVG path for curves of lines and arcs; arcs stay arcs. */
export function pathData(view: View, curves: readonly Curve[]): string {
  return curves.map((curve) => curveData(view, curve)).join(" ");
}

function curveData(view: View, curve: Curve): string {
  const parts = segments(curve);
  const first = parts[0];
  if (!first) return "";
  const steps = parts.map((s) => {
    const to = spot(toPaper(view, s.to));
    if (s.kind === "line") return `L${to}`;
    const radius = figure(s.radius * view.scale);
    // Counter-clockwise in the wood is SVG's negative sense on the paper, where y points down.
    return `A${radius} ${radius} 0 ${Math.abs(s.sweep) > Math.PI + 1e-9 ? 1 : 0} ${s.sweep > 0 ? 0 : 1} ${to}`;
  });
  return `M${spot(toPaper(view, first.from))}${steps.join("")}${curve.closed ? "Z" : ""}`;
}

export function spot({ x, y }: OnPaper): string {
  return `${figure(x)} ${figure(y)}`;
}
