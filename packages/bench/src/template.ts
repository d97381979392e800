import {
  areaOf,
  type Box,
  difference,
  type Placement,
  placement,
  placeRegion,
  point,
  type Region,
} from "@dryfit/geometry";
import type { Face } from "@dryfit/joinery";
import type { Fit } from "./choose.ts";

/** A board along which the router runs, drawn as it lies on the first of its `uses`. mm. */
export interface Template {
  readonly id: string;
  readonly title: string;
  /** The router runs inside a hole, or round the outside. */
  readonly kind: "inside" | "outside";
  readonly uses: readonly TemplateUse[];
  readonly fit: Fit;
  /** Air added on each side for a bush that would bind. */
  readonly air: number;
  /** What is cut out of the part, or left of it. */
  readonly finished: readonly Region<"template">[];
  /** The template's own edges that guide: holes, or the outline. */
  readonly contours: readonly Region<"template">[];
  /** The board that an inside template is cut from; null for an outline, which is its own board. */
  readonly board: Box<"template"> | null;
  /** The part's blank, on whose edges the template is laid; null where it is laid on centre lines. */
  readonly blank: Box<"template"> | null;
  /** Places to drill through template and part. */
  readonly drills: readonly { readonly at: readonly [number, number]; readonly diameter: number }[];
  /** Names of what is cut, beside it: a coupon's letters. */
  readonly letters: readonly { readonly at: readonly [number, number]; readonly text: string }[];
  readonly depth: number;
  readonly through: boolean;
  /** How far the route differs from the design at most, but for `air`; worked out, not assumed. */
  readonly deviation: number;
}

export interface TemplateUse {
  readonly part: string;
  readonly title: string;
  readonly face: Face;
  /** "inside", "underside". */
  readonly faceWords: string;
  /** Turned over for this part. */
  readonly mirrored: boolean;
  /** Where the centre lines cross on the part, from its left and bottom edges seen from face A; null on edges. */
  readonly middle: readonly [number, number] | null;
}

/** One template for all parts that take the same, as it lies or turned over. */
export function merged(templates: readonly Template[]): readonly Template[] {
  const kept: Template[] = [];
  for (const next of templates) {
    const i = kept.findIndex((one) => one.kind === next.kind && likeness(one, next) !== null);
    if (i < 0) {
      kept.push(next);
      continue;
    }
    const mirrored = likeness(kept[i]!, next) === "mirrored";
    kept[i] = { ...kept[i]!, uses: [...kept[i]!.uses, ...next.uses.map((use) => ({ ...use, mirrored }))] };
  }
  return kept;
}

/** Whether `b` is cut with `a`'s template: same shapes, tools, depth and places to drill. */
function likeness(a: Template, b: Template): "same" | "mirrored" | null {
  const tools = ({ fit, depth, through }: Template) =>
    [fit.cutter.id, fit.guide.kind, fit.guide.diameter, depth.toFixed(3), through].join();
  if (tools(a) !== tools(b) || (a.blank === null) !== (b.blank === null)) return null;
  if (a.contours.length !== b.contours.length || drillsOf(a) !== drillsOf(b)) return null;
  const here = placement<"template", "template">(point(0, 0));
  if (isSame(a.contours, b.contours, here)) return "same";
  if (!a.blank || !b.blank || a.drills.length > 0) return null;
  const over = placement<"template", "template">(point(a.blank.max.x, 0), { flip: true });
  return isSame(a.contours, b.contours, over) ? "mirrored" : null;
}

function isSame(
  a: readonly Region<"template">[],
  b: readonly Region<"template">[],
  move: Placement<"template", "template">,
): boolean {
  const moved = b.map((region) => placeRegion(move, region));
  return areaOf(difference(a, moved)) + areaOf(difference(moved, a)) < SAME_MM2;
}

/** Less wood between two shapes is rounding, mm². */
const SAME_MM2 = 0.05;

function drillsOf({ drills }: Template): string {
  return drills.map(({ at, diameter }) => [...at, diameter].map((v) => v.toFixed(3)).join()).join(" ");
}
