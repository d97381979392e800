import { cosine, flatten, type Loop, type Point, sine } from "@dryfit/geometry";
import type { Assembly, Part, Point3 } from "@dryfit/joinery";
import { PLAIN } from "./lettering.ts";
import { nameSpot } from "./name-spot.ts";
import { noteMark } from "./note-marks.ts";
import { type Note, placeNotes, type Stroke } from "./notes.ts";
import { type OnPaper, spot } from "./outline.ts";
import { axisOf, boxInCase, boxOfCase, poseOf, stand } from "./standing.ts";
import { drawingStyle } from "./style.ts";
import { el, escaped, group, type Markup } from "./svg.ts";
import { innerPoint } from "./wood.ts";

/** The parts pulled apart along the ways in which they go together, seen from the front right above. */
export function explodedDrawing(assembly: Assembly): string {
  const prefix = "exploded";
  const slabs = nearLast(assembly.parts.map((part) => slabOf(assembly, part)));
  const points = slabs.flatMap((slab) => slab.corners.map(project));
  const [xs, ys] = [points.map((p) => p.x), points.map((p) => p.y)];
  const span = { x: Math.max(...xs) - Math.min(...xs), y: Math.max(...ys) - Math.min(...ys) };
  const scale = (WIDTH - 2 * ROOM) / Math.max(span.x, 1);
  const height = span.y * scale + 2 * ROOM;
  const paper = (p: Point3): OnPaper => {
    const q = project(p);
    return { x: ROOM + (q.x - Math.min(...xs)) * scale, y: ROOM + (Math.max(...ys) - q.y) * scale };
  };
  const seen = slabs.map(({ near, far, openings, recesses }) => {
    const onPaper = (points: readonly Point3[]) => points.map(paper);
    return {
      edge: onPaper(near),
      far: onPaper(far),
      openings: openings.map(onPaper),
      recesses: recesses.map(onPaper),
    };
  });
  const strokes = seen.flatMap(({ edge, far, openings, recesses }) =>
    [edge, far, ...openings, ...recesses].flatMap((points) => chords(thinned(points))),
  );
  const notes: readonly Note[] = slabs.map((slab, i) => ({
    at: nameSpot(
      { ...seen[i]!, before: seen.slice(i + 1).flatMap(({ edge, far }) => [edge, far]) },
      strokes,
      paper(slab.middle),
      slab.part.title,
      PLAIN,
    ),
    lines: [slab.part.title],
    size: PLAIN,
    named: true,
  }));
  const within = { min: { x: 0, y: 0 }, max: { x: WIDTH, y: height } };
  return el(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      class: "drawing",
      viewBox: `0 0 ${WIDTH} ${height.toFixed(1)}`,
      role: "img",
      "aria-labelledby": `${prefix}-title`,
    },
    el("title", { id: `${prefix}-title` }, escaped(`${assembly.name}, its parts pulled apart`)),
    el("style", {}, drawingStyle()),
    el("rect", { class: "paper", width: WIDTH, height }),
    group("paths", ...pullLines(assembly, paper)),
    ...slabs.map((slab) => slabMark(slab, paper)),
    ...placeNotes(notes, [], strokes, within).map(noteMark),
  );
}

const WIDTH = 260;
const ROOM = 8;

/** The eye stands so far round to the right of the front, and so far above. */
const ROUND = (32 * Math.PI) / 180;
const ABOVE = (28 * Math.PI) / 180;
const TOWARDS: Point3 = {
  x: sine(ROUND) * cosine(ABOVE),
  y: -cosine(ROUND) * cosine(ABOVE),
  z: sine(ABOVE),
};

function project({ x, y, z }: Point3): Point {
  return {
    x: x * cosine(ROUND) + y * sine(ROUND),
    y: (y * cosine(ROUND) - x * sine(ROUND)) * sine(ABOVE) + z * cosine(ABOVE),
  };
}

function nearness(p: Point3): number {
  return p.x * TOWARDS.x + p.y * TOWARDS.y + p.z * TOWARDS.z;
}

interface Slab {
  readonly part: Part;
  /** The outline on the face that is seen, and on the other one. */
  readonly near: readonly Point3[];
  readonly far: readonly Point3[];
  readonly openings: readonly (readonly Point3[])[];
  readonly recesses: readonly (readonly Point3[])[];
  readonly corners: readonly Point3[];
  readonly middle: Point3;
}

function slabOf(assembly: Assembly, part: Part): Slab {
  const pose = poseOf(assembly, part);
  const pull = pullOf(assembly, part);
  const t = part.thickness.mean;
  const at = (p: Point, depth: number) => plus(stand(part, pose, p, depth), pull);
  const facesA = nearness(at({ x: 0, y: 0 }, 0)) > nearness(at({ x: 0, y: 0 }, t));
  const face = facesA ? "A" : "B";
  const nearDepth = facesA ? 0 : t;
  const onFace = (loop: Loop) => flatten(loop, CHORD_MM).map((p) => at(p, nearDepth));
  const near = onFace(part.outline);
  const far = flatten(part.outline, CHORD_MM).map((p) => at(p, t - nearDepth));
  return {
    part,
    near,
    far,
    openings: holesOf(part).map(onFace),
    recesses: part.features.flatMap((f) =>
      f.kind === "recess" && f.face === face ? [f.region.outer, ...f.region.holes].map(onFace) : [],
    ),
    corners: [...near, ...far],
    middle: at(innerPoint({ outer: part.outline, holes: holesOf(part) }), nearDepth),
  };
}

function holesOf(part: Part): readonly Loop[] {
  return part.features.flatMap((f) => (f.kind === "opening" ? [f.loop] : []));
}

/** Chords this close to their arcs look round, mm. */
const CHORD_MM = 0.3;

/** Sides outwards, rails forwards and back, the base down, what lies on it up. */
function pullOf(assembly: Assembly, part: Part): Point3 {
  const whole = boxOfCase(assembly);
  const box = boxInCase(part, poseOf(assembly, part));
  const axis = axisOf(poseOf(assembly, part).into);
  const layers = assembly.glued?.find((glued) => glued.includes(part.id)) ?? [part.id];
  const held = assembly.joints.some(
    ({ tongue, housing }) => layers.includes(tongue.part) || layers.includes(housing.part),
  );
  if (!held) return { x: 0, y: 0, z: axis === "z" ? LOOSE * 1.9 : LOOSE };
  if (axis === "z") return { x: 0, y: 0, z: 0 };
  const middle = (whole.min[axis] + whole.max[axis]) / 2;
  const outwards = (box.min[axis] + box.max[axis]) / 2 < middle ? -1 : 1;
  const away = (axis === "x" ? SIDEWAYS : LENGTHWAYS) + layers.indexOf(part.id) * LAYERWAYS;
  return { x: 0, y: 0, z: 0, [axis]: outwards * away };
}

/** How far parts are pulled apart, mm of the case. */
const SIDEWAYS = 150;
const LENGTHWAYS = 130;
const LOOSE = 110;
const LAYERWAYS = 45;

function nearLast(slabs: readonly Slab[]): readonly Slab[] {
  return [...slabs].sort((a, b) => nearness(mean(a.corners)) - nearness(mean(b.corners)));
}

/** Only sides that look at the eye are drawn, and only edges that such a side has. */
function slabMark(slab: Slab, paper: (p: Point3) => OnPaper): Markup {
  const ring = (points: readonly Point3[]) => `M${points.map((p) => spot(paper(p))).join("L")}Z`;
  const line = (a: Point3, b: Point3) => `M${spot(paper(a))}L${spot(paper(b))}`;
  const n = slab.near.length;
  const winding = Math.sign(turnOf(slab.near));
  const quads = slab.near.map(
    (p, i) => [p, slab.near[(i + 1) % n]!, slab.far[(i + 1) % n]!, slab.far[i]!] as const,
  );
  const shown = quads.map((quad) => turnOf(quad) * winding < 0);
  const edges = quads.flatMap(([p, , nextFar, far], i) => [
    ...(shown[i] ? [line(far, nextFar)] : []),
    ...(isSharp(slab.near, i) && (shown[i] || shown[(i + n - 1) % n]) ? [line(p, far)] : []),
  ]);
  const sides = quads.filter((_, i) => shown[i]).map(ring);
  return group(
    "slab",
    el("path", { class: "slab-side", d: sides.join("") }),
    el("path", { class: "slab-edge", d: edges.join("") }),
    el("path", {
      class: "solid",
      "fill-rule": "evenodd",
      d: [slab.near, ...slab.openings].map(ring).join(""),
    }),
    slab.recesses.length === 0
      ? ""
      : el("path", { class: "slab-recess", d: slab.recesses.map(ring).join("") }),
  );
}

/** Twice the area that the points enclose as the eye sees them; positive where they run counter-clockwise. */
function turnOf(points: readonly Point3[]): number {
  const flat = points.map(project);
  return flat.reduce((sum, p, i) => {
    const q = flat[(i + 1) % flat.length]!;
    return sum + p.x * q.y - q.x * p.y;
  }, 0);
}

/** Whether the outline turns a real corner here, not one of the small steps that stand for an arc. */
function isSharp(points: readonly Point3[], i: number): boolean {
  const n = points.length;
  const [a, b, c] = [points[(i + n - 1) % n]!, points[i]!, points[(i + 1) % n]!];
  const [u, v] = [minus(b, a), minus(c, b)];
  const size = Math.hypot(u.x, u.y, u.z) * Math.hypot(v.x, v.y, v.z);
  return size > 0 && (u.x * v.x + u.y * v.y + u.z * v.z) / size < cosine(Math.PI / 9);
}

/** A line from each tongue to where it goes. */
function pullLines(assembly: Assembly, paper: (p: Point3) => OnPaper): readonly Markup[] {
  const pulls = new Map(assembly.parts.map((part) => [part.id, pullOf(assembly, part)]));
  return assembly.joints.map(({ tongue, housing }) => {
    const middle = mean([tongue.box.min, tongue.box.max]);
    const [a, b] = [pulls.get(tongue.part), pulls.get(housing.part)];
    if (!a || !b) return "";
    return el("path", {
      class: "centre",
      d: `M${spot(paper(plus(middle, a)))}L${spot(paper(plus(middle, b)))}`,
    });
  });
}

/** Without points that stand closer than words need to know of, mm of paper. */
function thinned(points: readonly OnPaper[]): readonly OnPaper[] {
  const kept: OnPaper[] = [];
  for (const p of points) {
    const last = kept.at(-1);
    if (!last || Math.hypot(p.x - last.x, p.y - last.y) > THIN) kept.push(p);
  }
  return kept;
}

const THIN = 0.7;

function chords(points: readonly OnPaper[]): readonly Stroke[] {
  return points.map((p, i): Stroke => [p, points[(i + 1) % points.length]!]);
}

function plus(a: Point3, b: Point3): Point3 {
  return { x: a.x + b.x, y: a.y + b.y, z: a.z + b.z };
}

function minus(a: Point3, b: Point3): Point3 {
  return { x: a.x - b.x, y: a.y - b.y, z: a.z - b.z };
}

/** The middle of the points' box. */
function mean(points: readonly Point3[]): Point3 {
  const middle = (axis: "x" | "y" | "z") => {
    const values = points.map((p) => p[axis]);
    return (Math.min(...values) + Math.max(...values)) / 2;
  };
  return { x: middle("x"), y: middle("y"), z: middle("z") };
}
