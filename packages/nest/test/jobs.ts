import type { Loop, Region } from "@dryfit/geometry";
import type { Part } from "@dryfit/joinery";
import type { Stock } from "@dryfit/nest";

/** A part as tests need it: an outline, openings and a grain. */
export function part(
  id: string,
  outline: readonly (readonly number[])[],
  { grain = "free", openings = [], material = "birch" }: PartSettings = {},
): Part {
  return {
    id,
    panel: id,
    title: id,
    material,
    thickness: { min: 15, mean: 15, max: 15 },
    outline: loop(outline),
    features: openings.map((o, i) => ({
      kind: "opening",
      id: `${id}-${i}`,
      loop: loop(o),
      title: "opening",
    })),
    roundOvers: [],
    grain,
    faceNames: { A: "inside", B: "outside" },
    mating: [],
  };
}

export interface PartSettings {
  readonly grain?: Part["grain"];
  readonly openings?: readonly (readonly (readonly number[])[])[];
  readonly material?: string;
}

export function board(id: string, w: number, h: number, grain: Part["grain"] = "free"): Part {
  return part(id, box(w, h), { grain });
}

export function box(w: number, h: number, x = 0, y = 0): number[][] {
  return [
    [x, y],
    [x + w, y],
    [x + w, y + h],
    [x, y + h],
  ];
}

/** Corners as x, y and, where the next edge bends, a bulge. */
export function loop<F extends string>(corners: readonly (readonly number[])[]): Loop<F> {
  return { closed: true, vertices: corners.map(([x, y, bulge]) => ({ x: x!, y: y!, bulge: bulge ?? 0 })) };
}

export function region(corners: readonly (readonly number[])[]): Region<"sheet"> {
  return { outer: loop(corners), holes: [] };
}

export function sheet(w: number, h: number, more: Partial<Stock> = {}): Stock {
  return {
    id: `${w}x${h}`,
    material: "birch",
    size: [w, h],
    outline: null,
    grain: "x",
    count: null,
    price: null,
    keepOuts: [],
    ...more,
  };
}

/** A pedal case's parts, sized as the worked example of the project has them. */
export function pedalCase(prefix = ""): Part[] {
  return [
    board(`${prefix}base`, 553.6, 349.6, "x"),
    board(`${prefix}rail-front`, 553.6, 60.8, "x"),
    board(`${prefix}rail-back`, 553.6, 136.8, "x"),
    cheek(`${prefix}cheek-left`, false),
    cheek(`${prefix}cheek-right`, true),
    ...[1, 2, 3].map((n) => board(`${prefix}slat-${n}`, 539, 52, "x")),
    ...[1, 2, 3, 4].map((n) => board(`${prefix}support-${n}`, 212, 20, "x")),
  ];
}

function cheek(id: string, mirrored: boolean): Part {
  const corners = [
    [0, 8],
    [12, 0],
    [50, 0],
    [70, 8],
    [290, 34],
    [310, 0],
    [354, 0],
    [366, 12],
    [366, 171],
    [0, 69, 0],
  ];
  const turned = corners.map(([x, y]) => [366 - x!, y!]).reverse();
  return part(id, mirrored ? turned : corners, { grain: "x" });
}
