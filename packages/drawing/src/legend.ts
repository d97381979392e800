import { arrowhead } from "./dimension.ts";
import { type HatchKind, hatchId } from "./hatch.ts";
import { length, lettering, SMALL } from "./lettering.ts";
import { el, group, type Markup } from "./svg.ts";

export interface LegendKinds {
  readonly hatches: readonly HatchKind[];
  readonly openings: boolean;
  readonly bores: boolean;
  readonly paths: boolean;
  readonly tabs: boolean;
  readonly flip: boolean;
  readonly keepOuts: boolean;
}

/** What the lines and patterns on this sheet mean; only those that occur. Two columns; x, y is the upper left. */
export function legend(x: number, y: number, width: number, prefix: string, kinds: LegendKinds): Markup {
  const entries = entriesFor(prefix, kinds);
  const perColumn = Math.ceil(entries.length / 2);
  return group(
    "legend",
    ...entries.map(({ swatch, text }, i) => {
      const left = x + Math.floor(i / perColumn) * (width / 2);
      const middle = y + ((i % perColumn) + 0.5) * STEP;
      return swatch(left, middle) + lettering(left + SWATCH + 2.5, middle, text, { size: SMALL });
    }),
  );
}

const STEP = 6;
const SWATCH = 14;

interface Entry {
  readonly swatch: (x: number, y: number) => Markup;
  readonly text: string;
}

function entriesFor(prefix: string, kinds: LegendKinds): readonly Entry[] {
  const when = (shown: boolean, entry: Entry): readonly Entry[] => (shown ? [entry] : []);
  return [
    { text: "outline, cut through", swatch: (x, y) => line("outline", x, y) },
    ...when(kinds.openings, {
      text: "opening, ticks to the inside",
      swatch: (x, y) =>
        line("outline", x, y) + el("path", { class: "tick", d: `M${x + 4} ${y}v1.4M${x + 10} ${y}v1.4` }),
    }),
    ...kinds.hatches.map(
      (kind): Entry => ({
        text: `recess ${length(kind.depth, 2)} deep, face ${kind.face}`,
        swatch: (x, y) =>
          el("rect", {
            class: kind.face === "B" ? "recess face-b hidden" : "recess",
            x,
            y: y - 2,
            width: SWATCH,
            height: 4,
            fill: `url(#${hatchId(prefix, kind)})`,
          }),
      }),
    ),
    ...when(kinds.bores, {
      text: "bore",
      swatch: (x, y) =>
        el("circle", { class: "bore", cx: x + 7, cy: y, r: 1.4 }) +
        el("path", { class: "centre", d: `M${x + 4} ${y}h6M${x + 7} ${y - 2.6}v5.2` }),
    }),
    ...when(kinds.paths, {
      text: "cutter path, heavier: more passes",
      swatch: (x, y) =>
        group(
          "cut",
          el("path", { d: `M${x} ${y - 1.2}h${SWATCH}`, "stroke-width": 0.18 }),
          arrowhead({ x: x + 8, y: y - 1.2 }, { x: 1, y: 0 }, 1.6),
          el("path", { d: `M${x} ${y + 1.2}h${SWATCH}`, "stroke-width": 0.46 }),
        ),
    }),
    ...when(kinds.paths, {
      text: "cutter goes in; comes out",
      swatch: (x, y) =>
        group(
          "cut-end",
          el("circle", { cx: x + 4, cy: y, r: 0.7 }),
          el("path", { d: `M${x + 10} ${y - 0.9}v1.8` }),
        ),
    }),
    ...when(kinds.paths, { text: "travel above the wood", swatch: (x, y) => line("rapid", x, y) }),
    ...when(kinds.tabs, {
      text: "tab that holds the part",
      swatch: (x, y) =>
        el("path", { class: "outline", d: `M${x} ${y}h5m4 0h5` }) +
        el("path", { class: "tab", d: `M${x + 5} ${y - 1.2}v2.4M${x + 9} ${y - 1.2}v2.4` }),
    }),
    ...when(kinds.flip, { text: "turn the sheet over about it", swatch: (x, y) => line("fold", x, y) }),
    ...when(kinds.keepOuts, {
      text: "keep out",
      swatch: (x, y) =>
        el("path", {
          class: "keep-out",
          d: `M${x} ${y - 2}h${SWATCH}v4h-${SWATCH}zl${SWATCH} 4m0 -4l-${SWATCH} 4`,
        }),
    }),
  ];
}

function line(cssClass: string, x: number, y: number): Markup {
  return el("path", { class: cssClass, d: `M${x} ${y}h${SWATCH}` });
}
