import { cutPatterns, type Eye, fromFront, sectionView } from "@dryfit/drawing";
import { type CaseOnPaper, framed } from "./frame.ts";
import { openingPlaces } from "./opening-places.ts";
import type { ViewSpec } from "./view-spec.ts";

const ROOM = { left: 8, right: 8, top: 14, bottom: 8 };

/** How much of the paper's width the view needs beside the wood. */
export const RAIL_ROOM: number = ROOM.left + ROOM.right;

const fromBack: Eye = { right: "-x", up: "+z", towards: "+y" };

/** A rail from the inside of the case, where it has openings to be placed; else none. */
export function railView(
  on: CaseOnPaper,
  rail: "rail-front" | "rail-back",
  scale: number,
): readonly ViewSpec[] {
  const { design, assembly } = on;
  if (!design.openings.some(({ panel }) => panel === rail)) return [];
  const eye = rail === "rail-back" ? fromFront : fromBack;
  // Just off the rail, so that no slat is in the way.
  const cut = rail === "rail-back" ? design.inside.depth - JUST_OFF : JUST_OFF;
  const frame = framed(on, eye, scale, ROOM);
  const openings = openingPlaces(on, frame, [rail]);
  const name = rail === "rail-back" ? "Back rail" : "Front rail";
  return [
    {
      id: rail,
      title: `${name}, from inside the case`,
      size: frame.size,
      scale,
      description: `${name} with its openings, seen from inside.`,
      body: cutPatterns(rail) + sectionView(assembly, eye, frame.view, cut, rail) + openings.lines,
      figures: openings.figures,
      handles: [],
      places: openings.places,
    },
  ];
}

const JUST_OFF = 0.4;
