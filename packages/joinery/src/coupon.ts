import {
  boundsOf,
  intersection,
  type Loop,
  point,
  polygon,
  type Region,
  rectangle,
  roundedRectangle,
} from "@dryfit/geometry";
import type { Assembly, Joint, Pose } from "./assembly.ts";
import { type Corner, corner, rounded } from "./corner.ts";
import { type CouponTrials, couponTrials, kerfTrials } from "./coupon-trials.ts";
import type { Design } from "./design.ts";
import { numbersOf } from "./numbers.ts";
import type { Opening, Part, Recess } from "./part.ts";
import { runBetween } from "./run-between.ts";
import { sheetPart } from "./sheet-part.ts";

/** A plate of slots through and through, drawn without any kerf: a piece of the same sheet goes in by its edge. */
export function kerfCoupon(design: Design): Part {
  const trials = kerfTrials(design);
  const tall = KERF_SLOT + 2 * WOOD;
  let x = WOOD;
  const features = trials.map(({ letter, size }): Opening => {
    const loop = rectangle(point<"panel">(x, WOOD), point<"panel">(x + size, WOOD + KERF_SLOT));
    x += size + WOOD;
    return { kind: "opening", id: `kerf-${letter.toLowerCase()}`, loop, title: `Kerf ${letter}` };
  });
  return sheetPart(design, {
    id: "coupon-kerf",
    panel: "coupon",
    title: "Coupon: kerf slots",
    outline: cutOffCorner(x, tall),
    features,
    grain: "x",
    faceNames: { A: "up", B: "under" },
  });
}

/** Length of a slot that tries the kerf, mm. */
const KERF_SLOT = 25;

/** Wood between two housings, and around them, mm: enough to hold an edge while it is tried. */
const WOOD = 9;

/** Which way a cutter goes round a wall: with the wood on its right, or on its left. */
export type CutWay = "climb" | "conventional";

/** Both: a wall that a cutter presses against stands elsewhere than one that it pulls away from. */
const BOTH_WAYS: readonly CutWay[] = ["climb", "conventional"];

/** Which way each plate of a coupon is cut, by part id. */
export const couponWays: Readonly<Record<string, CutWay>> = Object.fromEntries(
  BOTH_WAYS.map((way) => [plateFor(way), way]),
);

/** What suits whoever cuts a coupon. */
export interface CouponForm {
  readonly ways: readonly CutWay[];
  /** Wood between two housings, and around them, mm. */
  readonly wood: number;
  /** Whether plates have corners cut off by which they are read. */
  readonly corners: boolean;
}

const MACHINED: CouponForm = { ways: BOTH_WAYS, wood: WOOD, corners: true };

/**
 * An offcut that tries the design's joint before its sheet is touched: for each way of cutting a plate of housings,
 * the first one with the depths too, and a piece with the tongue on an edge along the grain and on one across it.
 * The tongue stands in the design's own housing, and the second plate lies beside the first.
 */
export function coupon(design: Design, form: CouponForm = MACHINED): Assembly {
  if (design.layers) return assembled(design, [kerfCoupon(design)], { "coupon-kerf": FLAT }, []);
  const trials = couponTrials(design);
  const plates = form.ways.map((way, i) =>
    platePart(design, i === 0 ? trials : { ...trials, depths: [] }, way, form),
  );
  const [first] = plates;
  const piece = tonguePart(design);
  const now = first!.homes.get(trials.widths.find((trial) => trial.now)!.letter)!;
  const beside = boundsOf(first!.part.outline).max.x + WOOD;
  const poses: Record<string, Pose> = { [PIECE]: upright(design, now) };
  plates.forEach(({ part }, i) => {
    poses[part.id] = { ...FLAT, origin: { ...FLAT.origin, x: i * beside } };
  });
  const parts = [...plates.map(({ part }) => part), piece];
  return assembled(design, parts, poses, [jointAt(design, first!.part.id, now)]);
}

/** As much of an assembly as a coupon is. */
function assembled(
  design: Design,
  parts: readonly Part[],
  poses: Assembly["poses"],
  joints: readonly Joint[],
): Assembly {
  const { x, y } = boundsOf(parts[0]!.outline).max;
  return {
    name: `${design.name}-coupon`,
    parts,
    poses,
    joints,
    inside: { width: 0, depth: 0, front: 0, back: 0 },
    outside: { width: x, depth: y, height: 0 },
    rake: 0,
    feet: [],
    hinge: null,
    findings: [],
  };
}

interface Home {
  /** The housing's middle line, across the grain, in the plate's frame. */
  readonly x: number;
  readonly y: readonly [number, number];
  readonly feature: string;
}

/** Length of a housing between its round ends' furthest points, beyond the tongue, mm. */
const HOUSING_ROOM = 1;
/** How wide the tongue piece's tongues are along their edges, mm. */
const TONGUE = 24;

/** The plate lies with its housings up, as thick as it may be below them. */
const FLAT: Pose = { origin: { x: 0, y: 0, z: 0 }, x: "+x", y: "+y", into: "-z", datum: "A" };

const PIECE = "coupon-tongue";

function plateFor(way: CutWay): string {
  return `coupon-${way}`;
}

function platePart(
  design: Design,
  { widths, depths }: CouponTrials,
  way: CutWay,
  { wood, corners }: CouponForm,
): { part: Part; homes: ReadonlyMap<string, Home> } {
  const { r, recessDepth } = numbersOf(design, "inner");
  const length = housingLength(design);
  const home = widths.find((trial) => trial.now)!.size;
  const features: Recess[] = [];
  const homes = new Map<string, Home>();
  const add = (id: string, region: Region<"panel">, depth: number): void => {
    features.push({ kind: "recess", id, face: "A", region, depth, purpose: "housing" });
  };
  // Across the grain (the plate's grain runs along x): upright housings side by side.
  let x = wood;
  for (const { letter, size } of widths) {
    const id = `width-${letter.toLowerCase()}-across`;
    add(id, slot(x, wood, x + size, wood + length, r), recessDepth);
    homes.set(letter, { x: x + size / 2, y: [wood, wood + length], feature: id });
    x += size + wood;
  }
  for (const { letter, size } of depths) {
    add(`depth-${letter.toLowerCase()}`, slot(x, wood, x + home, wood + length, r), size);
    x += home + wood;
  }
  // Along the grain: level ones above them, in as many columns as the plate is wide.
  const columns = Math.floor((x - wood) / (length + wood));
  const rows = Math.ceil(widths.length / columns);
  const pitch = widths.at(-1)!.size + wood;
  widths.forEach(({ letter, size }, i) => {
    const left = wood + (i % columns) * (length + wood);
    const bottom = 2 * wood + length + (rows - 1 - Math.floor(i / columns)) * pitch;
    add(
      `width-${letter.toLowerCase()}-along`,
      slot(left, bottom, left + length, bottom + size, r),
      recessDepth,
    );
  });
  const size = { x, y: 2 * wood + length + rows * pitch };
  return {
    part: sheetPart(design, {
      id: plateFor(way),
      panel: "coupon",
      title: `Coupon: housings, ${way}`,
      outline: corners
        ? cutOffCorner(size.x, size.y, way === "conventional")
        : rectangle(point<"panel">(0, 0), point<"panel">(size.x, size.y)),
      features,
      grain: "x",
      faceNames: { A: "housings", B: "under" },
    }),
    homes,
  };
}

/** The corner next to A is cut off, so that the plate can be read either way up; `both`: and the one above it. */
function cutOffCorner(x: number, y: number, both = false): Loop<"panel"> {
  const off = WOOD / 2;
  const upper = both ? [point<"panel">(off, y), point<"panel">(0, y - off)] : [point<"panel">(0, y)];
  return polygon([point(off, 0), point(x, 0), point(x, y), ...upper, point(0, off)]);
}

/** A square piece with the tongue on its top edge (along the grain) and on its right one (across it). */
function tonguePart(design: Design): Part {
  const { r, rebateDepth } = numbersOf(design, "inner");
  const { length: l } = design.joint.tongue;
  const body = bodyOf(design);
  const [from, to] = [(body - TONGUE) / 2, (body + TONGUE) / 2];
  const corners: Corner[] = [
    corner(0, 0),
    corner(body, 0),
    corner(body, from, r),
    corner(body + l, from),
    corner(body + l, to),
    corner(body, to, r),
    corner(body, body),
    corner(to, body, r),
    corner(to, body + l),
    corner(from, body + l),
    corner(from, body, r),
    corner(0, body),
  ];
  const outline = rounded(corners);
  return sheetPart(design, {
    id: PIECE,
    panel: "coupon",
    title: "Coupon: tongue",
    outline,
    features: [
      rebate("rebate-across", outline, [body, from - r, body + l + 1, to + r], rebateDepth),
      rebate("rebate-along", outline, [from - r, body, to + r, body + l + 1], rebateDepth),
    ],
    grain: "x",
    faceNames: { A: "rebated", B: "plain" },
    mating: [
      runBetween(outline, point(body, from), point(body, to)),
      runBetween(outline, point(to, body), point(from, body)),
    ],
  });
}

/** The part of the outline within a box, cut down to the tongue. */
function rebate(
  id: string,
  outline: Loop<"panel">,
  [x0, y0, x1, y1]: readonly [number, number, number, number],
  depth: number,
): Recess {
  const within = { outer: rectangle(point<"panel">(x0, y0), point<"panel">(x1, y1)), holes: [] };
  const [region] = intersection([{ outer: outline, holes: [] }], [within]);
  return { kind: "recess", id, face: "A", region: region!, depth, purpose: "rebate" };
}

function slot(x0: number, y0: number, x1: number, y1: number, r: number): Region<"panel"> {
  return { outer: roundedRectangle(point<"panel">(x0, y0), point<"panel">(x1, y1), r), holes: [] };
}

function bodyOf({ cutter }: Design): number {
  return TONGUE + 2 * (cutter / 2 + WOOD);
}

/** Its tongue stays clear of the round ends, and of the round corners at its own root. */
function housingLength(design: Design): number {
  return TONGUE + 2 * (numbersOf(design, "inner").shortOf + HOUSING_ROOM);
}

/** On its right edge's tongue, in the middle of the housing. */
function upright(design: Design, home: Home): Pose {
  const body = bodyOf(design);
  const x = home.x - design.joint.tongue.thickness / 2;
  const y = middleOf(home) - body / 2;
  return { origin: { x, y, z: body }, x: "-z", y: "+y", into: "-x", datum: "B" };
}

function jointAt(design: Design, plate: string, home: Home): Joint {
  const { tongue, clearance } = design.joint;
  const x = home.x - tongue.thickness / 2;
  const y = middleOf(home);
  return {
    id: "coupon",
    tongue: {
      part: PIECE,
      box: {
        min: { x, y: y - TONGUE / 2, z: -tongue.length },
        max: { x: x + tongue.thickness, y: y + TONGUE / 2, z: 0 },
      },
    },
    housing: { part: plate, feature: home.feature },
    into: "-z",
    across: "x",
    along: "y",
    fit: { side: clearance.side, end: clearance.end, alongLeast: numbersOf(design, "inner").slotEnd },
    shoulder: true,
  };
}

function middleOf({ y: [from, to] }: Home): number {
  return (from + to) / 2;
}
