import { distance, type Loop, type Path, pointAt } from "@dryfit/geometry";
import type { Part, RoundOver } from "@dryfit/joinery";
import { expect, test } from "vitest";
import { defaultCutters } from "../src/default-shop.ts";
import { edgeToolFor } from "../src/edge-tool.ts";
import { edgeWay } from "../src/edge-way.ts";

const at = (x: number, y: number, bulge = 0) => ({ x, y, bulge });

/** A cheek's crest, from the back: straight on, up by 20° in a hollow of this radius, then straight to a corner. */
function crest(hollow: number): { outline: Loop<"panel">; run: Path<"panel"> } {
  const turn = (20 * Math.PI) / 180;
  const [start, bulge] = [at(150, 60, -Math.tan(turn / 4)), 0];
  const foot = at(150 - hollow * Math.sin(turn), 60 + hollow * (1 - Math.cos(turn)), bulge);
  const top = at(foot.x - 80 * Math.cos(turn), foot.y + 80 * Math.sin(turn));
  return {
    outline: { closed: true, vertices: [at(0, 0), at(200, 0), at(200, 60), start, foot, top, at(0, top.y)] },
    run: { closed: false, vertices: [start, foot, top] },
  };
}

test.each([8, 30, 100])(
  "what a cutter leaves of an edge is told along the edge, in a hollow of %d mm too",
  (hollow) => {
    const { outline, run } = crest(hollow);
    const tool = edgeToolFor(defaultCutters(), { form: "round", radius: 3 })!;
    const over = { id: "round-crest", run, radius: 3, form: "round", faces: ["A"] } as unknown as RoundOver;
    const way = edgeWay({ outline, roundOvers: [over] } as unknown as Part, over, tool);
    if (typeof way === "string") throw new Error(way);
    expect(way.left[0]).toBeGreaterThan(0);
    // There, and not where the shorter way of the cutter's axis would have it, the cutter stands beside the edge.
    expect(distance(way.track[0]!.from, pointAt(run, way.left[0]))).toBeCloseTo(tool.axis, 2);
  },
);
