import { length, lettering, PLAIN } from "./lettering.ts";
import { type OnPaper, spot } from "./outline.ts";
import { el, group, type Markup } from "./svg.ts";

export interface DimensionOptions {
  /** Paper mm from the measured points to the dimension line; the sign chooses the side. */
  readonly away: number;
  /** What is written; the measured length by default. */
  readonly text?: string;
  /** A derived dimension is written in brackets. */
  readonly derived?: boolean;
  readonly size?: number;
}

/** A dimension between two points on a horizontal line: extension lines, a line with two arrows, the figure above. ISO 129. */
export function acrossDimension(a: OnPaper, b: OnPaper, mm: number, options: DimensionOptions): Markup {
  const y = (options.away < 0 ? Math.min(a.y, b.y) : Math.max(a.y, b.y)) + options.away;
  const [left, right] = a.x < b.x ? [a, b] : [b, a];
  const [from, to] = [
    { x: left.x, y },
    { x: right.x, y },
  ];
  const text = written(mm, options);
  const size = options.size ?? PLAIN;
  const above = { x: (from.x + to.x) / 2, y: y - size * 0.65 };
  return group(
    "dimension",
    extension(left, from),
    extension(right, to),
    arrowed(from, to),
    lettering(above.x, above.y, text, { anchor: "middle", size }),
  );
}

/** The same, upright; the figure reads from the right. */
export function upDimension(a: OnPaper, b: OnPaper, mm: number, options: DimensionOptions): Markup {
  const x = (options.away < 0 ? Math.min(a.x, b.x) : Math.max(a.x, b.x)) + options.away;
  const [high, low] = a.y < b.y ? [a, b] : [b, a];
  const [from, to] = [
    { x, y: low.y },
    { x, y: high.y },
  ];
  const size = options.size ?? PLAIN;
  return group(
    "dimension",
    extension(low, from),
    extension(high, to),
    arrowed(from, to),
    lettering(x - size * 0.65, (from.y + to.y) / 2, written(mm, options), {
      anchor: "middle",
      turned: true,
      size,
    }),
  );
}

function written(mm: number, { text, derived }: DimensionOptions): string {
  const figure = text ?? length(mm);
  return derived ? `(${figure})` : figure;
}

/** From near the measured point to a little beyond the dimension line. */
function extension(from: OnPaper, to: OnPaper): Markup {
  const span = Math.hypot(to.x - from.x, to.y - from.y);
  if (span < 1) return "";
  const unit = { x: (to.x - from.x) / span, y: (to.y - from.y) / span };
  const start = { x: from.x + unit.x, y: from.y + unit.y };
  const end = { x: to.x + unit.x * 1.5, y: to.y + unit.y * 1.5 };
  return el("path", { d: `M${spot(start)}L${spot(end)}` });
}

/** A line with an arrowhead at both ends, outside where it is too short to hold them. */
function arrowed(from: OnPaper, to: OnPaper): Markup {
  const span = Math.hypot(to.x - from.x, to.y - from.y);
  if (span === 0) return "";
  const unit = { x: (to.x - from.x) / span, y: (to.y - from.y) / span };
  const inside = span > 3 * ARROW;
  const reach = inside ? 0 : 2 * ARROW;
  const start = { x: from.x - unit.x * reach, y: from.y - unit.y * reach };
  const end = { x: to.x + unit.x * reach, y: to.y + unit.y * reach };
  const sense = inside ? 1 : -1;
  return [
    el("path", { d: `M${spot(start)}L${spot(end)}` }),
    arrowhead(from, { x: -unit.x * sense, y: -unit.y * sense }),
    arrowhead(to, { x: unit.x * sense, y: unit.y * sense }),
  ].join("");
}

/** A slim filled head with its tip here, pointing along the unit vector. */
export function arrowhead(tip: OnPaper, along: OnPaper, size: number = ARROW): Markup {
  const back = { x: tip.x - along.x * size, y: tip.y - along.y * size };
  const side = { x: -along.y * size * 0.18, y: along.x * size * 0.18 };
  const points = [
    tip,
    { x: back.x + side.x, y: back.y + side.y },
    { x: back.x - side.x, y: back.y - side.y },
  ];
  return el("path", { class: "head", d: `M${points.map(spot).join("L")}Z` });
}

const ARROW = 2.8;
