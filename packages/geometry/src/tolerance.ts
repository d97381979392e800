/** The last decimal place that we print, mm. */
export const OUTPUT_STEP_MM = 0.001;

/** Closer than this is one position, mm: far below what we print, far above float noise at 3 m. */
export const SAME_POINT_MM = 1e-5;

/** How far a printed coordinate may be from the planned one, per axis, mm. */
export const ROUNDING_MM: number = OUTPUT_STEP_MM / 2;

/** How far a chord may stand off its arc when a curve is flattened for a boolean, mm. */
export const FLATTENING_MM = 0.001;

/** How far a fitted arc may stand off the curve it replaces, mm. */
export const ARC_FITTING_MM = 0.003;

/** How far an offset curve may be from the true parallel, mm. */
export const OFFSET_MM = 0.002;

/** Designed region to cut region: the widest deviation that a proof lets pass anywhere, mm. */
export const CUT_MM = 0.01;
