import {
  areaOf,
  compose,
  type Loop,
  once,
  onceWith,
  type Path,
  type Placement,
  type Point,
  place,
  placeCurve,
  placement,
  placeRegion,
  point,
  type Region,
} from "@dryfit/geometry";
import type { Face, Feature, Part } from "@dryfit/joinery";
import type { PlacedPart } from "@dryfit/nest";

/** Something to be cut, in the frame of the setup that cuts it. */
export interface Task {
  readonly id: string;
  readonly kind: "recess" | "bore" | "opening" | "outline" | "pin";
  /** "" for the sheet's own (pins). */
  readonly part: string;
  readonly feature: string;
  readonly material: string;
  readonly setup: Face;
  readonly shape: Shape;
  /** Where the shape comes from; absent: it is drawn where it is cut. */
  readonly drawn?: Drawn;
  /** How deep under the face that is up, mm; null: through. */
  readonly depth: number | null;
  /** Area of the part, mm²: small parts are cut free first. */
  readonly partArea: number;
  /** The face grain's direction as the part is drawn, where somebody asks for it. */
  readonly grain?: Point;
  /** One of two cutters' shares of a recess; absent: one cutter clears it all. */
  readonly share?: "rough" | "rest";
  /** An outline's second cut, through the skin that the first one left. */
  readonly lastPass: boolean;
}

/** A shape as its part's drawing has it, and the way from there: what holds wherever the part lies is worked out on it. */
export interface Drawn {
  readonly shape: Shape;
  readonly setupFromDrawn: Placement;
}

export function drawnOf({ shape, drawn }: Task): Drawn {
  return drawn ?? { shape, setupFromDrawn: STAYS };
}

/** A task as the face that is up shows it: nothing is mirrored on the way from there, climb stays climb. */
export interface OnFace {
  readonly shape: Shape;
  readonly setupFromFace: Placement;
  readonly faceFromDrawn: Placement;
}

export const onFace: (task: Task) => OnFace = once((task) => {
  const { shape, setupFromDrawn } = drawnOf(task);
  if (!setupFromDrawn.flip) return { shape, setupFromFace: setupFromDrawn, faceFromDrawn: STAYS };
  return {
    shape: placeShape(MIRRORED, shape),
    setupFromFace: compose(setupFromDrawn, MIRRORED),
    faceFromDrawn: MIRRORED,
  };
});

const STAYS: Placement = placement(point(0, 0));
/** There and back. */
const MIRRORED: Placement = placement(point(0, 0), { flip: true });

/** Parts smaller than this a hand holds, mm²; they are cut first and need few tabs. From memory. */
export const SMALL_MM2 = 15_000;
/** Parts larger than this bend while they are cut free, mm². From memory. */
export const LARGE_MM2 = 100_000;

export type Shape =
  | { readonly kind: "pocket"; readonly region: Region; readonly outline: Loop }
  | { readonly kind: "inside"; readonly loop: Loop }
  | {
      readonly kind: "outside";
      readonly loop: Loop;
      readonly mating: readonly Path[];
      readonly recesses: readonly Region[];
    }
  | { readonly kind: "hole"; readonly at: Point; readonly diameter: number };

/**
 * All that must be cut of the placed parts. Recesses and blind bores are cut from their own face, through bores
 * while face A is up; openings in the last setup, so that the sheet stays stiff until then, and outlines in the
 * setup that `freedIn` tells for each part.
 */
export function tasksOf(
  placed: readonly PlacedPart[],
  parts: ReadonlyMap<string, Part>,
  setupFromSheet: Readonly<Record<Face, Placement<"setup", "sheet">>>,
  last: Face,
  freedIn: (part: Part) => Face,
): Task[] {
  return placed.flatMap(({ part: id, placement }) => {
    const part = parts.get(id);
    if (part === undefined)
      throw new RangeError(`the sheet holds a part "${id}" that is not among the parts`);
    const frames: Frames = {
      A: compose(setupFromSheet.A, placement),
      B: compose(setupFromSheet.B, placement),
    };
    const common = {
      part: id,
      material: part.material,
      lastPass: false,
      partArea: areaOf([{ outer: part.outline, holes: [] }]),
    };
    const features = part.features.map((feature): Task => {
      const setup = setupOf(feature, last);
      return {
        ...common,
        id: `${id}/${feature.id}`,
        kind: feature.kind,
        feature: feature.id,
        setup,
        ...grainOf(part),
        ...laid(featureShape(feature, part), frames[setup]),
        depth: feature.kind === "opening" ? null : feature.depth,
      };
    });
    const setup = freedIn(part);
    return [...features, { ...common, ...outlineOf(part, frames[setup], setup) }];
  });
}

function grainOf({ grain }: Part): Pick<Task, "grain"> {
  if (grain === "free") return {};
  return { grain: grain === "x" ? { x: 1, y: 0 } : { x: 0, y: 1 } };
}

/** Whether a part asks for a second setup: some recess or blind bore lies on face B. */
export function needsFlip(part: Part): boolean {
  return part.features.some((f) => f.kind !== "opening" && f.face === "B" && f.depth !== null);
}

function setupOf(feature: Feature, last: Face): Face {
  if (feature.kind === "opening") return last;
  return feature.depth === null ? "A" : feature.face;
}

type Frames = Readonly<Record<Face, Placement<"setup", "panel">>>;

function laid(shape: Shape, setupFromDrawn: Placement<"setup", "panel">): Pick<Task, "shape" | "drawn"> {
  return { shape: placeShape(setupFromDrawn, shape), drawn: { shape, setupFromDrawn } };
}

function placeShape(way: Placement, shape: Shape): Shape {
  if (shape.kind === "inside") return { ...shape, loop: placeCurve(way, shape.loop) };
  if (shape.kind === "hole") return { ...shape, at: place(way, shape.at) };
  if (shape.kind === "pocket")
    return { ...shape, region: placeRegion(way, shape.region), outline: placeCurve(way, shape.outline) };
  return {
    ...shape,
    loop: placeCurve(way, shape.loop),
    mating: shape.mating.map((path) => placeCurve(way, path)),
    recesses: shape.recesses.map((region) => placeRegion(way, region)),
  };
}

/** In the panel's frame; the same object for the same feature. */
const featureShape = onceWith((feature: Feature, part: Part): Shape => {
  if (feature.kind === "opening") return { kind: "inside", loop: feature.loop };
  if (feature.kind === "bore") return { kind: "hole", at: feature.at, diameter: feature.diameter };
  return { kind: "pocket", region: feature.region, outline: part.outline };
});

const outlineShape = once(({ outline, mating, features }: Part): Shape => {
  const recesses = features.flatMap((feature) => (feature.kind === "recess" ? [feature.region] : []));
  return { kind: "outside", loop: outline, mating, recesses };
});

function outlineOf(
  part: Part,
  setupFromPanel: Placement<"setup", "panel">,
  setup: Face,
): Omit<Task, "part" | "material" | "partArea" | "lastPass"> {
  return {
    id: `${part.id}/outline`,
    kind: "outline",
    feature: "outline",
    setup,
    ...laid(outlineShape(part), setupFromPanel),
    depth: null,
  };
}
