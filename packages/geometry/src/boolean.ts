import { combine, runsOf } from "./combine.ts";
import type { Region } from "./curve.ts";

/** Everything that is in any of the regions. Lines and arcs stay what they were; see `recovered`. */
export function union<F extends string>(regions: readonly Region<F>[]): Region<F>[] {
  return combine("union", runsOf(regions), [], "nonzero");
}

/** What is in `a` and not in `b`. */
export function difference<F extends string>(
  a: readonly Region<F>[],
  b: readonly Region<NoInfer<F>>[],
): Region<F>[] {
  return combine("difference", runsOf(a), runsOf(b), "nonzero");
}

/** What is in both. */
export function intersection<F extends string>(
  a: readonly Region<F>[],
  b: readonly Region<NoInfer<F>>[],
): Region<F>[] {
  return combine("intersection", runsOf(a), runsOf(b), "nonzero");
}
