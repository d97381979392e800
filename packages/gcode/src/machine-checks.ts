import type { Finding } from "@dryfit/joinery";
import type { Machine } from "./machine.ts";
import type { Program } from "./program.ts";
import { mm } from "./sum.ts";

/**
 * Whether this machine reaches all that the program asks; its zero may lie anywhere, so only spans count.
 * `over` is the height of the highest rapids over the face.
 */
export function checkTravel(
  program: Pick<Program, "file" | "extents">,
  machine: Machine,
  over: number,
): readonly Finding[] {
  const { x, y, z } = program.extents;
  const spans = { x: x[1] - x[0], y: y[1] - y[0], z: Math.max(z[1], z[0] + over) - z[0] };
  return (["x", "y", "z"] as const).flatMap((axis): Finding[] => {
    const [span, travel] = [spans[axis], machine.travel[axis]];
    if (span <= travel) return [];
    const name = axis.toUpperCase();
    return [
      {
        code: "beyond_travel",
        severity: "error",
        path: program.file,
        message: `${program.file} moves ${mm(span)} along ${name}, and the machine ${mm(travel)}.`,
        numbers: { span, travel },
        wayOut: axis === "z" ? "Lower safeHeight, or cut thinner sheets." : "Take smaller sheets.",
      },
    ];
  });
}
