import { SAME_POINT_MM } from "@dryfit/geometry";
import type { Design, EdgeName, OpeningRules } from "./design.ts";
import { panelUnknown } from "./edges.ts";
import type { Finding } from "./finding.ts";
import { finding, when } from "./findings.ts";
import { formatLength } from "./length.ts";
import { edgesOn, panelsOf } from "./openings.ts";
import { leastBox, reliefOf } from "./relief.ts";

/** A panel thins to one ply: less holds nothing, mm; common practice, no source. */
const THINNEST_WEB_MM = 1.5;

/** Panels, places and sizes of the openings, before they are drawn. */
export function checkOpenings(design: Design): Finding[] {
  const panels = panelsOf(design);
  const ids = design.openings.map((o) => o.id);
  return design.openings.flatMap((o, i) => {
    const path = `openings[${i}]`;
    return [
      ...when(ids.indexOf(o.id) !== i, () =>
        finding(
          "name_twice",
          "error",
          `${path}.id`,
          `Two openings are called "${o.id}".`,
          {},
          "Give one of them another id.",
        ),
      ),
      ...(panels.includes(o.panel) ? checkPlace(o, path) : [panelUnknown(`${path}.panel`, o.panel, panels)]),
      ...checkSize(o, path, design),
      ...checkRelief(o, path, design),
    ];
  });
}

function checkPlace(o: OpeningRules, path: string): Finding[] {
  const [across, up] = edgesOn(o.panel);
  const given = Object.keys(o.from) as EdgeName[];
  const known = [...across!, ...up!];
  const once = (names: readonly EdgeName[]): boolean =>
    given.filter((name) => names.includes(name)).length === 1;
  return when(!once(across!) || !once(up!) || given.some((name) => !known.includes(name)), () =>
    finding(
      "opening_place",
      "error",
      `${path}.from`,
      `On ${o.panel} a place is told from ${across!.join(" or ")}, and from ${up!.join(" or ")}; found ${given.length === 0 ? "nothing" : given.join(", ")}.`,
      {},
      `Give one of ${across!.join(", ")} and one of ${up!.join(", ")}.`,
    ),
  );
}

function checkSize(o: OpeningRules, path: string, { cutter, sheet, units }: Design): Finding[] {
  const say = (mm: number): string => formatLength(mm, units);
  const { width, height, corner, hole, screw, pocket, leave } = o.size;
  const narrow = width === undefined || height === undefined ? null : Math.min(width, height);
  const wood =
    leave === undefined ? null : Math.min(leave, leave + sheet.thickness.min - sheet.thickness.mean);
  return [
    ...when(narrow !== null && narrow < cutter - SAME_POINT_MM, () =>
      finding(
        "opening_too_small",
        "error",
        `${path}.size`,
        `"${o.id}" is ${say(narrow!)} at its narrowest; the cutter is ${say(cutter)}.`,
        { narrowest: narrow!, cutter },
        "Make it wider or take a smaller cutter.",
      ),
    ),
    ...when(
      o.relief === "none" &&
        corner !== undefined &&
        corner < cutter / 2 - SAME_POINT_MM &&
        narrow !== null &&
        narrow >= cutter,
      () =>
        finding(
          "opening_corner_tight",
          "error",
          `${path}.size.corner`,
          `"${o.id}" has corners of radius ${say(corner!)}; a cutter of ${say(cutter)} leaves ${say(cutter / 2)}.`,
          { corner: corner!, least: cutter / 2 },
          `Make the corner ${say(cutter / 2)} or more, or take a smaller cutter.`,
        ),
    ),
    ...[
      { name: "hole", diameter: hole },
      { name: "screw", diameter: screw },
    ].flatMap(({ name, diameter }) =>
      when(diameter !== undefined && diameter > 0 && diameter < cutter, () =>
        finding(
          "hole_drilled",
          "note",
          `${path}.size.${name}`,
          `"${o.id}" has a hole of ${say(diameter!)}: the cutter of ${say(cutter)} does not fit in, it is drilled.`,
          { diameter: diameter!, cutter },
        ),
      ),
    ),
    ...when(pocket !== undefined && pocket > (hole ?? 0) && wood !== null && wood < THINNEST_WEB_MM, () =>
      finding(
        "pocket_deep",
        "error",
        `${path}.size.leave`,
        `The pocket behind "${o.id}" leaves ${say(wood!)} where the sheet is thinnest; ${say(THINNEST_WEB_MM)} is one ply.`,
        { left: wood!, least: THINNEST_WEB_MM },
        "Leave more wood.",
      ),
    ),
  ];
}

/** Whether the corners want the relief that is asked for, and the walls have room for it. */
function checkRelief(o: OpeningRules, path: string, { cutter, units }: Design): Finding[] {
  if (o.relief === "none") return [];
  const say = (mm: number): string => formatLength(mm, units);
  const relief = reliefOf(o, cutter / 2);
  if (relief === "none") {
    return [
      finding(
        "relief_idle",
        "warning",
        `${path}.relief`,
        `"${o.id}" has no corner that the cutter leaves round: it is cut without relief.`,
        { corner: o.size.corner ?? 0, cutter },
        "Leave relief out, or give it the cutter's own corners.",
      ),
    ];
  }
  const { width = 0, height = 0 } = o.size;
  const least = leastBox(relief, cutter / 2);
  return when(width < least.x - SAME_POINT_MM || height < least.y - SAME_POINT_MM, () =>
    finding(
      "relief_too_wide",
      "error",
      `${path}.relief`,
      `"${o.id}" is ${say(width)} × ${say(height)}; corners relieved for a cutter of ${say(cutter)} need ${say(least.x)} × ${say(least.y)}.`,
      { width, height, leastWidth: least.x, leastHeight: least.y },
      "Take a smaller cutter, another relief, or none.",
    ),
  );
}
