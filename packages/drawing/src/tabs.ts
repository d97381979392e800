import {
  along,
  type Loop,
  lengthOf,
  nearest,
  type Point,
  pathOf,
  pointAt,
  segments,
  tangentAt,
} from "@dryfit/geometry";
import { pathData, spot, toPaper, type View } from "./outline.ts";
import { el, type Markup } from "./svg.ts";

/** A tab's middle on the outline, and its length along it. */
export interface DrawnTab {
  readonly at: Point;
  readonly length: number;
}

/** A part's outline, broken at each of its tabs, every break closed by two bars. */
export function outlineWithTabs(view: View, outline: Loop, tabs: readonly DrawnTab[]): Markup {
  const round = lengthOf(outline);
  const breaks = tabs
    .map((tab) => ({ ...nearest(outline, tab.at), length: tab.length }))
    .filter(({ distance }) => distance < ON_OUTLINE)
    .map(({ s, length }) => ({ from: s - length / 2, to: s + length / 2 }))
    .sort((a, b) => a.from - b.from);
  if (breaks.length === 0) return el("path", { class: "outline", d: pathData(view, [outline]) });
  const kept = breaks.map((b, i) => {
    const next = breaks[i + 1] ?? { from: breaks[0]!.from + round };
    return stretch(view, outline, b.to, next.from);
  });
  const bars = breaks.flatMap(({ from, to }) => [bar(view, outline, from), bar(view, outline, to)]);
  return el("path", { class: "outline", d: kept.join("") }) + el("path", { class: "tab", d: bars.join("") });
}

/** How far from an outline a tab may be said to stand and still belong to it, mm. */
const ON_OUTLINE = 1;

/** Half a bar's length, mm of paper. */
const BAR = 1.2;

/** The outline from one distance along it to another, both counted on beyond its start. */
function stretch(view: View, outline: Loop, from: number, to: number): string {
  const round = lengthOf(outline);
  const start = ((from % round) + round) % round;
  const span = to - from;
  if (span <= 0) return "";
  const list = segments(outline);
  const pieces: string[] = [];
  let at = 0;
  for (const s of [...list, ...list]) {
    const path = pathOf([s]);
    const size = lengthOf(path);
    const [a, b] = [Math.max(start - at, 0) / size, Math.min(start + span - at, size) / size];
    at += size;
    if (a >= 1 || b <= 0 || b <= a) continue;
    const [p, q] = [along(s, a), along(s, b)];
    const part =
      s.kind === "line" ? { ...s, from: p, to: q } : { ...s, from: p, to: q, sweep: s.sweep * (b - a) };
    const data = pathData(view, [pathOf([part])]);
    pieces.push(pieces.length === 0 ? data : data.replace(/^M[^LA]*/, ""));
  }
  return pieces.join("");
}

function bar(view: View, outline: Loop, s: number): string {
  const round = lengthOf(outline);
  const at = ((s % round) + round) % round;
  const [p, way] = [toPaper(view, pointAt(outline, at)), tangentAt(outline, at)];
  const side = { x: way.y * BAR, y: way.x * BAR };
  return `M${spot({ x: p.x - side.x, y: p.y - side.y })}L${spot({ x: p.x + side.x, y: p.y + side.y })}`;
}
