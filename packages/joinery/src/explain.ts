import { boundsOf } from "@dryfit/geometry";
import { crestOf } from "./crest.ts";
import type { Design } from "./design.ts";
import { explainLayers } from "./explain-layers.ts";
import { entry, given, sum, type Term } from "./explain-sums.ts";
import { trimmed } from "./length.ts";
import { type CaseNumbers, numbersOf } from "./numbers.ts";
import { overcutOf, reliefOf } from "./relief.ts";
import { bearerMiddles, tierSpan } from "./tier.ts";

/** How one number came about. */
export interface Explanation {
  /** "base.x", "rail-front.height": unique. */
  readonly id: string;
  readonly what: string;
  /** With the design's names: "inside.width + 2 × joint.tongue.length". */
  readonly names: string;
  /** The same with figures: "540 + 2 × 6.8". */
  readonly figures: string;
  readonly value: number;
  readonly unit: "mm" | "°";
}

/** Every derived number of a case, as a sum in mm that can be worked out again by hand. */
export function explain(design: Design): readonly Explanation[] {
  const n = numbersOf(design);
  return [
    ...(design.layers
      ? explainLayers(design, n, design.layers, given(design))
      : [...panels(design, n), ...joints(design, n), ...ends(design, n)]),
    ...whole(design, n),
    ...tier(design, n),
    ...reliefs(design, n),
    ...sheets(design),
  ];
}

/** One line: what = names = figures = value. */
export function explanationText({ what, names, figures, value, unit }: Explanation): string {
  return `${what}: ${names} = ${figures} = ${trimmed(value, 4)}${unit === "°" ? "°" : ` ${unit}`}`;
}

function panels(design: Design, n: CaseNumbers): Explanation[] {
  const g = given(design);
  return [
    entry("base.x", "Base blank across", sum`${g.width} + 2 × ${g.length}`, n.base.x),
    entry("base.y", "Base blank from front to back", sum`${g.depth} + 2 × ${g.length}`, n.base.y),
    entry("rail.length", "Rails' length", sum`${g.width} + 2 × ${g.length}`, n.rails.length),
    entry("rail-front.height", "Front rail's height", sum`${g.front} + ${g.t}`, n.rails.front),
    entry("rail-back.height", "Back rail's height", sum`${g.back} + ${g.t}`, n.rails.back),
  ];
}

function joints(design: Design, n: CaseNumbers): Explanation[] {
  const g = given(design);
  const width = n.baseHousing.max - n.baseHousing.min;
  const seat = n.frontHousing.max - n.frontHousing.min;
  const ends = n.style === "inner" ? g.tongue : g.thickest;
  return [
    entry("rebate.depth", "Rebates' depth", sum`${g.t} − ${g.tongue}`, n.rebateDepth),
    entry("housing.depth", "Depth of housings and grooves", sum`${g.length} + ${g.end}`, n.recessDepth),
    entry(
      "housing.width",
      "Width of the base's housings and the grooves",
      sum`${g.tongue} + 2 × ${g.side}`,
      width,
    ),
    entry("rail-housing.width", "Width of the rails' housings", sum`${ends} + 2 × ${g.side}`, seat),
    entry(
      "housing.behind",
      "Wood left behind housings",
      sum`${g.thinnest} − ${g.length} − ${g.end}`,
      n.behind,
    ),
    entry(
      "groove.bottom",
      "Groove's lower edge over the rail's bottom",
      sum`${g.t} − ${g.tongue} − ${g.side}`,
      n.t + n.baseHousing.min,
    ),
    entry(
      "groove.top",
      "Groove's upper edge over the rail's bottom",
      sum`${g.t} + ${g.side}`,
      n.t + n.baseHousing.max,
    ),
  ];
}

function ends(design: Design, n: CaseNumbers): Explanation[] {
  const g = given(design);
  const overhang = design.cheek.overhang;
  const seat = n.style === "inner" ? g.tongue : g.thickest;
  const e: Term = ["slot end", n.slotEnd];
  return [
    entry("cutter.radius", "Radius of inside corners", sum`${g.cutter} / 2`, n.r),
    entry(
      "slot-end",
      "A tongue stays short of a round housing end by",
      sum`${g.r} − √(${g.r}² − (${g.r} − ${g.side})²)`,
      n.slotEnd,
    ),
    entry("tongue.short", "A rail's tongue ends before its housing by", sum`${e} + ${g.r}`, n.shortOf),
    entry(
      "stop.belly",
      "Wood between the base's housing and the belly",
      sum`${g.t} − ${g.tongue} − ${g.side}`,
      n.t + n.baseHousing.min,
    ),
    entry(
      "stop.front",
      "Wood between the front rail's housing and the cheek's edge",
      sum`${["cheek.overhang.front", overhang.front]} + ${g.t} − ${seat} − ${g.side}`,
      n.frontHousing.min - n.cheek.min,
    ),
    entry(
      "stop.back",
      "Wood between the back rail's housing and the cheek's edge",
      sum`${["cheek.overhang.back", overhang.back]} + ${g.t} − ${seat} − ${g.side}`,
      n.cheek.max - n.backHousing.max,
    ),
    entry(
      "housing.front.top",
      "Highest end of the front rail's housing over the floor",
      sum`${g.front} − ${g.stop}`,
      n.highest.front,
    ),
    entry(
      "housing.back.top",
      "Highest end of the back rail's housing over the floor",
      sum`${g.back} − ${g.stop}`,
      n.highest.back,
    ),
  ];
}

function whole(design: Design, n: CaseNumbers): Explanation[] {
  const g = given(design);
  const { overhang, feet } = design.cheek;
  const crest = crestOf(design);
  const depth: Term = ["outside depth", n.outside.depth];
  const drop: Term = feet.back.drop >= feet.front.drop ? g.dropBack : g.dropFront;
  const height = (highest: number): Explanation =>
    entry(
      "outside.height",
      "Height over all, feet included",
      design.layers
        ? sum`${["the crest's highest place", highest]} + ${g.thickest} + ${g.side} + ${g.stop} + ${drop}`
        : sum`${["the crest's highest place", highest]} + ${g.t} + ${drop}`,
      highest - n.belly + drop[1],
    );
  return [
    entry(
      "outside.width",
      "Outside width",
      design.layers
        ? sum`${g.width} + 2 × ${["layers.count", design.layers.count]} × ${g.t}`
        : sum`${g.width} + 2 × ${g.t}`,
      n.outside.width,
    ),
    entry(
      "outside.depth",
      "Outside depth",
      sum`${g.depth} + 2 × ${g.t} + ${["cheek.overhang.front", overhang.front]} + ${["cheek.overhang.back", overhang.back]}`,
      n.outside.depth,
    ),
    ...(crest === null ? [] : [height(boundsOf(crest).max.y)]),
    entry(
      "rake",
      "Rake",
      sum`atan((${g.dropBack} − ${g.dropFront}) / ${depth})`,
      (n.rake * 180) / Math.PI,
      "°",
    ),
  ];
}

function tier(design: Design, n: CaseNumbers): Explanation[] {
  const { tier: rules, inside } = design;
  if (rules === null || n.tierDepth === null) return [];
  const g = given(design);
  const slats: Term = ["tier.slats", rules.slats];
  const air: Term = rules.swing > 0 ? ["tier.pin", rules.pin] : ["tier.clearance", rules.clearance];
  const clearance: Term = ["tier.clearance", rules.clearance];
  const height: Term = ["tier.height", rules.height];
  const depth: Term = ["tier depth", n.tierDepth];
  return [
    entry(
      "tier.depth",
      "Tier from front to back",
      sum`${slats} × ${["tier.slat", rules.slat]} + (${slats} − 1) × ${["tier.gap", rules.gap]}`,
      n.tierDepth,
    ),
    entry(
      "tier.front",
      "Clear floor before the tier",
      sum`${g.depth} − ${air} − ${depth}`,
      tierSpan(design, n, rules).min,
    ),
    entry(
      "slat.length",
      "Slats' length",
      sum`${g.width} − 2 × ${clearance}`,
      inside.width - 2 * rules.clearance,
    ),
    entry("tier.under", "Clear height under the slats", sum`${height} − ${g.t}`, rules.height - n.t),
    ...(bearerMiddles(design, rules).length > 0
      ? [
          entry(
            "bearer.height",
            "Bearers' height",
            sum`${height} − ${g.t} − ${["tier.bearers.air", rules.bearers.air]}`,
            rules.height - n.t - rules.bearers.air,
          ),
        ]
      : []),
  ];
}

/** How far the relieved corners of each opening stand out over its walls. */
function reliefs(design: Design, n: CaseNumbers): Explanation[] {
  const { r } = given(design);
  return design.openings.flatMap((o) => {
    const relief = reliefOf(o, n.r);
    if (relief === "none") return [];
    const figures = relief === "diagonal" ? sum`${r} × (1 − 1 / √${["2", 2]})` : sum`${r}`;
    return [
      entry(
        `opening.${o.id}.relief`,
        `Corner relief of "${o.id}" beyond its walls`,
        figures,
        overcutOf(relief, n.r),
      ),
    ];
  });
}

/** How near to each other parts may lie on a sheet, by hand or nested. */
function sheets(design: Design): Explanation[] {
  const g = given(design);
  const { web } = design.sheet;
  return [
    entry(
      "sheet.spacing",
      "Least way between two parts on a sheet",
      sum`${g.cutter} + ${["sheet.web", web]}`,
      design.cutter + web,
    ),
  ];
}
