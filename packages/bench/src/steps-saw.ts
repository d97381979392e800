import { boundsOf, difference, rectangle } from "@dryfit/geometry";
import type { Assembly, Part } from "@dryfit/joinery";
import { drilledHoles } from "./drilling.ts";
import { blankMinutes, cornerMinutes, drillMinutes } from "./minutes.ts";
import { isSawn } from "./outside.ts";
import { listed, type Step, type StepFigure } from "./step.ts";

/** Blanks: every part as a rectangle first, because fences and templates are laid on its edges. */
export function sawBlanks(assembly: Assembly): Step {
  return {
    id: "saw-blanks",
    title: "Saw all parts to size, square",
    parts: assembly.parts.map(({ id }) => id),
    tool: null,
    figures: bySize(assembly.parts).map(({ parts, size }) => ({
      what: listed(parts.map(({ id }) => id)),
      mm: size,
      by: true,
    })),
    notes: [
      "saw-plan.html has every cut in order, with what is left of each board.",
      "Write on each part, on face A: its name, which face it is, which edge is the bottom and which the left.",
      "Keep offcuts of the same sheet: every setting below is tried on one first.",
      "Cheeks stay rectangles until their housings and openings are cut.",
    ],
    minutes: blankMinutes(assembly.parts.length),
    first: "Measure both diagonals of the base: they must be equal.",
  };
}

/** Corners sawn away once grooves and rebates are cut. */
export function sawCorners(assembly: Assembly): readonly Step[] {
  const parts = assembly.parts.filter(({ outline }) => isSawn(outline) && corners({ outline }).length > 0);
  if (parts.length === 0) return [];
  return [
    {
      id: "saw-corners",
      title: "Saw the tongues' ends away",
      parts: parts.map(({ id }) => id),
      tool: null,
      figures: parts.flatMap((part) => cornerFigures(part)),
      notes: [
        "From the corner: the first figure along the bottom or top edge, the second along the side. Saw on the waste side of the line.",
        "Inside corners stay square; the drawing's small radius there is only what a machine's cutter would leave.",
      ],
      minutes: cornerMinutes(parts.length),
      first: null,
    },
  ];
}

/** Screw holes and other drilled places, each from the part's left and bottom edges. */
export function drill(assembly: Assembly): readonly Step[] {
  const holes = assembly.parts.flatMap((part) => drilledHoles(part).map((hole) => ({ part, hole })));
  if (holes.length === 0) return [];
  return [
    {
      id: "drill",
      title: "Drill",
      parts: [...new Set(holes.map(({ part }) => part.id))],
      tool: null,
      figures: sameHoles(assembly.parts),
      notes: [
        "From the left edge and from the bottom edge, seen from face A.",
        "Drill onto a clamped board of waste, so that the far veneer does not tear.",
      ],
      minutes: drillMinutes(holes.length),
      first: null,
    },
  ];
}

function bySize(
  parts: readonly Part[],
): readonly { readonly parts: readonly Part[]; readonly size: readonly [number, number] }[] {
  const sizeOf = (part: Part): readonly [number, number] => {
    const { max } = boundsOf(part.outline);
    return [max.x, max.y];
  };
  const keyOf = (part: Part): string =>
    sizeOf(part)
      .map((v) => v.toFixed(2))
      .join();
  return [...new Set(parts.map(keyOf))].map((key) => {
    const same = parts.filter((part) => keyOf(part) === key);
    return { parts: same, size: sizeOf(same[0]!) };
  });
}

/** The rectangles between an outline and its bounding box. */
function corners({ outline }: Pick<Part, "outline">) {
  const box = boundsOf(outline);
  return difference([{ outer: rectangle(box.min, box.max), holes: [] }], [{ outer: outline, holes: [] }])
    .map(({ outer }) => boundsOf(outer))
    .map(({ min, max }) => ({ x: max.x - min.x, y: max.y - min.y, low: min.y < box.min.y + 0.01 }));
}

function cornerFigures(part: Part): readonly StepFigure[] {
  const all = corners(part);
  const rows = [
    { where: "both lower corners", of: all.filter(({ low }) => low) },
    { where: "both upper corners", of: all.filter(({ low }) => !low) },
  ];
  return rows.flatMap(({ where, of }) =>
    of[0] ? [{ what: `${part.id}, ${where}`, mm: [of[0].x, of[0].y], by: true }] : [],
  );
}

function sameHoles(parts: readonly Part[]): readonly StepFigure[] {
  const groups = new Map<string, { names: string[]; holes: ReturnType<typeof drilledHoles> }>();
  for (const part of parts) {
    const holes = drilledHoles(part);
    if (holes.length === 0) continue;
    const key = holes.map(({ at, diameter }) => [...at, diameter].map((v) => v.toFixed(2)).join()).join(" ");
    const group = groups.get(key) ?? { names: [], holes };
    group.names.push(part.id);
    groups.set(key, group);
  }
  return [...groups.values()].flatMap(({ names, holes }) =>
    holes.map((hole) => ({
      what: `${listed(names)}: hole of ${Number(hole.diameter.toFixed(2))}${hole.depth === null ? ", through" : `, ${Number(hole.depth.toFixed(2))} deep`}`,
      mm: hole.at,
      by: true,
    })),
  );
}
