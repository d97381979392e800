import { boundsOf } from "@dryfit/geometry";
import type { Assembly } from "./assembly.ts";
import type { Face, Part, Thickness } from "./part.ts";
import { areaOfPart } from "./weight.ts";

/** A line of the cut list: parts that are cut to one size, finished measures in mm, areas in mm². */
export interface CutListLine {
  readonly parts: readonly string[];
  readonly title: string;
  readonly material: string;
  readonly thickness: Thickness;
  /** Of the bounding box: panel x by panel y. */
  readonly size: readonly [number, number];
  readonly grain: Part["grain"];
  /** Of one part's face, openings taken out. */
  readonly area: number;
  /** Faces that are worked: two of them ask for two setups. */
  readonly faces: readonly Face[];
}

/** What to cut, in the order of the case; parts that are the same for the saw share a line. */
export function cutList(assembly: Assembly): readonly CutListLine[] {
  const lines = new Map<string, CutListLine>();
  for (const part of assembly.parts) {
    const line = lineOf(part);
    const key = [
      part.panel,
      ...line.size.map((n) => n.toFixed(3)),
      line.faces.join(),
      line.area.toFixed(1),
    ].join();
    const before = lines.get(key);
    lines.set(key, before ? { ...before, parts: [...before.parts, part.id] } : line);
  }
  return [...lines.values()].map((line) =>
    line.parts.length === 1
      ? line
      : {
          ...line,
          title: `${line.title.replace(/^(Left|Right) (?=[a-z])| \d+(?=$| \()/g, "").replace(/^./, upper)} × ${line.parts.length}`,
        },
  );
}

function upper(letter: string): string {
  return letter.toUpperCase();
}

/** The faces of a part that something is cut into; an outline alone needs face A up. */
export function workedFaces(part: Part): readonly Face[] {
  const back = part.features.some((f) => f.kind !== "opening" && f.face === "B");
  return back ? ["A", "B"] : ["A"];
}

function lineOf(part: Part): CutListLine {
  const { x, y } = boundsOf(part.outline).max;
  return {
    parts: [part.id],
    title: part.title,
    material: part.material,
    thickness: part.thickness,
    size: [x, y],
    grain: part.grain,
    area: areaOfPart(part),
    faces: workedFaces(part),
  };
}
