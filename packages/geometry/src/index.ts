export type { Arc, Curve, Line, Loop, Path, Region, Segment, Vertex } from "./curve.ts";
export type { Placement } from "./placement.ts";
export { compose, inverse, place, placeCurve, placement, placeRegion } from "./placement.ts";
export type { Box, Point } from "./point.ts";
export { add, between, cross, distance, dot, point, scale, subtract } from "./point.ts";
export {
  ARC_FITTING_MM,
  ARC_MISMATCH_MM,
  CONTACT_MM,
  CUT_MM,
  FEET_MM,
  FLATTENING_MM,
  GLUE_LINE_MM,
  NO_WOOD_MM3,
  OFFSET_MM,
  OUTPUT_STEP_MM,
  PRINTED_ARC_MM,
  ROUNDING_MM,
  SAME_POINT_MM,
} from "./tolerance.ts";
