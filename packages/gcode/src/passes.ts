import { SAME_POINT_MM } from "@dryfit/geometry";
import { mm } from "./sum.ts";
import type { Move } from "./toolpath.ts";

/**
 * The moves with a comment where each pass begins: where the cutter, after cutting on a level or being moved,
 * first goes deeper than ever before. Moves of a single pass, or with comments of their own, stay as they are.
 */
export function withPasses(moves: readonly Move[]): readonly Move[] {
  if (moves.some(({ kind }) => kind === "comment")) return moves;
  const passes = passesOf(moves);
  if (passes.length < 2) return moves;
  const texts = new Map(
    passes.map(({ begin, floor }, k) => [
      begin,
      `pass ${k + 1} of ${passes.length}, to ${mm(0 - floor)} deep`,
    ]),
  );
  return moves.flatMap((move, k): readonly Move[] => {
    const text = texts.get(k);
    return text === undefined ? [move] : [{ kind: "comment", text }, move];
  });
}

/** Where each pass begins, and the height to which it goes. */
function passesOf(moves: readonly Move[]): readonly { readonly begin: number; readonly floor: number }[] {
  const passes: { begin: number; floor: number }[] = [];
  let [z, deepest] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  let descent: number | null = null;
  moves.forEach((move, k) => {
    if (move.kind !== "rapid" && move.kind !== "line" && move.kind !== "arc") return;
    const sinks = move.kind !== "rapid" && move.to.z < z - SAME_POINT_MM;
    descent = sinks ? (descent ?? k) : null;
    z = move.to.z;
    if (descent === null || z >= deepest - SAME_POINT_MM) return;
    deepest = z;
    const last = passes.at(-1);
    if (last?.begin === descent) last.floor = z;
    else passes.push({ begin: descent, floor: z });
  });
  // Heights over the sheet are no passes: coming down to it is part of the first.
  const firstInWood = passes.findIndex(({ floor }) => floor < 0);
  return firstInWood < 0 ? [] : passes.slice(firstInWood);
}
