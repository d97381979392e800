import { el, fromAbove, outsideView } from "@dryfit/drawing";
import { type CaseOnPaper, derived, driving, framed } from "./frame.ts";
import { across, upright } from "./lines.ts";
import { openingPlaces } from "./opening-places.ts";
import type { ViewSpec } from "./view-spec.ts";

const ROOM = { left: 27, right: 8, top: 25, bottom: 18 };

/** How much of the paper's width the view needs beside the wood. */
export const PLAN_ROOM: number = ROOM.left + ROOM.right;

/** From above: the inside width, the outside measures, openings in base and slats. */
export function plan(on: CaseOnPaper, scale: number): ViewSpec {
  const { design, assembly } = on;
  const { width } = design.inside;
  const frame = framed(on, fromAbove, scale, ROOM);
  const { view, at, box, size } = frame;
  const inner = across(at({ x: 0, y: box.max.y }), at({ x: width, y: box.max.y }), -7);
  const outer = across(at({ x: box.min.x, y: box.min.y }), at({ x: box.max.x, y: box.min.y }), 10);
  const depth = upright(at({ x: box.min.x, y: box.min.y }), at({ x: box.min.x, y: box.max.y }), -14);
  const slats = assembly.parts.filter(({ panel }) => panel === "slat").map(({ id }) => id);
  const openings = openingPlaces(on, frame, ["base", ...slats]);
  const middle = at({ x: width / 2 });
  return {
    id: "plan",
    title: "Plan, from above",
    size,
    scale,
    description: "The case from above, its front below.",
    body: [
      outsideView(assembly, fromAbove, view),
      el("path", {
        class: "centre",
        d: `M${middle.x} ${at({ y: box.max.y }).y - 3}V${at({ y: box.min.y }).y + 3}`,
      }),
      inner.lines,
      outer.lines,
      depth.lines,
      openings.lines,
    ].join(""),
    figures: [
      driving("inside.width", "Inside width", width, inner.at),
      ...openings.figures,
      ...derived(on, "outside.depth", depth.at),
      ...derived(on, "outside.width", outer.at),
    ],
    handles: [],
    places: { ...openings.places },
  };
}
