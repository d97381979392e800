import type { Assembly, Direction } from "@dryfit/joinery";
import type { AssemblyOrder } from "./dryfit-order.ts";
import type { Wood } from "./solids.ts";

/** The case as it lies on the bench before it goes together: what is glued up of layers is one part, named for the first. */
export function gluedUp(
  assembly: Assembly,
  woods: ReadonlyMap<string, Wood>,
): { readonly assembly: Assembly; readonly woods: ReadonlyMap<string, Wood> } {
  const glued = assembly.glued ?? [];
  if (glued.length === 0) return { assembly, woods };
  const whole = (part: string): string => glued.find((layers) => layers.includes(part))?.[0] ?? part;
  const found = new Map<string, Wood>();
  for (const [part, wood] of woods) found.set(whole(part), [...(found.get(whole(part)) ?? []), ...wood]);
  return {
    woods: found,
    assembly: {
      ...assembly,
      parts: assembly.parts.filter(({ id }) => whole(id) === id),
      joints: assembly.joints.map((joint) => ({
        ...joint,
        tongue: { ...joint.tongue, part: whole(joint.tongue.part) },
        housing: { ...joint.housing, part: whole(joint.housing.part) },
      })),
    },
  };
}

/** The order with each layer named, one after the other, and the way of all of them. */
export function takenApart({ order, ways, stuck }: AssemblyOrder, { glued = [] }: Assembly): AssemblyOrder {
  const layersOf = (part: string): readonly string[] => glued.find(([first]) => first === part) ?? [part];
  const all: Record<string, Direction> = {};
  for (const [part, way] of Object.entries(ways)) for (const layer of layersOf(part)) all[layer] = way;
  return { order: order.flatMap(layersOf), ways: all, stuck: stuck.flatMap(layersOf) };
}
