import {
  difference,
  polygon,
  type Region,
  rectangle,
  regionsOf,
  roundedRectangle,
  union,
} from "@dryfit/geometry";
import type { Assembly, Box3, Joint, Part, Point3, Pose } from "@dryfit/joinery";
import type { CutPart } from "../src/cut-part.ts";

/** A small case with figures that can be worked out by hand, and the ways in which its cutting can go wrong. mm. */
export interface HandMade {
  /** Inside. */
  readonly width: number;
  readonly depth: number;
  readonly front: number;
  readonly back: number;
  readonly thickness: number;
  readonly tongue: { readonly thickness: number; readonly length: number };
  readonly side: number;
  readonly end: number;
  readonly cutterRadius: number;
  readonly drop: { readonly front: number; readonly back: number };

  // As cut, where it differs from what was asked.
  readonly cutSide: number;
  readonly housingDepth: number;
  readonly grooveDepth: number;
  readonly baseTongueThickness: number;
  /** How far short of the round end of its housing the base's tongue stops. */
  readonly endAir: number;
  /** Wood that the base lost at its front shoulder. */
  readonly baseShoulderCut: number;
  readonly leftBackDrop: number;
}

export function handMade(given: Partial<HandMade> = {}): HandMade {
  const asked = {
    width: 540,
    depth: 336,
    front: 46,
    back: 122,
    thickness: 14.8,
    tongue: { thickness: 7, length: 6.8 },
    side: 0.1,
    end: 0.4,
    cutterRadius: 3,
    drop: { front: 8, back: 34 },
    ...given,
  };
  return {
    cutSide: asked.side,
    housingDepth: asked.tongue.length + asked.end,
    grooveDepth: asked.tongue.length + asked.end,
    baseTongueThickness: asked.tongue.thickness,
    endAir: slotEnd(asked.cutterRadius, Math.max(0, Math.min(asked.side, given.cutSide ?? asked.side))),
    baseShoulderCut: 0,
    leftBackDrop: asked.drop.back,
    ...asked,
  };
}

/** reference: e = r − √(r² − (r − c)²), derived. */
export function slotEnd(r: number, c: number): number {
  return r - Math.sqrt(r * r - (r - c) ** 2);
}

export function assemblyOf(n: HandMade): Assembly {
  const { width: W, depth: D, thickness: t, tongue } = n;
  const { thickness: k, length: l } = tongue;
  const parts = [
    part("base", n),
    part("rail-front", n),
    part("rail-back", n),
    part("cheek-left", n),
    part("cheek-right", n),
  ];
  const poses: Record<string, Pose> = {
    base: pose("+x", "+y", "-z", { x: -l, y: -l, z: 0 }),
    "rail-front": pose("-x", "+z", "-y", { x: W + l, y: 0, z: -t }),
    "rail-back": pose("+x", "+z", "+y", { x: -l, y: D, z: -t }),
    "cheek-right": pose("-y", "+z", "+x", { x: W, y: D + t, z: -t - n.drop.back }),
    "cheek-left": pose("+y", "+z", "-x", { x: 0, y: -t, z: -t - n.drop.back }),
  };
  const base = { z: [-k, 0] } as const;
  const [y0, y1] = baseTongueY(n);
  const joints: Joint[] = [
    joint("base-front", "base", "rail-front", "-y", "z", "x", { ...base, x: [0, W], y: [-l, 0] }, 0, n),
    joint("base-back", "base", "rail-back", "+y", "z", "x", { ...base, x: [0, W], y: [D, D + l] }, 0, n),
    joint("base-left", "base", "cheek-left", "-x", "z", "y", { ...base, x: [-l, 0], y: [y0, y1] }, e(n), n),
    joint(
      "base-right",
      "base",
      "cheek-right",
      "+x",
      "z",
      "y",
      { ...base, x: [W, W + l], y: [y0, y1] },
      e(n),
      n,
    ),
    ...(["front", "back"] as const).flatMap((which) => {
      const z = railTongueZ(n[which]);
      const y: Range = which === "front" ? [-k, 0] : [D, D + k];
      const rail = `rail-${which}`;
      return [
        joint(`${rail}-left`, rail, "cheek-left", "-x", "y", "z", { x: [-l, 0], y, z }, e(n), n),
        joint(`${rail}-right`, rail, "cheek-right", "+x", "y", "z", { x: [W, W + l], y, z }, e(n), n),
      ];
    }),
  ];
  return {
    name: "hand-made",
    parts,
    poses,
    joints,
    inside: { width: W, depth: D, front: n.front, back: n.back },
    outside: { width: W + 2 * t, depth: D + 2 * t, height: n.back + t + n.drop.back },
    rake: Math.atan((n.drop.back - n.drop.front) / (D + 2 * t)),
    feet: [-t / 2, W + t / 2].flatMap((x) => [
      { x, y: -t, z: -t - n.drop.front },
      { x, y: D + t, z: -t - n.drop.back },
    ]),
    hinge: null,
    findings: [],
  };
}

export function cutPartsOf(n: HandMade): CutPart[] {
  return [
    baseOf(n),
    railOf(n, "rail-front", n.front),
    railOf(n, "rail-back", n.back),
    cheekOf(n, "cheek-left", n.leftBackDrop),
    cheekOf(n, "cheek-right", n.drop.back),
  ];
}

type Range = readonly [number, number];

function e(n: HandMade): number {
  return slotEnd(n.cutterRadius, n.side);
}

/** The base's tongue towards the cheeks: notched at the corners, clear of the rails' housings. */
function baseTongueY({ depth }: HandMade): Range {
  return [10, depth - 10];
}

function railTongueZ(height: number): Range {
  return [8, height - 14];
}

function baseOf(n: HandMade): CutPart {
  const { length: l } = n.tongue;
  const [W, D] = [n.width, n.depth];
  const [y0, y1] = baseTongueY(n);
  const foot = region([l, l + n.baseShoulderCut], [l + W, l + D]);
  const towardsRails = region([l, 0], [l + W, 2 * l + D]);
  const towardsCheeks = region([0, l + y0], [2 * l + W, l + y1]);
  return stack("base", [
    [0, n.baseTongueThickness, union([...towardsRails, ...towardsCheeks])],
    [n.baseTongueThickness, n.thickness, foot],
  ]);
}

/** Drawn for the front rail, seen from inside; the back rail is its like. */
function railOf(n: HandMade, id: string, height: number): CutPart {
  const { thickness: k, length: l } = n.tongue;
  const [t, c] = [n.thickness, n.cutSide];
  const whole = l + n.width + l;
  const body = region([l, 0], [l + n.width, t + height]);
  const [z0, z1] = railTongueZ(height);
  const tongues = region([0, t + z0], [whole, t + z1]);
  const groove = region([-1, t - k - c], [whole + 1, t + c]);
  const cuts = [...new Set([0, k, n.grooveDepth, t])].sort((a, b) => a - b);
  return stack(
    id,
    cuts.slice(1).map((to, i) => {
      const wood = to <= k ? union([...body, ...tongues]) : body;
      return [cuts[i]!, to, to <= n.grooveDepth ? difference(wood, groove) : wood] as const;
    }),
  );
}

/** Seen from inside with y to the right for the left cheek, to the left for the right one. */
function cheekOf(n: HandMade, id: "cheek-left" | "cheek-right", backDrop: number): CutPart {
  const { thickness: k } = n.tongue;
  const [t, c, r, D] = [n.thickness, n.cutSide, n.cutterRadius, n.depth];
  const up = t + n.drop.back;
  const x = (y: number) => (id === "cheek-left" ? t + y : D + t - y);
  const loop = (points: readonly (readonly [y: number, z: number])[]) => {
    const placed = points.map(([y, z]) => ({ x: x(y), y: up + z }));
    return polygon<"panel">(id === "cheek-left" ? placed : placed.reverse());
  };
  const slope = (n.drop.back - n.drop.front) / (D + 2 * t);
  const sole = (y: number, drop: number) => -t - drop - slope * (y - (drop === n.drop.front ? -t : D + t));
  const outline = loop([
    [-t, sole(-t, n.drop.front)],
    [30, sole(30, n.drop.front)],
    [40, -t],
    [D - 40, -t],
    [D - 30, sole(D - 30, backDrop)],
    [D + t, sole(D + t, backDrop)],
    [D + t, n.back],
    [-t, n.front],
  ]);
  const air = n.endAir;
  const slot = ([ya, yb]: Range, [za, zb]: Range) => {
    const [xa, xb] = [x(ya), x(yb)].sort((a, b) => a - b) as [number, number];
    return regionsOf([
      roundedRectangle({ x: xa, y: up + za }, { x: xb, y: up + zb }, r),
    ]) as Region<"panel">[];
  };
  const [y0, y1] = baseTongueY(n);
  const railAir = slotEnd(r, Math.max(0, Math.min(n.side, c)));
  const railSlot = (inside: number, way: 1 | -1, height: number) => {
    const [z0, z1] = railTongueZ(height);
    const [a, b] = [inside - way * c, inside + way * (k + c)];
    return slot([Math.min(a, b), Math.max(a, b)], [z0 - railAir, z1 + railAir]);
  };
  const housings = union([
    ...slot([y0 - air, y1 + air], [-k - c, c]),
    ...railSlot(0, -1, n.front),
    ...railSlot(D, 1, n.back),
  ]);
  const wood: Region<"panel">[] = [{ outer: outline, holes: [] }];
  return stack(id, [
    [0, n.housingDepth, difference(wood, housings)],
    [n.housingDepth, t, wood],
  ]);
}

function stack(part: string, layers: readonly (readonly [number, number, Region<"panel">[]])[]): CutPart {
  return {
    part,
    thickness: layers.at(-1)![1],
    layers: layers.map(([from, to, solid]) => ({ from, to, solid })),
  };
}

function region([x0, y0]: Range, [x1, y1]: Range): Region<"panel">[] {
  return [{ outer: rectangle({ x: x0, y: y0 }, { x: x1, y: y1 }), holes: [] }];
}

function pose(x: Pose["x"], y: Pose["y"], into: Pose["into"], origin: Point3): Pose {
  return { origin, x, y, into, datum: "A" };
}

function joint(
  id: string,
  tongue: string,
  housing: string,
  into: Joint["into"],
  across: Joint["across"],
  along: Joint["along"],
  ranges: { readonly x: Range; readonly y: Range; readonly z: Range },
  alongLeast: number,
  n: HandMade,
): Joint {
  const box: Box3 = {
    min: { x: ranges.x[0], y: ranges.y[0], z: ranges.z[0] },
    max: { x: ranges.x[1], y: ranges.y[1], z: ranges.z[1] },
  };
  return {
    id,
    tongue: { part: tongue, box },
    housing: { part: housing, feature: id },
    into,
    across,
    along,
    fit: { side: n.side, end: n.end, alongLeast },
    shoulder: true,
  };
}

/** What the dry fit never looks at is left plain: it sees the parts as cut. */
function part(id: string, { thickness }: HandMade): Part {
  return {
    id,
    panel: id.split("-")[0]!,
    title: id,
    material: "sheet",
    thickness: { min: thickness, mean: thickness, max: thickness },
    outline: rectangle({ x: 0, y: 0 }, { x: 1, y: 1 }),
    features: [],
    roundOvers: [],
    grain: "x",
    faceNames: { A: "inside", B: "outside" },
    mating: [],
  };
}
