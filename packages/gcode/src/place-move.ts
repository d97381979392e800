import { type Placement, type Point, place } from "@dryfit/geometry";
import type { Move, Position } from "./toolpath.ts";

/** The move where `way` takes it. Nothing may be mirrored on the way: arcs keep their sense. */
export function placeMove(way: Placement, move: Move): Move {
  const at = (from: Position): Position => ({ ...pointAt(way, from), z: from.z });
  if (move.kind === "comment") return move;
  if (move.kind === "drill") return { ...move, at: at(move.at) };
  if (move.kind === "arc") return { ...move, to: at(move.to), centre: pointAt(way, move.centre) };
  return { ...move, to: at(move.to) };
}

function pointAt(way: Placement, { x, y }: Point): { readonly x: number; readonly y: number } {
  const there = place(way, { x, y });
  return { x: there.x, y: there.y };
}
