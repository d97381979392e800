export { arccosine, arcsine, arctangent } from "./arctangent.ts";
export type { SmoothCurve } from "./biarc.ts";
export { biarc, fitBiarcs } from "./biarc.ts";
export { difference, intersection, union } from "./boolean.ts";
export { arcFromBulge, bulgeFromSweep, sweepFromBulge } from "./bulge.ts";
export type { Chains } from "./chain.ts";
export { chainLoose } from "./chain.ts";
export type { Nearest, Side } from "./contains.ts";
export { contains, distanceTo, nearest } from "./contains.ts";
export { meetings } from "./crossing.ts";
export type { Arc, Curve, Line, Loop, Path, Region, Segment, Vertex } from "./curve.ts";
export { battenRests, elasticaThrough } from "./elastica.ts";
export { arcThrough, fitArcs } from "./fit.ts";
export {
  differenceFlat,
  intersectionFlat,
  offsetFlat,
  sweepFlat,
  unionFlat,
} from "./flat.ts";
export { flatten, flattenRegion } from "./flatten.ts";
export { logarithm } from "./logarithm.ts";
export { areaOf, boundsOf, lengthOf, pointAt, signedArea, tangentAt } from "./measure.ts";
export { meetsBox } from "./meets-box.ts";
export { regionsOf } from "./nesting.ts";
export { offset } from "./offset.ts";
export { once, onceWith } from "./once.ts";
export type { Placement } from "./placement.ts";
export { compose, inverse, place, placeCurve, placement, placeRegion } from "./placement.ts";
export type { Box, Point } from "./point.ts";
export { add, between, cross, distance, dot, point, scale, subtract } from "./point.ts";
export { runOut } from "./runout.ts";
export {
  along,
  directionAt,
  loopOf,
  pathOf,
  reversed,
  segment,
  segmentLength,
  segments,
} from "./segment.ts";
export { circle, polygon, polyline, rectangle, roundedRectangle } from "./shapes.ts";
export type { Defect } from "./simple.ts";
export { defects, isSimple } from "./simple.ts";
export { cosine, sine, tangentOf } from "./sine.ts";
export { sweep } from "./sweep.ts";
export {
  ARC_FITTING_MM,
  ARC_MISMATCH_MM,
  CHIP_MM,
  CONTACT_MM,
  CUT_MM,
  EDGE_MM,
  FEET_MM,
  FLATTENING_MM,
  GLUE_LINE_MM,
  NO_WOOD_MM3,
  OFFSET_MM,
  OUTPUT_STEP_MM,
  PRINTED_ARC_MM,
  ROUNDING_MM,
  SAME_ANGLE,
  SAME_POINT_MM,
  SETUPS_MM,
} from "./tolerance.ts";
