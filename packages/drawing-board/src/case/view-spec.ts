import type { Markup, OnPaper } from "@dryfit/drawing";
import type { Explanation } from "@dryfit/joinery";

export type Measure = "length" | "angle" | "count";

/** A value of the design on the drawing, there to be changed. */
export interface DrivingFigure {
  readonly kind: "driving";
  /** Where the design holds it: "inside.width". */
  readonly path: string;
  /** For people who hear the drawing: "Inside width". */
  readonly label: string;
  readonly measure: Measure;
  /** mm, degrees or a number of things. */
  readonly value: number;
  readonly at: OnPaper;
  /** Stands before the figure: "R". */
  readonly sign?: string;
}

/** A figure that follows from others; it says how. */
export interface DerivedFigure {
  readonly kind: "derived";
  readonly explanation: Explanation;
  readonly at: OnPaper;
}

export type Figure = DrivingFigure | DerivedFigure;

/** A place on the drawing that can be taken hold of. */
export interface Handle {
  readonly id: string;
  readonly label: string;
  readonly at: OnPaper;
  /** What it changes as it is moved along the paper, mm of wood: to the right, and up. */
  readonly across: { readonly path: string; readonly value: number } | null;
  readonly up: { readonly path: string; readonly value: number; readonly sense: 1 | -1 } | null;
}

/** One view of the case on its own piece of paper. mm of paper. */
export interface ViewSpec {
  readonly id: string;
  readonly title: string;
  readonly size: { readonly width: number; readonly height: number };
  /** Paper millimetres per millimetre of wood. */
  readonly scale: number;
  /** What the view shows, for people who hear it. */
  readonly description: string;
  readonly body: Markup;
  readonly figures: readonly Figure[];
  readonly handles: readonly Handle[];
  /** Where findings are pinned that name no figure: "openings[0]", "rail-front". */
  readonly places: Readonly<Record<string, OnPaper>>;
}
