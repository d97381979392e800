import { once } from "@dryfit/geometry";
import { light } from "../palette.ts";
import { drawingStyle } from "../style.ts";
import type { PdfColour } from "./mark.ts";
import type { SvgNode } from "./svg-tree.ts";

/** How an element of a drawing looks, as its sheet's style says. Lengths in the drawing's own mm. */
export interface Look {
  readonly fill: string;
  readonly fillOpacity: number;
  readonly stroke: string;
  readonly strokeOpacity: number;
  readonly width: number;
  readonly dash: readonly number[];
  readonly size: number;
  readonly anchor: "start" | "middle" | "end";
  readonly bold: boolean;
}

export const PLAIN_LOOK: Look = {
  fill: "#000000",
  fillOpacity: 1,
  stroke: "none",
  strokeOpacity: 1,
  width: 1,
  dash: [],
  size: 3.5,
  anchor: "start",
  bold: false,
};

/** The look of an element that stands in `within` (outermost first), which handed it `inherited`. */
export function lookOf(node: SvgNode, within: readonly SvgNode[], inherited: Look): Look {
  const said: Record<string, string> = { ...node.attributes };
  for (const { selector, declarations } of rules())
    if (matches(selector, node, within)) Object.assign(said, declarations);
  const number = (name: string, otherwise: number): number =>
    said[name] === undefined ? otherwise : Number.parseFloat(said[name]);
  const dash = said["stroke-dasharray"];
  return {
    fill: said.fill ?? inherited.fill,
    fillOpacity: number("fill-opacity", inherited.fillOpacity),
    stroke: said.stroke ?? inherited.stroke,
    strokeOpacity: number("stroke-opacity", inherited.strokeOpacity),
    width: number("stroke-width", inherited.width),
    dash: dash === undefined ? inherited.dash : dash.split(/[\s,]+/).map(Number),
    size: number("font-size", inherited.size),
    anchor: (said["text-anchor"] as Look["anchor"] | undefined) ?? inherited.anchor,
    bold: said["font-weight"] === undefined ? inherited.bold : Number(said["font-weight"]) >= 600,
  };
}

/** A colour on white paper: what is thin ink on screen is the tint that it makes there. */
export function colourOf(value: string, opacity: number): PdfColour | null {
  const variable = /^var\(--(\w+)\)$/.exec(value)?.[1];
  const named = variable === "paper" ? "#FFFFFF" : variable ? light[variable as keyof typeof light] : value;
  const hex = /^#([0-9a-f]{6})$/i.exec(named)?.[1];
  if (hex === undefined) return null;
  const channel = (at: number) => 1 - opacity * (1 - Number.parseInt(hex.slice(at, at + 2), 16) / 255);
  return [channel(0), channel(2), channel(4)];
}

interface Rule {
  /** Compounds from the outermost in; each a tag, if any, and classes. */
  readonly selector: readonly { readonly tag: string | null; readonly classes: readonly string[] }[];
  readonly declarations: Readonly<Record<string, string>>;
}

let known: readonly Rule[] | null = null;

/** The drawing's style on paper, without what is for screens alone. */
function rules(): readonly Rule[] {
  known ??= parsed();
  return known;
}

function parsed(): readonly Rule[] {
  const screen = drawingStyle().replace(/@media[^{]*\{[^{}]*\{[^{}]*\}\s*\}/g, "");
  return [...screen.matchAll(/([^{}]+)\{([^{}]*)\}/g)].flatMap(([, selectors, body]) => {
    const declarations = Object.fromEntries(
      body!
        .split(";")
        .map((each) => each.split(":").map((word) => word.trim()))
        .filter(([name, value]) => name && value && !name.startsWith("--"))
        .map(([name, value]) => [name!, value!]),
    );
    return selectors!.split(",").map((selector) => ({
      selector: selector
        .trim()
        .split(/\s+/)
        .filter((word) => word !== ".drawing")
        .map((word) => {
          const [tag, ...classes] = word.split(".");
          return { tag: tag === "" ? null : tag!, classes };
        }),
      declarations,
    }));
  });
}

function matches(selector: Rule["selector"], node: SvgNode, within: readonly SvgNode[]): boolean {
  const last = selector.at(-1);
  if (last === undefined) return false;
  if (!fits(last, node)) return false;
  let at = within.length;
  for (const compound of selector.slice(0, -1).reverse()) {
    do at--;
    while (at >= 0 && !fits(compound, within[at]!));
    if (at < 0) return false;
  }
  return true;
}

function fits({ tag, classes }: Rule["selector"][number], node: SvgNode): boolean {
  if (tag !== null && tag !== node.name) return false;
  if (classes.length === 0) return true;
  const own = classesOf(node);
  return classes.every((one) => own.includes(one));
}

const classesOf = once(({ attributes }: SvgNode): readonly string[] => attributes.class?.split(" ") ?? []);
