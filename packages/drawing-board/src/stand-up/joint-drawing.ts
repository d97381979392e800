import {
  arrowhead,
  cutPatterns,
  el,
  type Markup,
  type OnPaper,
  pathData,
  spot,
  toPaper,
  type View,
} from "@dryfit/drawing";
import type { Region } from "@dryfit/geometry";
import type { Units } from "@dryfit/joinery";
import { gapText } from "./joint-figure.ts";
import type { Gap, JointSection } from "./joint-gaps.ts";

/** A joint's section on paper, mm. */
export interface JointDrawing {
  readonly width: number;
  readonly height: number;
  readonly scale: number;
  readonly body: Markup;
}

/**
 * The joint enlarged, for paper so wide: wood hatched, the two parts opposite ways, and every gap between its
 * arrows with its figure beside the wood.
 */
export function jointDrawing(section: JointSection, width: number, units: Units): JointDrawing {
  const window = Math.min(width - FIGURES, WIDEST);
  const scale = SCALES.find((each) => REACH_MM * each <= window) ?? SCALES.at(-1)!;
  const { min, max } = section.nominal;
  const view: View = {
    scale,
    origin: {
      x: EDGE + window / 2 - ((min.x + max.x) / 2) * scale,
      y: EDGE + window / 2 + ((min.y + max.y) / 2) * scale,
    },
  };
  const frame = { x: EDGE, y: EDGE, width: window, height: window };
  const marks = figured(section.gaps, view, {
    x: EDGE + window + 4,
    top: EDGE + 4,
    bottom: EDGE + window - 2,
  });
  return {
    width: window + FIGURES,
    height: window + 2 * EDGE,
    scale,
    body: [
      cutPatterns(PREFIX),
      clashPattern(),
      el("clipPath", { id: `${PREFIX}-window` }, el("rect", frame)),
      el(
        "g",
        { "clip-path": `url(#${PREFIX}-window)` },
        wood(section.housing, view, 0),
        wood(section.tongue, view, 1),
        section.clash.length === 0
          ? ""
          : el("path", { class: "clash", d: dataOf(section.clash, view), fill: `url(#${PREFIX}-clash)` }),
      ),
      el("rect", { class: "detail-edge", ...frame }),
      ...marks.map((mark) => gapMark(mark, units)),
    ].join(""),
  };
}

const PREFIX = "stood";
const EDGE = 2;
/** Paper beside the window for the figures, mm. */
const FIGURES = 36;
const WIDEST = 110;
/** How much of the case is seen, mm. */
const REACH_MM = 24;
const SCALES = [5, 4, 3, 2.5, 2, 1.5, 1] as const;

/** Its outline is drawn inside the wood, so that the air beside it keeps its width. */
function wood(regions: readonly Region[], view: View, turn: 0 | 1): Markup {
  const d = dataOf(regions, view);
  const id = `${PREFIX}-wood-${turn}`;
  return (
    el("clipPath", { id }, el("path", { d, "clip-rule": "evenodd" })) +
    el("path", {
      class: "sawn",
      "fill-rule": "evenodd",
      fill: `url(#${PREFIX}-cut-${turn})`,
      d,
      "clip-path": `url(#${id})`,
    })
  );
}

function dataOf(regions: readonly Region[], view: View): string {
  return pathData(
    view,
    regions.flatMap(({ outer, holes }) => [outer, ...holes]),
  );
}

function clashPattern(): Markup {
  return el(
    "pattern",
    { id: `${PREFIX}-clash`, width: 1.2, height: 1.2, patternUnits: "userSpaceOnUse" },
    el("rect", { class: "clash-ground", width: 1.2, height: 1.2 }),
    el("path", { class: "clash-line", d: "M0 0L1.2 1.2M1.2 0L0 1.2" }),
  );
}

interface GapOnPaper {
  readonly gap: Gap;
  readonly a: OnPaper;
  readonly b: OnPaper;
  /** Where its figure stands. */
  readonly at: OnPaper;
}

/** Each figure as near to the height of its gap as the others let it stand. */
function figured(
  gaps: readonly Gap[],
  view: View,
  { x, top, bottom }: { readonly x: number; readonly top: number; readonly bottom: number },
): readonly GapOnPaper[] {
  const marks = gaps
    .map((gap) => ({ gap, a: toPaper(view, gap.a), b: toPaper(view, gap.b) }))
    .sort((p, q) => p.a.y + p.b.y - q.a.y - q.b.y);
  let y = top - LINE;
  const placed = marks.map((mark) => {
    y = Math.max(y + LINE, (mark.a.y + mark.b.y) / 2);
    return { ...mark, at: { x, y } };
  });
  const over = Math.max(0, y - bottom);
  return placed.map((mark) => ({ ...mark, at: { x, y: mark.at.y - over } }));
}

/** From one figure to the next below it, mm. */
const LINE = 9;
/** From an arrow's tip to its tail, mm. */
const ARROW = 4;

/** Two arrows that point at the faces from outside, and a leader from their tail to the figure. */
function gapMark({ gap, a, b, at }: GapOnPaper, units: Units): Markup {
  const upright = Math.abs(gap.a.x - gap.b.x) < Math.abs(gap.a.y - gap.b.y);
  const sense = upright ? Math.sign(b.y - a.y) || 1 : Math.sign(b.x - a.x) || 1;
  const way = upright ? { x: 0, y: sense } : { x: sense, y: 0 };
  const back = (p: OnPaper, by: number): OnPaper => ({ x: p.x + way.x * by, y: p.y + way.y * by });
  const tails = [back(a, -ARROW), back(b, ARROW)] as const;
  const tail = tails[1].x > tails[0].x || (upright && at.y > b.y) === sense > 0 ? tails[1] : tails[0];
  const words = { side: "beside", end: "under", shoulder: "shoulder" }[gap.what];
  const path = (p: OnPaper, q: OnPaper): Markup => {
    const d = `M${spot(p)}L${spot(q)}`;
    return el("path", { class: "halo", d }) + el("path", { class: "leader", d });
  };
  return el(
    "g",
    { class: gap.mm < 0 ? "gap note in-wood" : "gap note" },
    path(tails[0], a),
    path(b, tails[1]),
    arrowhead(a, way, 1.8),
    arrowhead(b, { x: -way.x, y: -way.y }, 1.8),
    path(tail, { x: at.x - 1, y: at.y }),
    el("text", { x: at.x, y: at.y + 1.2, "font-size": 3.5 }, `${words} ${gapText(gap.mm, units)}`),
  );
}
