import { intersection, type Loop, point, type Region, rectangle } from "@dryfit/geometry";
import type { Pose } from "./assembly.ts";
import { lowerPiece } from "./cheek.ts";
import { type Corner, corner, rounded } from "./corner.ts";
import type { Design } from "./design.ts";
import type { CaseNumbers, Span } from "./numbers.ts";
import type { Feature, Part, Recess } from "./part.ts";
import { runBetween } from "./run-between.ts";
import { sheetPart } from "./sheet-part.ts";

export type RailName = "front" | "back";

/**
 * A cross panel: a groove for the base's tongue on its inside face, a tongue on each end.
 *
 * The end tongues are cut back at top and bottom, so that they stay short of their housings' round ends. An
 * inner tongue is cut in two by the groove; the lower piece stays only where it is long enough to hold.
 */
export function rail(
  design: Design,
  numbers: CaseNumbers,
  name: RailName,
  reach: Span,
): { readonly part: Part; readonly pose: Pose } {
  const { width, depth } = design.inside;
  const l = design.joint.tongue.length;
  const height = numbers.rails[name];
  const pieces = tonguePieces(design, numbers, reach);
  const outline = railOutline(design, numbers, height, pieces);
  const { min, max } = numbers.baseHousing;
  const groove = recesses(
    "groove",
    "A",
    outline,
    band(-1, numbers.t + min, width + 2 * l + 1, numbers.t + max),
  );
  const rebates = (["left", "right"] as const).flatMap((end) => {
    const [x0, x1] = end === "left" ? [-1, l] : [l + width, 2 * l + width + 1];
    return recesses(`rebate-${end}`, "B", outline, band(x0, -1, x1, height + 1));
  });
  const features: Feature[] = [
    ...groove.map((r) => ({ ...r, depth: numbers.recessDepth, purpose: "groove" as const })),
    ...(numbers.style === "inner" ? rebates.map((r) => ({ ...r, depth: numbers.rebateDepth })) : []),
  ];
  const part = sheetPart(design, {
    id: `rail-${name}`,
    panel: "rail",
    title: name === "front" ? "Front rail" : "Back rail",
    outline,
    features,
    grain: "x",
    faceNames: { A: "inside", B: "outside" },
    mating: [
      runBetween(outline, point(numbers.rails.length - l, 0), point(numbers.rails.length - l, height)),
      runBetween(outline, point(l, height), point(l, 0)),
    ],
  });
  const z = -numbers.t;
  const pose: Pose =
    name === "front"
      ? { origin: { x: width + l, y: 0, z }, x: "-x", y: "+z", into: "-y", datum: "A" }
      : { origin: { x: -l, y: depth, z }, x: "+x", y: "+z", into: "+y", datum: "A" };
  return { part, pose };
}

/** The pieces of an end tongue in z, from the lowest up. */
export function tonguePieces(design: Design, numbers: CaseNumbers, reach: Span): Span[] {
  const top = reach.max - numbers.shortOf;
  if (numbers.style === "full") return [{ min: reach.min + numbers.shortOf, max: top }];
  const lower = lowerPiece(design, numbers);
  return [...(lower ? [lower] : []), { min: numbers.baseHousing.max, max: top }];
}

function railOutline(
  design: Design,
  numbers: CaseNumbers,
  height: number,
  pieces: readonly Span[],
): Loop<"panel"> {
  const l = design.joint.tongue.length;
  const length = numbers.rails.length;
  // Between two pieces the groove and the rebate take everything; the outline runs straight on.
  const bottom = pieces[0]!.min + numbers.t;
  const top = pieces.at(-1)!.max + numbers.t;
  const right: Corner[] = [
    corner(length - l, 0),
    corner(length - l, bottom, numbers.r),
    corner(length, bottom),
    corner(length, top),
    corner(length - l, top, numbers.r),
    corner(length - l, height),
  ];
  return rounded([...right, ...right.map((c) => ({ ...c, x: length - c.x })).reverse()]);
}

function band(x0: number, y0: number, x1: number, y1: number): Region<"panel"> {
  return { outer: rectangle(point(x0, y0), point(x1, y1)), holes: [] };
}

/** The part of the outline inside a band, as recesses; the caller says how deep and what for. */
function recesses(id: string, face: "A" | "B", outline: Loop<"panel">, within: Region<"panel">): Recess[] {
  const regions = intersection([{ outer: outline, holes: [] }], [within]);
  return regions.map((region, i) => ({
    kind: "recess",
    id: i === 0 ? id : `${id}-${i + 1}`,
    face,
    region,
    depth: 0,
    purpose: "rebate",
  }));
}
