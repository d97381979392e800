import type { Finding } from "@dryfit/joinery";
import type { Assigned } from "./order.ts";
import { type Bench, deepest } from "./plan-build.ts";

/**
 * What the chosen cutters or the machine cannot bear, or bear badly: each finding once, where it is first met.
 * `benchOf` gives what holds for a task's setup.
 */
export function limitFindings(
  assigned: readonly Assigned[],
  benchOf: (one: Assigned) => Bench,
): readonly Finding[] {
  const found = new Map<string, Finding>();
  for (const one of assigned) {
    const { task, choice } = one;
    const bench = benchOf(one);
    const kind = choice.cutter.kind === "drill" ? "drilling" : "slot";
    const { findings } = bench.data(choice.cutter, task.material, { kind, depth: deepest(task, bench) });
    for (const finding of findings) {
      const key = `${finding.code} ${finding.path}`;
      if (!found.has(key)) found.set(key, finding);
    }
  }
  return [...found.values()];
}
