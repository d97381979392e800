/** The last decimal place that we print, mm. */
export const OUTPUT_STEP_MM = 0.001;

/** Closer than this is one position, mm: far below what we print, far above float noise at 3 m. */
export const SAME_POINT_MM = 1e-5;

/** Directions closer than this are one, radians: far above float noise, far below a bend that shows. */
export const SAME_ANGLE = 1e-9;

/** How far a printed coordinate may be from the planned one, per axis, mm. */
export const ROUNDING_MM: number = OUTPUT_STEP_MM / 2;

/** How far a chord may stand off its arc when a curve is flattened for a boolean, mm. */
export const FLATTENING_MM = 0.001;

/** How far a fitted arc may stand off the curve it replaces, mm. */
export const ARC_FITTING_MM = 0.003;

/** How far an offset curve may be from the true parallel, mm. */
export const OFFSET_MM = 0.002;

/**
 * How much farther a printed arc's end may be from its centre than its start, mm: beyond this a strict controller
 * refuses the program (NISTIR 6556, 3.5.3).
 */
export const ARC_MISMATCH_MM = 0.002;

/** How far a printed arc may stand off the planned one at its middle, mm: its ends and its centre are both rounded. */
export const PRINTED_ARC_MM = 0.002;

/** Designed region to cut region: the widest deviation that a proof lets pass anywhere, mm. */
export const CUT_MM = 0.01;

/** A layer thinner than this no tooth cuts, mm: it rubs. Common practice: chips of 0.03 to 0.05 mm at least. */
export const CHIP_MM = 0.05;

/** How far two cut faces that should meet may stand apart, or overlap, mm: each may be off by CUT_MM. */
export const CONTACT_MM: number = 2 * CUT_MM;

/**
 * How far the two faces of a part may be cut apart when its sheet is turned over, mm: the air that a tongue commonly
 * has on each side, and less than a fingertip feels at a flush edge.
 */
export const SETUPS_MM = 0.1;

/**
 * How much wood a rounding or chamfer may keep of what should go, mm: it joins nothing, no finger feels it, and one
 * stroke of sandpaper takes it. What should stay is held to CUT_MM as everywhere.
 */
export const EDGE_MM = 0.05;

/**
 * How far a foot may hang over the table, mm: corners of feet are each off by CUT_MM at most, and a foot
 * that is short along the floor is a lever of up to ten for the one across.
 */
export const FEET_MM: number = 10 * CUT_MM;

/**
 * The widest glue line per side that holds, mm: 0.005 inch; at twice that a joint lost a fifth of its strength
 * (university wood-laboratory tests, reported in a woodworking magazine).
 */
export const GLUE_LINE_MM = 0.127;

/** Less wood in wood than this is float noise on faces of up to 1 m², mm³. */
export const NO_WOOD_MM3 = 0.001;
