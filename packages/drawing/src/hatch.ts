import { el, figure, type Markup } from "./svg.ts";

/** A recess seen on a drawing: how deep, and from which face. */
export interface HatchKind {
  readonly depth: number;
  readonly face: "A" | "B";
}

/** Distance of hatch lines on paper, mm: 6 for a recess 2 mm deep, 2 for one of 10; deeper looks darker. */
export function hatchSpacing(depth: number): number {
  return Math.min(6.5, Math.max(1.2, 6 - (depth - 2) / 2));
}

/** The name of a hatch in one drawing; `prefix` keeps two drawings on one page apart. */
export function hatchId(prefix: string, { depth, face }: HatchKind): string {
  return `${prefix}-hatch-${face}-${figure(depth).replace(".", "_")}`;
}

/** Face A is hatched rising to the right, face B falling. */
export function hatchPattern(prefix: string, kind: HatchKind): Markup {
  const spacing = hatchSpacing(kind.depth);
  return el(
    "pattern",
    {
      id: hatchId(prefix, kind),
      width: spacing,
      height: spacing,
      patternUnits: "userSpaceOnUse",
      patternTransform: `rotate(${kind.face === "A" ? 45 : -45})`,
    },
    el("line", {
      class: kind.face === "A" ? "hatch" : "hatch face-b",
      x1: spacing / 2,
      y1: 0,
      x2: spacing / 2,
      y2: spacing,
    }),
  );
}
