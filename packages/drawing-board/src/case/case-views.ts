import { type CaseNumbers, numbersOf } from "@dryfit/joinery";
import type { Drawable } from "../state/drawn.ts";
import { ELEVATION_ROOM, elevation } from "./elevation.ts";
import { type CaseOnPaper, scaleFor } from "./frame.ts";
import { jointView } from "./joint.ts";
import { PLAN_ROOM, plan } from "./plan.ts";
import { RAIL_ROOM, railView } from "./rail-view.ts";
import { section } from "./section.ts";
import { tierView } from "./tier.ts";
import type { ViewSpec } from "./view-spec.ts";

/**
 * The views of a case for a screen of a width: side by side at one scale, or below each other where it is narrow. mm.
 * A phone shows a view through a window, and one pushes the paper along under it: figures need their room.
 */
export function caseViews({ design, assembly, explanations }: Drawable, screen: number): readonly ViewSpec[] {
  const width = Math.max(screen, LEAST);
  const numbers: CaseNumbers = numbersOf(design);
  const on: CaseOnPaper = { design, assembly, numbers, explanations };
  const { depth, width: wide } = numbers.outside;
  const isNarrow = width < NARROW;
  const beside = isNarrow ? width : (width - BETWEEN) / 2;
  const side = scaleFor(depth, beside - ELEVATION_ROOM);
  const above = Math.min(isNarrow ? 1 : side, scaleFor(wide, (isNarrow ? width : 0.64 * width) - PLAN_ROOM));
  const rails = Math.min(isNarrow ? 1 : side, scaleFor(wide, (isNarrow ? width : 0.64 * width) - RAIL_ROOM));
  return [
    elevation(on, side),
    section(on, side),
    plan(on, above),
    ...tierView(on, isNarrow ? width : Math.min(0.5 * width, 190)),
    ...jointView(on, width),
    ...railView(on, "rail-back", rails),
    ...railView(on, "rail-front", rails),
  ];
}

/** Paper narrower than this takes one view beside the other no more. */
const NARROW = 230;
const BETWEEN = 4;
/** Paper narrower than this has figures on top of each other. */
const LEAST = 150;
