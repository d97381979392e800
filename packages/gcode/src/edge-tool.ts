import { CUT_MM } from "@dryfit/geometry";
import type { RoundOver } from "@dryfit/joinery";
import type { Cutter } from "./cutter.ts";

/** How a shaped cutter is led along an edge so that its profile leaves what was asked for. mm. */
export interface EdgeTool {
  readonly cutter: Cutter;
  /** How far outside the finished edge the cutter's axis runs. */
  readonly axis: number;
  /** How far below the face its tip runs, and how far above the tip its profile begins. */
  readonly tip: number;
  readonly below: number;
  /** The radius that it cuts at the face. */
  readonly radius: number;
  /** What must be gone first on the outside, from the edge and from the face: room for the bearing. Null: nothing. */
  readonly channel: { readonly width: number; readonly depth: number } | null;
}

/**
 * The cutter of the drawer that makes this edge: a round-over cutter of its radius, whose bearing then just touches
 * the edge, or for a chamfer a V cutter of 90°, whose point runs a little outside. Null: there is none.
 */
export function edgeToolFor(
  cutters: readonly Cutter[],
  { form, radius }: Pick<RoundOver, "form" | "radius">,
): EdgeTool | null {
  const tools = cutters.flatMap((cutter) =>
    form === "round" ? roundOverTool(cutter, radius) : chamferTool(cutter, radius),
  );
  return tools[0] ?? null;
}

/** How far from the finished edge another part must lie, mm; 0 where no cutter makes such an edge. */
export function edgeRoom(edge: Pick<RoundOver, "form" | "radius">, cutters: readonly Cutter[]): number {
  const tool = edgeToolFor(cutters, edge);
  if (tool === null) return 0;
  return (
    Math.max(tool.axis + Math.max(tool.radius, tool.cutter.diameter / 2), tool.channel?.width ?? 0) + ROOM_MM
  );
}

/** Air between a shaped cutter and the next part, mm. */
const ROOM_MM = 0.2;

function roundOverTool(cutter: Cutter, radius: number): EdgeTool[] {
  const { kind, cornerRadius, bearingDiameter, bearingHeight } = cutter;
  if (kind !== "round-over" || cornerRadius === null || bearingDiameter === null || bearingHeight === null)
    return [];
  if (Math.abs(cornerRadius - radius) > CUT_MM / 2) return [];
  const tip = radius + bearingHeight;
  return [
    {
      cutter,
      axis: bearingDiameter / 2,
      tip,
      below: bearingHeight,
      radius: bearingDiameter / 2 + radius,
      channel: { width: bearingDiameter + BEARING_AIR_MM, depth: tip + TIP_AIR_MM },
    },
  ];
}

function chamferTool(cutter: Cutter, width: number): EdgeTool[] {
  const { kind, angleDeg, diameter, fluteLength } = cutter;
  if (kind !== "v" || angleDeg === null || Math.abs(angleDeg - 90) > SAME_ANGLE_DEG) return [];
  const tip = width + POINT_MM;
  if (tip > fluteLength || tip > diameter / 2) return [];
  return [{ cutter, axis: POINT_MM, tip, below: 0, radius: tip, channel: null }];
}

/** Air beside a bearing and under it, mm. */
const BEARING_AIR_MM = 0.3;
const TIP_AIR_MM = 0.5;

/** How far outside the edge a V cutter's point runs, mm: a point does not cut. */
const POINT_MM = 0.5;

/** Far less than shows over a chamfer's width. */
const SAME_ANGLE_DEG = 0.1;
