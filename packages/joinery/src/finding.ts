/** An error stops the making, a warning is shown above every success, a note explains a choice. */
export type Severity = "error" | "warning" | "note";

/**
 * Something a maker must know, as data. `code` is stable and `numbers` hold what the sentence says,
 * in mm unless the name tells another unit.
 *
 * `path` leads to the value in the design or shop file ("joint.stop", "cutters[2].diameter"),
 * or names the thing ("sheet-1-a-1.nc:120", "rail-front"). `wayOut` says what to change, in the imperative.
 */
export interface Finding {
  readonly code: string;
  readonly severity: Severity;
  readonly path: string;
  readonly message: string;
  readonly numbers: Readonly<Record<string, number>>;
  readonly wayOut?: string;
}
