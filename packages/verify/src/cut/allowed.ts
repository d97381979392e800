import {
  add,
  type Curve,
  circle,
  difference,
  directionAt,
  intersection,
  inverse,
  nearest,
  offset,
  type Point,
  place,
  polygon,
  type Region,
  scale,
  segments,
} from "@dryfit/geometry";
import type { Face, Part } from "@dryfit/joinery";
import type { ProgramFile } from "../proof.ts";
import type { Bench, Section } from "./bench.ts";
import type { Storey } from "./designed.ts";
import { nearestOn } from "./gap.ts";

/** Wood left on purpose at the face that lies down: B in setup A, A in setup B. */
interface Under {
  readonly face: Face;
  /** On a sheet of mean thickness. */
  readonly height: number;
  /** Where zero lies on the sheet's upper face, a thicker sheet keeps as much more of it. */
  readonly zZero: ProgramFile["zZero"];
}

function heightOn(thickness: number, mean: number, { height, zZero }: Under): number {
  return zZero === "bed" ? height : height + thickness - mean;
}

/** A tab as declared, in the part's own frame. */
interface DeclaredTab extends Under {
  readonly zone: Region<"panel">;
  readonly at: Point<"panel">;
  readonly length: number;
}

/** What programs declare that they leave of a part on purpose. */
export interface Allowances {
  readonly tabs: readonly DeclaredTab[];
  readonly corners: readonly { readonly at: Point<"panel">; readonly radius: number }[];
  /** What holds whole parts in the sheet, by the setups that cut them free. */
  readonly skins: readonly Under[];
}

export function allowancesFor(bench: Bench, programs: readonly ProgramFile[]): Allowances {
  const { part } = bench;
  const panelFromSheet = inverse(bench.sheetFromPanel);
  const panel = ([x, y]: readonly [number, number]) => place(panelFromSheet, { x, y });
  const down = ({ setup }: ProgramFile): Face => (setup === "A" ? "B" : "A");
  return {
    tabs: programs.flatMap((program) =>
      program.tabs
        .filter((tab) => tab.part === part.id)
        .map(({ at, length, height }) => ({
          face: down(program),
          zone: tabZone(part, panel(at), length, bench.band),
          at: panel(at),
          length,
          height,
          zZero: program.zZero,
        })),
    ),
    corners: programs.flatMap((program) =>
      program.corners
        .filter((corner) => corner.part === part.id)
        .map(({ at, radius }) => ({ at: panel(at), radius })),
    ),
    skins: programs.flatMap((program) =>
      program.skin === null ? [] : [{ face: down(program), height: program.skin, zZero: program.zZero }],
    ),
  };
}

/** Depths from face A at which what is allowed changes, on a sheet of this thickness where `mean` is what was planned for. */
export function stepsOf({ tabs, skins }: Allowances, thickness: number, mean: number = thickness): number[] {
  return [...tabs, ...skins].map((under) => {
    const height = heightOn(thickness, mean, under);
    return under.face === "A" ? height : thickness - height;
  });
}

/** The tabs and the skin at a depth from face A: wood that will be sanded off. The same list for the same ones. */
export function sandedOff(
  bench: Bench,
  { tabs, skins }: Allowances,
  depth: number,
  thickness: number,
): Section {
  const here = (under: Under) => {
    const height = heightOn(thickness, bench.part.thickness.mean, under);
    return under.face === "A" ? depth < height : depth > thickness - height;
  };
  const isSkin = skins.some(here);
  const held = tabs.filter(here);
  const key = isSkin ? "skin" : held.map((tab) => tabs.indexOf(tab)).join(" ");
  const known = bench.sanded.get(key);
  if (known !== undefined) return known;
  const zones = held.map(({ zone }) => zone);
  const sanded = isSkin ? difference(bench.field, bench.body) : difference(zones, bench.body);
  bench.sanded.set(key, sanded);
  return sanded;
}

/**
 * The wood that a round cutter of the declared radius cannot reach at a declared corner, and no more:
 * what closing the kept wood by that radius adds to it.
 */
export function unreachable({ corners }: Allowances, storey: Storey): Region<"panel">[] {
  return [...new Set(corners.map(({ radius }) => radius))].flatMap((radius) => {
    const near = corners
      .filter((corner) => corner.radius === radius)
      .map(({ at }): Region<"panel"> => ({ outer: circle(at, CORNER_REACH * radius), holes: [] }));
    const closed = offset(offset(storey.kept, radius), -radius);
    return difference(intersection(closed, near), storey.kept);
  });
}

/** How far from its vertex a rounded corner's wood may lie, in radii: enough for corners as sharp as 30 degrees. */
const CORNER_REACH = 4;
/** How far beyond its declared ends a tab's last sliver may run, mm: rounding of the ends, drawn out by the curve. */
const TAB_SLACK_MM = 0.1;

/** A rectangle over the tab's stretch of the edge, reaching across the band on both sides. */
function tabZone(part: Part, at: Point<"panel">, length: number, band: number): Region<"panel"> {
  const along = edgeDirection(part, at);
  const across = { x: -along.y, y: along.x };
  const [half, depth] = [length / 2 + TAB_SLACK_MM, 2 * band];
  const corner = (u: number, v: number) => add(at, add(scale(along, u * half), scale(across, v * depth)));
  return { outer: polygon([corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)]), holes: [] };
}

function edgeDirection(part: Part, at: Point<"panel">): Point<"panel"> {
  const openings = part.features.flatMap((feature) => (feature.kind === "opening" ? [feature.loop] : []));
  const edges: readonly Curve<"panel">[] = [part.outline, ...openings];
  const edge = edges.reduce((a, b) => (nearest(a, at).distance <= nearest(b, at).distance ? a : b));
  const far = (p: Point<"panel">) => Math.hypot(p.x - at.x, p.y - at.y);
  const side = segments(edge).reduce((a, b) => (far(nearestOn(a, at)) <= far(nearestOn(b, at)) ? a : b));
  if (side.kind === "line") return directionAt(side, 0);
  const p = nearestOn(side, at);
  return { x: -(p.y - side.centre.y) / side.radius, y: (p.x - side.centre.x) / side.radius };
}
