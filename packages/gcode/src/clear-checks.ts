import type { Finding } from "@dryfit/joinery";
import type { PlanOptions } from "./plan-options.ts";
import type { Operation } from "./toolpath.ts";

/** What is cleared with more of the rim in wood than was asked: a slot hardly wider than the cutter leaves no choice. */
export function checkEngagement(
  operations: readonly Pick<Operation, "id" | "cleared">[],
  { clearing: { engagement } }: Pick<PlanOptions, "clearing">,
): readonly Finding[] {
  if (engagement === null) return [];
  return operations.flatMap(({ id, cleared }): Finding[] => {
    if (cleared === undefined || cleared.engagement <= engagement + SAME_ENGAGEMENT) return [];
    const [asked, found] = [engagement, cleared.engagement].map((angle) =>
      Math.round((angle * 180) / Math.PI),
    ) as [number, number];
    return [
      {
        code: "engagement_exceeded",
        severity: "warning",
        path: id,
        message: `${id}: up to ${found}° of the cutter's rim cuts at once, ${asked}° was asked for.`,
        numbers: { asked, engagement: found },
        wayOut: "Clear it with a narrower cutter, or allow a larger angle in the machine file.",
      },
    ];
  });
}

/** Radians. */
const SAME_ENGAGEMENT = 1e-3;
