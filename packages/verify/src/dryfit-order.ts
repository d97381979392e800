import { CONTACT_MM } from "@dryfit/geometry";
import type { Assembly, Direction } from "@dryfit/joinery";
import { opposite } from "./solids-axis.ts";
import type { Mesh } from "./solids-mesh.ts";
import { freeTravel } from "./solids-travel.ts";

/** An order in which the case goes together, each part pushed straight home, and what cannot be. */
export interface AssemblyOrder {
  readonly order: readonly string[];
  /** The way out of each part, with those before it in the order standing; the first stays where it is. */
  readonly ways: Readonly<Record<string, Direction>>;
  /** Parts that hold each other: none of them comes off while the others stand. */
  readonly stuck: readonly string[];
}

/**
 * Takes the case apart, one part at a time, each straight out along an axis, and reads that backwards.
 *
 * Taking any part that comes off misses nothing: fewer parts never hold another faster. What only lies in
 * the case is lifted out first, then what only receives tongues, so that the case is built on its base.
 */
export function assemblyOrder(assembly: Assembly, meshes: ReadonlyMap<string, Mesh>): AssemblyOrder {
  let standing = cheeksBeforeBase(assembly).filter((part) => meshes.has(part));
  const off: string[] = [];
  const ways: Record<string, Direction> = {};
  while (standing.length > 1) {
    const loose = standing.filter((part) => waysOut(assembly, part, standing).length === 0);
    const wayOf = (part: string, tried: readonly Direction[]) => wayOff(meshes, part, standing, tried);
    const next =
      firstOff(loose, (part) => wayOf(part, ["+z"])) ??
      firstOff(standing, (part) => wayOf(part, waysOut(assembly, part, standing))) ??
      firstOff(loose, (part) => wayOf(part, ["-z", "+x", "-x", "+y", "-y"]));
    if (next === null) break;
    off.push(next.part);
    ways[next.part] = next.way;
    standing = standing.filter((part) => part !== next.part);
  }
  if (standing.length === 1) return { order: [...standing, ...off.reverse()], ways, stuck: [] };
  return { order: off.reverse(), ways, stuck: standing };
}

interface Off {
  readonly part: string;
  readonly way: Direction;
}

function firstOff(parts: readonly string[], wayOf: (part: string) => Direction | undefined): Off | null {
  for (const part of parts) {
    const way = wayOf(part);
    if (way !== undefined) return { part, way };
  }
  return null;
}

/** By how many tongues they have, then how many housings; parts named last come first. */
function cheeksBeforeBase({ parts, joints }: Assembly): string[] {
  const tongues = (part: string) => joints.filter((joint) => joint.tongue.part === part).length;
  const housings = (part: string) => joints.filter((joint) => joint.housing.part === part).length;
  return parts
    .map((part) => part.id)
    .reverse()
    .sort((a, b) => tongues(a) - tongues(b) || housings(a) - housings(b));
}

/** The first of the ways on which nothing that stands is met. */
function wayOff(
  meshes: ReadonlyMap<string, Mesh>,
  part: string,
  standing: readonly string[],
  ways: readonly Direction[],
): Direction | undefined {
  const others = standing.filter((other) => other !== part).map((other) => meshes.get(other)!);
  return ways.find((way) =>
    others.every((other) => freeTravel(meshes.get(part)!, other, way, CONTACT_MM).at === null),
  );
}

/** Against its tongues, and with the tongues that stand in it; none for a part that only lies there. */
function waysOut({ joints }: Assembly, part: string, standing: readonly string[]): Direction[] {
  const ways = joints.flatMap(({ tongue, housing, into }) => {
    if (tongue.part === part && standing.includes(housing.part)) return [opposite(into)];
    if (housing.part === part && standing.includes(tongue.part)) return [into];
    return [];
  });
  return [...new Set(ways)];
}
