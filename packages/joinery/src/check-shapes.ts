import {
  areaOf,
  boundsOf,
  circle,
  contains,
  distanceTo,
  flatten,
  intersection,
  type Loop,
  type Region,
  SAME_POINT_MM,
} from "@dryfit/geometry";
import type { Box3, Pose } from "./assembly.ts";
import type { Design } from "./design.ts";
import type { Finding } from "./finding.ts";
import { finding, when } from "./findings.ts";
import { formatLength } from "./length.ts";
import type { CaseNumbers } from "./numbers.ts";
import { openingFeatures } from "./openings.ts";
import type { Feature, Part, Recess } from "./part.ts";
import { axisOf, boxInCase, panelFromCase } from "./pose.ts";

interface Placed {
  readonly part: Part;
  readonly pose: Pose;
}

/** Least wood between an opening and an edge that should be left, mm; common practice, no source. */
const EDGE_MM = 8;

/** Least wood between a screw hole and its opening, mm: less splits without a pilot hole. */
const SCREW_MM = 1;

/** Least wood beside a relieved corner, mm: less breaks out under the cutter; common practice, no source. */
const RELIEF_MM = 1;

/** How finely an opening's rim is looked at, mm: much finer than any of these limits. */
const RIM_MM = 0.02;

/** Parts nearer to a face than this lie against it, mm. */
const AGAINST_MM = 0.5;

/** What the design's openings run into, once everything is drawn. */
export function checkOpeningShapes(
  design: Design,
  numbers: CaseNumbers,
  placed: readonly Placed[],
): Finding[] {
  return design.openings.flatMap((o, i) => {
    const on = placed.find(({ part }) => part.id === o.panel);
    if (on === undefined) return [];
    const own = openingFeatures(o, on.pose, design, numbers);
    const plain = openingFeatures({ ...o, relief: "none" }, on.pose, design, numbers);
    const names = own.map((f) => f.id);
    const others = on.part.features.filter((f) => !names.includes(f.id));
    const twice = names.find((id) => on.part.features.filter((f) => f.id === id).length > 1);
    if (twice !== undefined) return [nameTwice(`openings[${i}].id`, twice, on.part.id)];
    return [
      ...checkOne(design, `openings[${i}]`, o.id, on, own, others, placed),
      ...checkRelief(design, `openings[${i}].relief`, o.id, on, { own, plain, others }),
    ];
  });
}

function checkOne(
  design: Design,
  path: string,
  id: string,
  on: Placed,
  own: readonly Feature[],
  others: readonly Feature[],
  placed: readonly Placed[],
): Finding[] {
  const say = (mm: number): string => formatLength(mm, design.units);
  const { outline } = on.part;
  const loops = own.map(loopOf);
  const rims = loops.flatMap((loop) => flatten(loop, RIM_MM));
  const outside = rims.some((p) => contains(outline, p) === "outside");
  if (outside) {
    return [
      finding(
        "opening_off_panel",
        "error",
        `${path}.from`,
        `"${id}" does not lie inside ${on.part.id}.`,
        {},
        "Move it, or make it smaller.",
      ),
    ];
  }
  const wood = Math.min(...rims.map((p) => distanceTo(outline, p)));
  const joints = others.filter((f): f is Recess => f.kind === "recess" && f.purpose !== "counterbore");
  const cutouts = others.filter((f) => f.kind !== "recess" || f.purpose === "counterbore");
  const joint = joints.find((r) => loops.some((loop) => overlap(loop, r.region)));
  const cutout = cutouts.find((f) => loops.some((loop) => overlap(loop, { outer: loopOf(f), holes: [] })));
  const cover = placed.find((other) => other !== on && covers(other, on, loops));
  const webs = screwWebs(own);
  const web = Math.min(...webs);
  return [
    ...when(joint !== undefined, () =>
      finding(
        "opening_meets_joint",
        "error",
        `${path}.from`,
        `"${id}" cuts into the ${joint!.purpose} of ${on.part.id}.`,
        {},
        "Move it, or make it smaller.",
      ),
    ),
    ...when(cutout !== undefined, () =>
      finding(
        "opening_meets_opening",
        "error",
        `${path}.from`,
        `"${id}" runs into "${cutout!.id}" on ${on.part.id}.`,
        {},
        "Move one of them.",
      ),
    ),
    ...when(cover !== undefined, () =>
      finding(
        "opening_meets_part",
        "error",
        `${path}.from`,
        `"${id}" on ${on.part.id} is covered by ${cover!.part.id}.`,
        {},
        "Move it clear of that part.",
      ),
    ),
    ...when(wood < EDGE_MM, () =>
      finding(
        "opening_near_edge",
        "warning",
        `${path}.from`,
        `${say(wood)} of wood is left between "${id}" and the edge of ${on.part.id}; ${say(EDGE_MM)} is good practice.`,
        { left: wood, least: EDGE_MM },
        "Move it inwards.",
      ),
    ),
    ...when(web < SCREW_MM, () =>
      finding(
        "screw_near_opening",
        "warning",
        `${path}.size`,
        `${say(web)} of wood is left between "${id}" and its screw holes.`,
        { left: web, least: SCREW_MM },
        "Check the measures against the part in your hand, or screw it to a plate.",
      ),
    ),
  ];
}

/** Wood between what the relief adds to the opening and all that lies around it. */
function checkRelief(
  design: Design,
  path: string,
  id: string,
  { part }: Placed,
  { own, plain, others }: Readonly<Record<"own" | "plain" | "others", readonly Feature[]>>,
): Finding[] {
  const say = (mm: number): string => formatLength(mm, design.units);
  const [opening, box] = [own, plain].map((list) => list.find((f) => f.kind === "opening"));
  if (opening === undefined || box === undefined) return [];
  const added = flatten(loopOf(opening), RIM_MM).filter(
    (p) => contains(loopOf(box), p) === "outside" && distanceTo(loopOf(box), p) > SAME_POINT_MM,
  );
  const around = [part.outline, ...[...own, ...others].filter((f) => f !== opening).map(loopOf)];
  const wood = Math.min(...added.flatMap((p) => around.map((loop) => distanceTo(loop, p))));
  return when(wood < RELIEF_MM, () =>
    finding(
      "relief_breaks_out",
      "error",
      path,
      `The relieved corners of "${id}" leave ${say(wood)} of wood to what lies beside them; ${say(RELIEF_MM)} must stay.`,
      { left: wood, least: RELIEF_MM },
      "Relieve the other walls, move the opening, or take a smaller cutter.",
    ),
  );
}

/** Wood between the opening and the edges of its screw holes. */
function screwWebs(own: readonly Feature[]): number[] {
  const openings = own.filter((f) => f.kind === "opening");
  return own.flatMap((f) =>
    f.kind === "bore" ? openings.map((o) => distanceTo(o.loop, f.at) - f.diameter / 2) : [],
  );
}

/** Whether a part lies against the panel where one of its loops is. */
function covers(other: Placed, on: Placed, loops: readonly Loop<"panel">[]): boolean {
  const box = boxInCase(other.part, other.pose, boundsOf(other.part.outline).max);
  const own = boxInCase(on.part, on.pose, boundsOf(on.part.outline).max);
  const axis = axisOf(on.pose.into);
  if (box.min[axis] > own.max[axis] + AGAINST_MM || box.max[axis] < own.min[axis] - AGAINST_MM) return false;
  const flat = flatBox(box, on.pose);
  return loops.some((loop) => overlap(loop, flat));
}

function flatBox(box: Box3, pose: Pose): Region<"panel"> {
  const [a, b] = [panelFromCase(pose, box.min), panelFromCase(pose, box.max)];
  const [x0, x1] = [Math.min(a.x, b.x), Math.max(a.x, b.x)];
  const [y0, y1] = [Math.min(a.y, b.y), Math.max(a.y, b.y)];
  const corners = [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ] as const;
  return { outer: { closed: true, vertices: corners.map(([x, y]) => ({ x, y, bulge: 0 })) }, holes: [] };
}

function overlap(loop: Loop<"panel">, region: Region<"panel">): boolean {
  const [a, b] = [boundsOf(loop), boundsOf(region.outer)];
  const apart = a.min.x > b.max.x || b.min.x > a.max.x || a.min.y > b.max.y || b.min.y > a.max.y;
  if (apart) return false;
  return areaOf(intersection([{ outer: loop, holes: [] }], [region])) > SAME_POINT_MM;
}

function loopOf(feature: Feature): Loop<"panel"> {
  if (feature.kind === "opening") return feature.loop;
  if (feature.kind === "recess") return feature.region.outer;
  return circle(feature.at, feature.diameter / 2);
}

function nameTwice(path: string, id: string, part: string): Finding {
  return finding(
    "name_twice",
    "error",
    path,
    `Two features of ${part} would be called "${id}".`,
    {},
    "Give the opening another id.",
  );
}
