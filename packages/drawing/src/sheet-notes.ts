import { boundsOf, type Curve, contains, flatten, type Loop } from "@dryfit/geometry";
import type { Face } from "@dryfit/joinery";
import { length, SMALL } from "./lettering.ts";
import type { Note, PaperBox, Stroke } from "./notes.ts";
import { toPaper, type View } from "./outline.ts";
import type { DrawnBore, DrawnPart, Wood } from "./wood.ts";

/** Part names first: they matter most. Then depths, then bores. */
export function notesOf(wood: Wood, view: View, up: Face): readonly Note[] {
  return [
    ...wood.parts.map((part) => partNote(part, view, up)),
    ...wood.recesses.map(({ depth, middle }) => ({
      at: toPaper(view, middle),
      lines: [`${length(depth, 2)} deep`],
      size: SMALL,
    })),
    ...boreNotes(wood, view),
  ];
}

function partNote(part: DrawnPart, view: View, up: Face): Note {
  const [x, y] = part.size;
  const size = Math.min(4.2, Math.max(SMALL, part.labelHeight * view.scale));
  const measure = `${length(x)} × ${length(y)}`;
  const remark = up === "A" ? part.remark : "";
  return {
    at: toPaper(view, part.labelAt),
    lines: [part.id, measure, remark].filter(Boolean),
    otherwise: [
      [part.id, measure],
      [[part.id, measure, remark].filter(Boolean).join("  ")],
      [`${part.id}  ${measure}`],
      [part.id],
    ],
    home: homeOf(part, view),
    size,
    named: true,
    turned: part.labelTurned,
  };
}

function homeOf({ outline }: DrawnPart, view: View): PaperBox {
  const { min, max } = boundsOf(outline);
  const [low, high] = [toPaper(view, min), toPaper(view, max)];
  return { min: { x: low.x, y: high.y }, max: { x: high.x, y: low.y } };
}

/** One note for all bores of a kind in a part: "4 × Ø3.2, 8 deep". */
function boreNotes(wood: Wood, view: View): readonly Note[] {
  const groups = new Map<string, DrawnBore[]>();
  for (const bore of wood.bores) {
    const part = wood.parts.findIndex(({ outline }) => contains(outline, bore.centre) === "inside");
    const key = `${part} ${bore.diameter} ${bore.depth} ${bore.face}`;
    groups.set(key, [...(groups.get(key) ?? []), bore]);
  }
  return [...groups.values()].map((bores) => {
    const [{ diameter, depth, centre }] = bores as [DrawnBore, ...DrawnBore[]];
    const count = bores.length > 1 ? `${bores.length} × ` : "";
    const how = depth === null ? "through" : `${length(depth, 2)} deep`;
    return { at: toPaper(view, centre), lines: [`${count}Ø${length(diameter, 2)} ${how}`], size: SMALL };
  });
}

/** The lines that words should not stand on. */
export function strokesFor(wood: Wood, edge: readonly Loop[], view: View): readonly Stroke[] {
  const curves: readonly Curve[] = [
    ...edge,
    ...wood.parts.map((part) => part.outline),
    ...wood.openings,
    ...wood.recesses.flatMap(({ region }) => [region.outer, ...region.holes]),
    ...wood.bores.map((bore) => bore.loop),
  ];
  return curves.flatMap((curve) => {
    const points = flatten(curve, 0.5).map((p) => toPaper(view, p));
    return points.map((p, i): Stroke => [p, points[(i + 1) % points.length]!]);
  });
}
