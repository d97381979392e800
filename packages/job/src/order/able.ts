import {
  arctangent,
  areaOf,
  boundsOf,
  circle,
  distanceTo,
  flatten,
  type Loop,
  type Point,
  SAME_POINT_MM,
  segments,
} from "@dryfit/geometry";
import { type Assembly, asLayered, type Design, type Finding, type Part, recipe } from "@dryfit/joinery";
import type { Service } from "./service.ts";

/**
 * What of a case a service cannot make; all of it at once, each with the change in the design that would make it
 * possible.
 */
export function checkAble(design: Design, { parts }: Assembly, service: Service): readonly Finding[] {
  return [
    ...recesses(design, parts, service),
    ...secondFace(design, parts, service),
    ...thickness(design, service),
    ...sizes(design, parts, service),
    ...corners(parts, service),
    ...parts.flatMap((part) => [...holes(part, service), ...webs(part, service)]),
  ];
}

function recesses(design: Design, parts: readonly Part[], service: Service): readonly Finding[] {
  if (service.cuts === "recesses") return [];
  const pocketed = parts.filter((part) => blind(part).length > 0);
  if (pocketed.length === 0) return [];
  const deepest = Math.max(...pocketed.flatMap((part) => blind(part).map(({ depth }) => depth)));
  return [
    error(
      "service_no_recesses",
      "construction",
      `The ${service.name} cuts right through only; ${names(pocketed)} ${pocketed.length === 1 ? "has" : "have"} recesses, up to ${mm(deepest)} deep.`,
      { parts: pocketed.length, deepest },
      `${offer(design)} Or find a service that cuts recesses.`,
    ),
  ];
}

/** The change that would make it possible, tried before it is offered. */
function offer(design: Design): string {
  const layered = asLayered(design);
  const { parts, findings } = recipe(layered.design);
  const wrong = findings.filter(({ severity }) => severity === "error");
  const changes = layered.edits
    .map(({ path, value }) => (value === null ? `leave ${path} out` : `${path}: ${value}`))
    .join("; ");
  const tried =
    wrong.length === 0
      ? `that was tried and gives ${parts.length} parts, all of through cuts, each cheek glued up of two layers`
      : `what would still have to change: ${[...new Set(wrong.map(({ path }) => path))].join(", ")}`;
  return `Change the design to ${changes}: ${tried}.`;
}

/** What is cut part way into a part. */
function blind(part: Part): readonly { readonly face: "A" | "B"; readonly depth: number }[] {
  return part.features.flatMap((f) =>
    f.kind !== "opening" && f.depth !== null ? [{ face: f.face, depth: f.depth }] : [],
  );
}

/** How far cheeks stand out over rails whose ends are as thick as the sheet, mm. */
export function overhangFor({ joint, sheet }: Pick<Design, "joint" | "sheet">): number {
  return (
    Math.ceil(10 * (joint.stop + sheet.thickness.max - sheet.thickness.mean + joint.clearance.side)) / 10
  );
}

function secondFace({ joint, sheet }: Design, parts: readonly Part[], service: Service): readonly Finding[] {
  if (service.secondFace || service.cuts === "through") return [];
  const both = parts.filter((part) => blind(part).some(({ face }) => face === "B"));
  if (both.length === 0) return [];
  const overhang = overhangFor({ joint, sheet });
  const rails = both.every(({ panel }) => panel === "rail");
  return [
    error(
      "service_one_face",
      rails ? "joint.rails" : names(both),
      `The ${service.name} works one face only; ${names(both)} ${both.length === 1 ? "is" : "are"} worked on face B too.`,
      { parts: both.length, overhang },
      rails
        ? `Make joint.rails full, with cheek.overhang front and back ${mm(overhang)} or more: then every recess is cut from face A.`
        : "Move what is cut into face B to face A, or find a service that turns sheets over.",
    ),
  ];
}

function thickness({ sheet }: Design, service: Service): readonly Finding[] {
  const { least, most } = service.sheet.thickness;
  const { mean } = sheet.thickness;
  if (mean >= least && mean <= most) return [];
  return [
    error(
      "service_thickness",
      "sheet.thickness",
      `The ${service.name} cuts sheets from ${mm(least)} to ${mm(most)}; this one is ${mm(mean)}.`,
      { thickness: mean, least, most },
      `Take a sheet from ${mm(least)} to ${mm(most)} thick, or another service.`,
    ),
  ];
}

function sizes(design: Design, parts: readonly Part[], service: Service): readonly Finding[] {
  const { largest } = service.sheet;
  const fits = (x: number, y: number): boolean =>
    (x <= largest[0] && y <= largest[1]) || (y <= largest[0] && x <= largest[1]);
  if (service.files.layout === "nested") {
    if (design.sheet.sizes.some(({ size }) => fits(...size))) return [];
    return [
      error(
        "service_sheet_large",
        "sheet.sizes",
        `The largest sheet of the ${service.name} is ${mm(largest[0])} × ${mm(largest[1])}; all of the design's are larger.`,
        { x: largest[0], y: largest[1] },
        `Put [${largest[0]}, ${largest[1]}] among sheet.sizes.`,
      ),
    ];
  }
  return parts.flatMap((part) => {
    const { x, y } = boundsOf(part.outline).max;
    if (fits(x, y)) return [];
    return [
      error(
        "service_part_large",
        part.id,
        `${part.title} is ${mm(x)} × ${mm(y)}; the largest sheet of the ${service.name} is ${mm(largest[0])} × ${mm(largest[1])}.`,
        { x, y, largestX: largest[0], largestY: largest[1] },
        "Make the case smaller, or find a service with larger sheets.",
      ),
    ];
  });
}

function holes(part: Part, service: Service): readonly Finding[] {
  const { hole } = service.smallest;
  return cutLoops(part).flatMap(({ id, loop, isOutline }) => {
    if (isOutline) return [];
    const { min, max } = boundsOf(loop);
    const across = Math.min(max.x - min.x, max.y - min.y);
    if (across >= hole - SAME_POINT_MM) return [];
    return [
      error(
        "service_hole_small",
        part.id,
        `"${id}" of ${part.id} is ${mm(across)} across; ${mm(hole)} is the least that the ${service.name} cuts.`,
        { across, least: hole },
        `Make it ${mm(hole)} or more, or leave it out and drill it yourself.`,
      ),
    ];
  });
}

/** The thinnest wood between two cuts of a part; told once a part. */
function webs(part: Part, service: Service): readonly Finding[] {
  const least = service.smallest.web;
  const loops = cutLoops(part);
  const found = loops.flatMap((a, i) =>
    loops.slice(i + 1).map((b) => ({ a: a.id, b: b.id, web: between(a.loop, b.loop) })),
  );
  const thinnest = found.reduce<(typeof found)[number] | null>(
    (worst, one) => (worst === null || one.web < worst.web ? one : worst),
    null,
  );
  if (thinnest === null || thinnest.web >= least - RIM_MM) return [];
  return [
    error(
      "service_web_thin",
      part.id,
      `${mm(thinnest.web)} of wood is left between "${thinnest.a}" and "${thinnest.b}" of ${part.id}; the ${service.name} asks for ${mm(least)}.`,
      { web: thinnest.web, least },
      "Move them apart, or make one of them smaller.",
    ),
  ];
}

/** How finely a cut is looked at, mm. */
const RIM_MM = 0.01;

function between(a: Loop, b: Loop): number {
  const rim = (loop: Loop, other: Loop): number =>
    Math.min(...flatten(loop, RIM_MM).map((p) => distanceTo(other, p)));
  return Math.min(rim(a, b), rim(b, a));
}

/** The tightest inside corner of all; one that the kerf would close when it is drawn in counts as too tight too. */
function corners(parts: readonly Part[], service: Service): readonly Finding[] {
  const { insideRadius } = service.smallest;
  const kerf = service.kerf.allowance === "drawn" ? service.kerf.width / 2 : 0;
  const least = Math.max(insideRadius, kerf);
  const tight = parts.flatMap((part) =>
    [...cutLoops(part), ...pocketLoops(part)].flatMap(({ id, loop, isOutline, isDrilled }) => {
      const corner = isDrilled ? null : tightestIn(loop, isOutline ? -1 : 1);
      return corner && corner.radius < least - SAME_POINT_MM ? [{ ...corner, id, part }] : [];
    }),
  );
  if (tight.length === 0) return [];
  const { radius, at, id, part } = tight.reduce((a, b) => (b.radius < a.radius ? b : a));
  const others = tight.length === 1 ? "" : ` (${tight.length} contours have such corners)`;
  return [
    error(
      "service_corner_tight",
      "cutter",
      `"${id}" of ${part.id} has an inside corner of radius ${mm(radius)} at x ${mm(at.x)}, y ${mm(at.y)}${others}; ${least === insideRadius ? `the ${service.name} leaves ${mm(least)}` : `half of its kerf is ${mm(least)}`}.`,
      { radius, least, x: at.x, y: at.y, contours: tight.length },
      `Make cutter ${mm(2 * least)} or more, and the corners of openings ${mm(least)}.`,
    ),
  ];
}

/** Wood lies left of an outline and right of an opening's rim (`sense` −1 and 1): corners that it turns into. */
function tightestIn(loop: Loop, sense: 1 | -1): { readonly radius: number; readonly at: Point } | null {
  const sides = segments(loop);
  let best: { radius: number; at: Point } | null = null;
  const offer = (radius: number, at: Point): void => {
    if (best === null || radius < best.radius) best = { radius, at };
  };
  sides.forEach((side, i) => {
    if (side.kind === "arc" && side.sweep * sense > 0) offer(side.radius, side.from);
    const next = sides[(i + 1) % sides.length]!;
    const turn = turnFrom(directionOf(side, 1), directionOf(next, 0));
    if (turn * sense > SHARP) offer(0, side.to);
  });
  return best;
}

/** Less of a bend, radians, is the joint of two curves that run on. */
const SHARP = 0.02;

type Side = ReturnType<typeof segments>[number];

function directionOf(side: Side, end: 0 | 1): Point {
  if (side.kind === "line") return { x: side.to.x - side.from.x, y: side.to.y - side.from.y };
  const p = end === 0 ? side.from : side.to;
  const sense = Math.sign(side.sweep);
  return { x: -(p.y - side.centre.y) * sense, y: (p.x - side.centre.x) * sense };
}

function turnFrom(a: Point, b: Point): number {
  return arctangent(a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y);
}

interface CutLoop {
  readonly id: string;
  readonly loop: Loop;
  readonly isOutline: boolean;
  readonly isDrilled: boolean;
}

/** All that is cut right through. */
function cutLoops(part: Part): readonly CutLoop[] {
  return [
    { id: "outline", loop: part.outline, isOutline: true, isDrilled: false },
    ...part.features.flatMap((f): CutLoop[] => {
      if (f.kind === "opening") return [{ id: f.id, loop: f.loop, isOutline: false, isDrilled: false }];
      if (f.kind === "bore" && f.depth === null)
        return [{ id: f.id, loop: circle(f.at, f.diameter / 2), isOutline: false, isDrilled: true }];
      return [];
    }),
  ];
}

/** Pockets that lie whole inside the part: one that is open at an edge has its corners there, where no wood is. */
function pocketLoops(part: Part): readonly CutLoop[] {
  return part.features.flatMap((f): CutLoop[] => {
    if (f.kind !== "recess" || areaOf([f.region]) === 0) return [];
    const edge = f.region.outer.vertices.some((v) => distanceTo(part.outline, v) < RIM_MM);
    return edge ? [] : [{ id: f.id, loop: f.region.outer, isOutline: false, isDrilled: false }];
  });
}

function names(parts: readonly Part[]): string {
  const ids = parts.map(({ id }) => id);
  return ids.length < 2 ? ids.join("") : `${ids.slice(0, -1).join(", ")} and ${ids.at(-1)}`;
}

function mm(length: number): string {
  return `${Number(length.toFixed(2))} mm`;
}

function error(
  code: string,
  path: string,
  message: string,
  numbers: Finding["numbers"],
  wayOut: string,
): Finding {
  return { code, severity: "error", path, message, numbers, wayOut };
}
