import { combine, type Runs, runsOf } from "./combine.ts";
import type { Region } from "./curve.ts";
import { displaced } from "./displaced.ts";

/**
 * The regions grown by `by`, or shrunk where it is negative; sharp corners that spread are rounded.
 * Lines and arcs stay lines and arcs; an arc as tight as the offset becomes a corner. The regions must not
 * overlap.
 */
export function offset<F extends string>(regions: readonly Region<F>[], by: number): Region<F>[] {
  return by === 0 ? [...regions] : combine("union", offsetRuns(regions, by), [], "positive");
}

export function offsetRuns(regions: readonly Region[], by: number): Runs {
  return runsOf(regions).map((run) => displaced(run, by));
}
