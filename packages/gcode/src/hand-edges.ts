import type { Finding, Part } from "@dryfit/joinery";
import type { Cutter } from "./cutter.ts";
import { edgeToolFor } from "./edge-tool.ts";

/** Told once: edges that are left to the hand though a cutter in the drawer makes them. Nothing to tell: no finding. */
export function handEdges(parts: readonly Part[], cutters: readonly Cutter[]): readonly Finding[] {
  const found = parts.flatMap((part) =>
    part.roundOvers.flatMap((over) => {
      const tool = over.by === "hand" ? edgeToolFor(cutters, over) : null;
      return tool === null ? [] : [{ part: part.id, cutter: tool.cutter.id }];
    }),
  );
  if (found.length === 0) return [];
  const named = (names: readonly string[]): string => [...new Set(names)].join(", ");
  const panels = named(found.map(({ part }) => part));
  const tools = named(found.map(({ cutter }) => cutter));
  return [
    {
      code: "edges_by_hand",
      severity: "note",
      path: "edges",
      message: `Edges of ${panels} are left to the hand, after the dry fit: ${tools} from the drawer could make them on the sheet.`,
      numbers: { edges: found.length },
      wayOut: "To have an edge made by the machine, add by: cutter to it.",
    },
  ];
}
