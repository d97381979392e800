import { boundsOf, rectangle, SAME_POINT_MM } from "@dryfit/geometry";
import type { Assembly, Design, Part } from "@dryfit/joinery";
import {
  type Blank,
  type Budget,
  type SawJob,
  type SawPlan,
  type SawRules,
  type Stock,
  sawPlan,
  type Together,
} from "@dryfit/nest";

/** A case's parts as rectangles, and how a saw takes them from the design's sheets. */
export function planSaw(design: Design, assembly: Assembly, rules: SawRules, budget?: Budget): SawPlan {
  const job: SawJob = {
    blanks: assembly.parts.map(blankOf),
    stocks: sheetsOf(design),
    rules,
    together: floorAndRails(assembly.parts),
    seed: 1,
  };
  return sawPlan(job, budget);
}

export function blankOf({ id, material, outline, grain }: Part): Blank {
  const { min, max } = boundsOf(outline);
  return { id, material, size: [max.x - min.x, max.y - min.y], grain };
}

function sheetsOf({ sheet }: Design): readonly Stock[] {
  return sheet.sizes.map(({ id, size, grain, count, price, avoid }) => ({
    ...{ id, material: sheet.name, size, outline: null, grain, count, price },
    keepOuts: avoid.map(([x, y, w, h]) => ({
      outer: rectangle<"sheet">({ x, y }, { x: x + w, y: y + h }),
      holes: [],
    })),
  }));
}

/**
 * Base and rails of equal width stand on one another: a tenth of difference shows at every corner. One setting of the
 * fence makes them the same, whatever the rule says.
 */
function floorAndRails(parts: readonly Part[]): readonly Together[] {
  const own = parts.filter(({ panel }) => panel === "base" || panel === "rail").map(blankOf);
  const groups: Blank[][] = [];
  for (const blank of own) {
    const group = groups.find(([first]) => Math.abs(first!.size[0] - blank.size[0]) <= SAME_POINT_MM);
    if (group) group.push(blank);
    else groups.push([blank]);
  }
  return groups
    .filter((group) => group.length > 1)
    .map((group) => ({ blanks: group.map(({ id }) => id), axis: "x" }));
}
