import type { Motion, ProgramPicture, SheetPicture, Spot } from "@dryfit/drawing";
import { circle, type Loop, rectangle, roundedRectangle } from "@dryfit/geometry";

const at = (x: number, y: number, z: number): Spot => ({ x, y, z });

export function feed(from: Spot, to: Spot, line = 1): Motion {
  return { line, kind: "feed", from, to, arc: null };
}

export function rapid(from: Spot, to: Spot, line = 1): Motion {
  return { line, kind: "rapid", from, to, arc: null };
}

/** Once round a rectangle at each of these heights, then up and away. */
export function roundTrip(min: Spot, max: Spot, heights: readonly number[]): readonly Motion[] {
  const corners = (z: number) => [
    at(min.x, min.y, z),
    at(max.x, min.y, z),
    at(max.x, max.y, z),
    at(min.x, max.y, z),
  ];
  const moves: Motion[] = [rapid(at(0, 0, 20), at(min.x, min.y, 20))];
  let here = at(min.x, min.y, 20);
  for (const z of heights) {
    for (const to of [...corners(z), corners(z)[0]!]) {
      moves.push(feed(here, to));
      here = to;
    }
  }
  return [...moves, rapid(here, at(here.x, here.y, 20))];
}

export function program(file: string, setup: "A" | "B", motions: readonly Motion[]): ProgramPicture {
  return {
    file,
    setup,
    cutter: "6 mm up-cut",
    minutes: 3.4,
    deepest: -0.5,
    zZero: "bed",
    motions,
    tabs: setup === "A" ? [{ part: "lid", at: [100, 20], length: 6 }] : [],
  };
}

const loops: SheetPicture["drawing"]["loops"] = [
  { meaning: { kind: "outside" }, loop: rectangle({ x: 20, y: 20 }, { x: 320, y: 220 }) },
  { meaning: { kind: "outside" }, loop: rectangle({ x: 340, y: 20 }, { x: 580, y: 90 }) },
  { meaning: { kind: "inside" }, loop: circle({ x: 250, y: 150 }, 20) },
  {
    meaning: { kind: "recess", depth: 7.2, face: "A" },
    loop: roundedRectangle({ x: 50, y: 40 }, { x: 57, y: 200 }, 3),
  },
  { meaning: { kind: "recess", depth: 4, face: "B" }, loop: rectangle({ x: 400, y: 30 }, { x: 480, y: 60 }) },
  { meaning: { kind: "bore", diameter: 3.2, depth: null }, loop: circle({ x: 300, y: 200 }, 1.6) },
  { meaning: { kind: "bore", diameter: 3.2, depth: null }, loop: circle({ x: 300, y: 40 }, 1.6) },
  { meaning: { kind: "sheet-edge" }, loop: rectangle({ x: 0, y: 0 }, { x: 600, y: 300 }) as Loop },
];

const text = (words: string, x: number, y: number) => ({
  at: { x, y },
  height: 8,
  rotationDeg: 0,
  text: words,
});

/** A sheet of two parts, cut from one face. */
export const oneFace: SheetPicture = {
  name: 'try <& "fit"',
  sheet: "sheet-1",
  size: [600, 300],
  grain: "x",
  material: "birch plywood",
  thickness: "14.8 mm",
  revision: "A1",
  verdict: { pass: true, sentence: "Proved: widest error 0.004 mm, nothing touches." },
  flip: null,
  keepOuts: [],
  drawing: {
    loops,
    texts: [text("lid: face A up (inside)", 160, 120), text("slat-1: face A up (top)", 520, 55)],
  },
  programs: [program("sheet-1-a-1.nc", "A", roundTrip(at(17, 17, 0), at(323, 223, 0), [10, 5, 0]))],
};

/** The same sheet, turned over about its upright middle. */
export const twoFaces: SheetPicture = {
  ...oneFace,
  flip: { axis: "y", at: 300 },
  programs: [
    ...oneFace.programs,
    program("sheet-1-b-1.nc", "B", roundTrip(at(123, 33, 0), at(197, 57, 0), [11])),
  ],
};
