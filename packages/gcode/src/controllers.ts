import type { Controller } from "./machine.ts";

/** Shipped sets of flags, to start from: `controller: basic` in a machine file. */
export type ControllerName = "basic" | "full";

/**
 * "basic": what small controllers have in common, by their published lists of codes.
 * "full": all of NISTIR 6556 that a router has a use for.
 */
export const CONTROLLERS: Readonly<Record<ControllerName, Controller>> = {
  basic: {
    arcs: true,
    helix: true,
    fullCircle: false,
    cannedDrilling: false,
    cutterChange: "separate-files",
    lengthTable: false,
    comments: "parentheses",
    lineNumbers: false,
    dwellUnit: "s",
    decimals: 3,
    pathMode: "none",
    maxLineLength: 70,
    percentMarks: false,
    spindleControl: true,
    workOffset: "G54",
    programEnd: "M30",
  },
  full: {
    arcs: true,
    helix: true,
    fullCircle: true,
    cannedDrilling: true,
    cutterChange: "in-program",
    lengthTable: true,
    comments: "parentheses",
    lineNumbers: true,
    dwellUnit: "s",
    decimals: 4,
    pathMode: "G64",
    maxLineLength: 256,
    percentMarks: true,
    spindleControl: true,
    workOffset: "G54",
    programEnd: "M30",
  },
};
