import type { Assembly, Direction } from "@dryfit/joinery";
import { opposite } from "./solids-axis.ts";
import type { Mesh } from "./solids-mesh.ts";
import { freeTravel } from "./solids-travel.ts";

/** An order in which the case goes together, each part pushed straight home, and what cannot be. */
export interface AssemblyOrder {
  readonly order: readonly string[];
  /** Parts that hold each other: none of them comes off while the others stand. */
  readonly stuck: readonly string[];
}

/**
 * Takes the case apart, one part at a time, each straight out along an axis, and reads that backwards.
 *
 * Taking the first part that comes off misses nothing: fewer parts never hold another faster.
 * Loose parts come off first, then those that only receive tongues, so the base is built on.
 */
export function assemblyOrder(assembly: Assembly, meshes: ReadonlyMap<string, Mesh>): AssemblyOrder {
  let standing = looseFirst(assembly).filter((part) => meshes.has(part));
  const off: string[] = [];
  while (standing.length > 1) {
    const next = standing.find((part) => comesOff(assembly, meshes, part, standing));
    if (next === undefined) break;
    off.push(next);
    standing = standing.filter((part) => part !== next);
  }
  if (standing.length === 1) return { order: [...standing, ...off.reverse()], stuck: [] };
  return { order: off.reverse(), stuck: standing };
}

function looseFirst({ parts, joints }: Assembly): string[] {
  const tongues = (part: string) => joints.filter((joint) => joint.tongue.part === part).length;
  const housings = (part: string) => joints.filter((joint) => joint.housing.part === part).length;
  return parts
    .map((part) => part.id)
    .reverse()
    .sort((a, b) => tongues(a) - tongues(b) || housings(a) - housings(b));
}

function comesOff(
  assembly: Assembly,
  meshes: ReadonlyMap<string, Mesh>,
  part: string,
  standing: readonly string[],
): boolean {
  const others = standing.filter((other) => other !== part).map((other) => meshes.get(other)!);
  return waysOut(assembly, part, standing).some((way) =>
    others.every((other) => freeTravel(meshes.get(part)!, other, way, 0).at === null),
  );
}

/** Against its tongues, with the tongues that stand in it; a part without joints any way that lets it go. */
function waysOut({ joints }: Assembly, part: string, standing: readonly string[]): Direction[] {
  const ways = joints.flatMap(({ tongue, housing, into }) => {
    if (tongue.part === part && standing.includes(housing.part)) return [opposite(into)];
    if (housing.part === part && standing.includes(tongue.part)) return [into];
    return [];
  });
  return ways.length > 0 ? [...new Set(ways)] : ["+z", "-z", "+x", "-x", "+y", "-y"];
}
