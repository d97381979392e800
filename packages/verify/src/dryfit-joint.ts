import type { Box3, Direction, Joint } from "@dryfit/joinery";
import { boxAround, crop, type Scope, scoped, type Wood, without } from "./solids.ts";
import { type Axis, axisOf, opposite, signOf, stretch, widen } from "./solids-axis.ts";
import { type Mesh, meshOf } from "./solids-mesh.ts";
import { freeTravel } from "./solids-travel.ts";

/** The air in one joint with its parts where the case has them, mm. Negative: wood in wood. */
export interface JointMeasure {
  /** Beside the tongue, towards − and + across. */
  readonly sides: readonly [number, number];
  /** Off the tongue's ends along its middle line, towards − and +; up to the housing's furthest point. */
  readonly ends: readonly [number, number];
  /** Under the tongue. */
  readonly end: number;
  /** Between shoulder and housing's face; null where the joint has no shoulder. */
  readonly shoulder: number | null;
}

/** No measure goes further than this, mm: beyond it two faces have nothing to do with each other. */
export const REACH_MM = 5;

/**
 * Measures a joint by moving solids: the tongue, cut from its part, until it meets the housing.
 * Null where there is no tongue, or nothing that holds it: the parts are apart.
 */
export function measureJoint(
  { kernel }: Scope,
  joint: Joint,
  tonguePart: Wood,
  housingPart: Wood,
): JointMeasure | null {
  return scoped(kernel, (scope) => {
    const { box } = joint.tongue;
    const room = tongueBox(joint);
    const tongue = crop(scope, tonguePart, room);
    const housing = crop(scope, housingPart, housingBox(joint));
    if (tongue.length === 0 || housing.length === 0) return null;
    const [thin, long, deep] = [joint.across, joint.along, axisOf(joint.into)].map((axis) =>
      extent(box, axis),
    ) as [number, number, number];
    const walls = meshOf(scope, housing);
    const body = crop(scope, tongue, between(room, joint.along, withoutEnds(box, joint.along)));
    // Only the half that leads: a groove within the tongue, or two layers' common face, has a back half's
    // faces look the same way, and they would be measured against whatever lies behind the tongue.
    const leading = (wood: Wood, way: Direction): Mesh =>
      meshOf(scope, crop(scope, wood, halfOf(room, box, way)));
    const sides = bothWays(
      joint.across,
      (way) => freeTravel(leading(body, way), walls, way, thin / 2).distance,
    );
    if (Math.min(...sides) > REACH_MM) return null;
    // Half as thick as the tongue: what is wrong beside it must not be taken for what is under it.
    const core = meshOf(
      scope,
      crop(scope, body, between(room, joint.across, widen(box, joint.across, -thin / 4))),
    );
    const middle = crop(scope, tongue, middleOf(joint));
    return {
      sides: [within(sides[0]), within(sides[1])],
      ends: bothWays(joint.along, (way) => freeTravel(leading(middle, way), walls, way, long / 2).distance),
      end: joint.through
        ? standsBack(tongue, housing, joint.into)
        : within(freeTravel(core, walls, joint.into, (deep * 3) / 4).distance),
      shoulder: joint.shoulder ? shoulderGap(scope, joint, tonguePart, walls) : null,
    };
  });
}

/** How far a tongue that goes through its panel ends short of the panel's other face. */
function standsBack(tongue: Wood, housing: Wood, into: Direction): number {
  const axis = axisOf(into);
  const reach = (wood: Wood): number => {
    const { min, max } = boxAround(wood.map(({ box }) => box));
    return signOf(into) > 0 ? max[axis] : -min[axis];
  };
  return reach(housing) - reach(tongue);
}

/** The part without its tongue, pushed on until its shoulder meets the housing's face. */
function shoulderGap(scope: Scope, joint: Joint, tonguePart: Wood, walls: Mesh): number {
  const { box } = joint.tongue;
  const around = stretch(widen(box, joint.across, SHOULDER_MM), opposite(joint.into), REACH_MM);
  const tongue = widen(
    widen(stretch(box, joint.into, REACH_MM), joint.across, MISFIT_MM),
    joint.along,
    MISFIT_MM,
  );
  const rest = meshOf(scope, without(scope, crop(scope, tonguePart, around), tongue));
  return within(freeTravel(rest, walls, joint.into, extent(box, axisOf(joint.into)) / 2).distance);
}

/** How wide a strip of shoulder beside the tongue is looked at, mm. */
const SHOULDER_MM = 20;

/** How much wider or longer than designed a tongue may be and still be taken for itself, mm. */
const MISFIT_MM = 0.5;

/** Where a housing's end may be round: no side clearance is measured within this of the tongue's ends, mm. */
const ROUND_END_MM = 3;

/** How far past the tongue's ends a housing's end is looked for, mm. */
const HOUSING_END_MM = 30;

/** The tongue as cut; from a quarter of its length on, so that no shoulder is taken for it. */
function tongueBox({ tongue: { box }, into, across, along }: Joint): Box3 {
  const free = stretch(box, opposite(into), -extent(box, axisOf(into)) / 4);
  const room = widen(widen(free, across, extent(box, across) / 2), along, MISFIT_MM);
  return stretch(room, into, REACH_MM);
}

function housingBox({ tongue: { box }, into, across, along }: Joint): Box3 {
  const room = widen(widen(box, across, SHOULDER_MM + REACH_MM), along, HOUSING_END_MM);
  return stretch(stretch(room, into, 2 * REACH_MM), opposite(into), 2 * REACH_MM);
}

function withoutEnds(box: Box3, along: Axis): Box3 {
  return widen(box, along, -Math.min(ROUND_END_MM, extent(box, along) / 4));
}

/** A sliver along the middle of the tongue's end, beyond the round corners at its root. */
function middleOf(joint: Joint): Box3 {
  const { box } = joint.tongue;
  const sliver = widen(box, joint.across, 0.1 - extent(box, joint.across) / 2);
  const room = stretch(tongueBox(joint), opposite(joint.into), -extent(box, axisOf(joint.into)) / 2);
  return between(room, joint.across, sliver);
}

/** The room, as wide along one axis as another box is. */
function between(room: Box3, axis: Axis, { min, max }: Box3): Box3 {
  return { min: { ...room.min, [axis]: min[axis] }, max: { ...room.max, [axis]: max[axis] } };
}

/** The room, from the middle of the box on in one direction. */
function halfOf(room: Box3, box: Box3, way: Direction): Box3 {
  const axis = axisOf(way);
  const middle = (box.min[axis] + box.max[axis]) / 2;
  return signOf(way) > 0
    ? { ...room, min: { ...room.min, [axis]: middle } }
    : { ...room, max: { ...room.max, [axis]: middle } };
}

function bothWays(axis: Axis, travel: (way: `${"+" | "-"}${Axis}`) => number): [number, number] {
  return [travel(`-${axis}`), travel(`+${axis}`)];
}

function within(distance: number): number {
  return Math.min(distance, REACH_MM);
}

function extent(box: Box3, axis: Axis): number {
  return box.max[axis] - box.min[axis];
}
