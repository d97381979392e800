import {
  boreMark,
  el,
  hatchPattern,
  innerPoint,
  keepOutMark,
  type Markup,
  openingMark,
  outlineWithTabs,
  pathData,
  recessMark,
  spot,
  toPaper,
  type View,
} from "@dryfit/drawing";
import {
  boundsOf,
  circle,
  contains,
  type Loop,
  type Point,
  place,
  placeCurve,
  placeRegion,
  rectangle,
} from "@dryfit/geometry";
import type { Shown } from "@dryfit/job";
import type { Part, Units } from "@dryfit/joinery";
import { figureText } from "../figures/figure-text.ts";
import { type Place, placementOf } from "./place.ts";

type LaidSheet = Shown["layout"]["sheets"][number];

/** Round the sheet on paper, mm. */
const EDGE = 2;

export interface LaidPaper {
  readonly view: View;
  readonly width: number;
  readonly height: number;
}

/** A sheet on paper so wide, to a scale that needs no rule: it is there to be moved on. */
export function laidPaper({ stock: { size } }: LaidSheet, width: number): LaidPaper {
  const scale = Math.min((width - 2 * EDGE) / size[0], TALLEST / size[1]);
  const height = size[1] * scale + 2 * EDGE;
  return {
    view: { scale, origin: { x: EDGE, y: height - EDGE } },
    width: size[0] * scale + 2 * EDGE,
    height,
  };
}

const TALLEST = 230;

/** What lies under the parts: the sheet, what is kept of it, where nothing may be cut, and the screws. */
export function groundMarks(
  sheet: LaidSheet,
  shown: Shown,
  screws: readonly Point<"sheet">[],
  { view }: LaidPaper,
  units: Units,
): Markup {
  const [w, h] = sheet.stock.size;
  const edge: readonly Loop[] = sheet.stock.outline
    ? [sheet.stock.outline.outer, ...sheet.stock.outline.holes]
    : [rectangle({ x: 0, y: 0 }, { x: w, y: h })];
  const length = (mm: number): string => figureText(mm, "length", units);
  return [
    el("path", { class: "sheet", d: pathData(view, edge), "fill-rule": "evenodd" }),
    ...shown.offcuts
      .filter((offcut) => offcut.sheet === sheet.id)
      .map(({ x, y, w: across, h: up }) => {
        const [low, middle] = [toPaper(view, { x, y }), toPaper(view, { x: x + across / 2, y: y + up / 2 })];
        const words = `keep ${length(across)} × ${length(up)}`;
        const isUpright = across < up;
        return (
          el("rect", {
            class: "offcut",
            x: low.x,
            y: low.y - up * view.scale,
            width: across * view.scale,
            height: up * view.scale,
          }) + lettered(middle.x, middle.y, words, isUpright, Math.max(across, up) * view.scale)
        );
      }),
    ...sheet.stock.keepOuts.map(({ outer }) => keepOutMark(view, outer)),
    ...screws.map((at) => screwMark(view, at)),
  ].join("");
}

/** Left out where there is no room for it. */
function lettered(x: number, y: number, words: string, isUpright: boolean, room: number): Markup {
  if (room < widthOf(words)) return "";
  return el(
    "text",
    {
      class: "laid-words",
      x,
      y: y + 1,
      "font-size": LETTERS,
      "text-anchor": "middle",
      ...(isUpright ? { transform: `rotate(-90 ${x.toFixed(2)} ${y.toFixed(2)})` } : {}),
    },
    words,
  );
}

/** A head with its slot. */
function screwMark(view: View, at: Point): Markup {
  const { x, y } = toPaper(view, at);
  return (
    el("circle", { class: "screw", cx: x, cy: y, r: 1.3 }) +
    el("path", {
      class: "screw",
      d: `M${spot({ x: x - 0.9, y: y + 0.9 })}L${spot({ x: x + 0.9, y: y - 0.9 })}`,
    })
  );
}

/** Where a part's name has the most room, clear of its openings and bores. */
export function namePlace({ outline, features }: Part): Point<"panel"> {
  const holes = features.flatMap((f) =>
    f.kind === "opening" ? [f.loop] : f.kind === "bore" ? [circle(f.at, f.diameter / 2)] : [],
  );
  return innerPoint({ outer: outline, holes }) as Point<"panel">;
}

/** A part where it lies: grain, recesses, openings, bores, its edge with the tabs that hold it, and its name. */
export function laidMarks(
  part: Part,
  at: Place,
  tabs: readonly { readonly at: Point; readonly length: number }[],
  { view }: LaidPaper,
  prefix: string,
  nameAt: Point<"panel">,
): Markup {
  const sheetFromPanel = placementOf(part, at);
  const outline = placeCurve(sheetFromPanel, part.outline);
  const d = pathData(view, [outline]);
  return [
    el("path", { class: "part", d }),
    el("path", { class: "along", d, fill: `url(#${prefix}-grain)` }),
    ...part.features.map((feature) => {
      if (feature.kind === "opening") return openingMark(view, placeCurve(sheetFromPanel, feature.loop));
      if (feature.kind === "recess") {
        const region = placeRegion(sheetFromPanel, feature.region);
        return recessMark(view, { ...feature, region, middle: region.outer.vertices[0]! }, "A", prefix);
      }
      const centre = place(sheetFromPanel, feature.at);
      return boreMark(view, { ...feature, centre, loop: circle(centre, feature.diameter / 2) }, "A");
    }),
    outlineWithTabs(view, outline, tabs),
    nameMark(part, outline, place(sheetFromPanel, nameAt), view),
  ].join("");
}

/** Its name, with its recesses' depths where they fit, along its longer side; what has no room is left to the table. */
function nameMark(part: Part, outline: Loop, nameAt: Point, view: View): Markup {
  const { min, max } = boundsOf(outline);
  const isUpright = max.y - min.y > max.x - min.x;
  const deep = depthsOf(part);
  const words = deep === "" ? [part.title] : [`${part.title}, ${deep}`, part.title];
  const along = isUpright ? "y" : "x";
  const room = (at: Point): number =>
    2 * Math.min(at[along] - min[along], max[along] - at[along]) * view.scale;
  if (Math.min(max.x - min.x, max.y - min.y) * view.scale < LEAST_NAMED) return "";
  const shares = [0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9];
  const places = shares.flatMap((up) =>
    shares.map((over) => ({
      x: min.x + (max.x - min.x) * (isUpright ? up : over),
      y: min.y + (max.y - min.y) * (isUpright ? over : up),
    })),
  );
  for (const text of words)
    for (const at of [nameAt, ...places])
      if (room(at) >= widthOf(text) && isOnWood(outline, at, text, isUpright, view)) {
        const { x, y } = toPaper(view, at);
        return lettered(x, y, text, isUpright, room(at));
      }
  return "";
}

/** Whether the words stand within the part, wherever its edge bends. */
function isOnWood(outline: Loop, at: Point, words: string, isUpright: boolean, view: View): boolean {
  const [long, tall] = [widthOf(words) / view.scale, (LETTERS * 0.9) / view.scale];
  const [wide, high] = isUpright ? [tall, long] : [long, tall];
  return [-0.5, -0.25, 0, 0.25, 0.5].every((over) =>
    [-0.5, 0, 0.5].every(
      (up) => contains(outline, { x: at.x + over * wide, y: at.y + up * high }) === "inside",
    ),
  );
}

/** Narrower parts bear no name, mm of paper. */
const LEAST_NAMED = 3.4;
const LETTERS = 3;

function widthOf(words: string): number {
  return words.length * LETTERS * 0.58;
}

/** "7.2 deep", "7.8 and 7.2 deep". */
export function depthsOf({ features }: Part): string {
  const depths = new Set(
    features.flatMap((f) => (f.kind === "recess" ? [String(Number(f.depth.toFixed(2)))] : [])),
  );
  return depths.size === 0 ? "" : `${[...depths].join(" and ")} deep`;
}

/** Hatches for every depth, and wood's grain as faint lines at uneven distances. */
export function laidPatterns(parts: readonly Part[], grain: "x" | "y", prefix: string): Markup {
  const kinds = new Map(
    parts.flatMap(({ features }) =>
      features.flatMap((f) => (f.kind === "recess" ? [[`${f.face} ${f.depth}`, f] as const] : [])),
    ),
  );
  const lines = [2, 4.8, 11.2, 15.4, 17.6, 23, 26.6];
  return [
    ...[...kinds.values()].map((kind) => hatchPattern(prefix, kind)),
    el(
      "pattern",
      {
        id: `${prefix}-grain`,
        width: 28,
        height: 28,
        patternUnits: "userSpaceOnUse",
        ...(grain === "y" ? { patternTransform: "rotate(90)" } : {}),
      },
      el("path", { class: "grain", d: lines.map((y) => `M0 ${y}H28`).join("") }),
    ),
  ].join("");
}
