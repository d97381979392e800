import { arrowhead, el, type Markup, type OnPaper, spot } from "@dryfit/drawing";

/** A drawn dimension and where its figure stands. */
export interface Dimension {
  readonly lines: Markup;
  readonly at: OnPaper;
}

/** Between two points, measured level; the figure stands on the line. ISO 129. `away`: to which side, mm of paper. */
export function across(a: OnPaper, b: OnPaper, away: number): Dimension {
  const y = (away < 0 ? Math.min(a.y, b.y) : Math.max(a.y, b.y)) + away;
  const [left, right] = a.x <= b.x ? [a, b] : [b, a];
  const [from, to] = [
    { x: left.x, y },
    { x: right.x, y },
  ];
  return {
    lines: dimension(extension(left, from), extension(right, to), arrowed(from, to)),
    at: { x: (from.x + to.x) / 2, y: y - FIGURE / 2 },
  };
}

/**
 * The same, measured upright. The line is broken for the figure, which reads from below like every other (ISO 129,
 * second method); where the line is too short, the figure stands at an end of it.
 */
export function upright(
  a: OnPaper,
  b: OnPaper,
  away: number,
  otherwise: "above" | "below" = "above",
): Dimension {
  const x = (away < 0 ? Math.min(a.x, b.x) : Math.max(a.x, b.x)) + away;
  const [high, low] = a.y <= b.y ? [a, b] : [b, a];
  const [top, bottom] = [
    { x, y: high.y },
    { x, y: low.y },
  ];
  const ends = [extension(high, top), extension(low, bottom)];
  const middle = (top.y + bottom.y) / 2;
  if (bottom.y - top.y < FIGURE + 7) {
    return {
      lines: dimension(...ends, arrowed(top, bottom)),
      at: { x, y: otherwise === "above" ? top.y - 5 - FIGURE / 2 : bottom.y + 5 + FIGURE / 2 },
    };
  }
  const [above, below] = [
    { x, y: middle - FIGURE / 2 },
    { x, y: middle + FIGURE / 2 },
  ];
  return {
    lines: dimension(
      ...ends,
      line(top, above),
      line(below, bottom),
      arrowhead(top, { x: 0, y: -1 }),
      arrowhead(bottom, { x: 0, y: 1 }),
    ),
    at: { x, y: middle },
  };
}

/** A line from a place to its words. */
export function leader(from: OnPaper, to: OnPaper): Markup {
  return el("path", { class: "leader", d: `M${spot(from)}L${spot(to)}` });
}

/** Height of a figure with the room it needs, mm of paper. */
const FIGURE = 6;

function dimension(...lines: readonly Markup[]): Markup {
  return el("g", { class: "dimension" }, ...lines);
}

function line(a: OnPaper, b: OnPaper): Markup {
  return el("path", { d: `M${spot(a)}L${spot(b)}` });
}

function extension(from: OnPaper, to: OnPaper): Markup {
  const span = Math.hypot(to.x - from.x, to.y - from.y);
  if (span < 1) return "";
  const unit = { x: (to.x - from.x) / span, y: (to.y - from.y) / span };
  return line({ x: from.x + unit.x, y: from.y + unit.y }, { x: to.x + unit.x * 1.5, y: to.y + unit.y * 1.5 });
}

/** Arrows inside, or outside where the line is too short to hold them. */
function arrowed(from: OnPaper, to: OnPaper): Markup {
  const span = Math.hypot(to.x - from.x, to.y - from.y);
  if (span === 0) return "";
  const unit = { x: (to.x - from.x) / span, y: (to.y - from.y) / span };
  const inside = span > 9;
  const reach = inside ? 0 : 5;
  const sense = inside ? 1 : -1;
  return [
    line(
      { x: from.x - unit.x * reach, y: from.y - unit.y * reach },
      { x: to.x + unit.x * reach, y: to.y + unit.y * reach },
    ),
    arrowhead(from, { x: -unit.x * sense, y: -unit.y * sense }),
    arrowhead(to, { x: unit.x * sense, y: unit.y * sense }),
  ].join("");
}
