/** A frame of a screen that shows 60 a second. */
export const FRAME_MS: number = 1000 / 60;

/** Gives frames even times, so that each has a sixtieth of a second to show however slowly this machine paints. */
export const EVEN_FRAMES: string = `
  const real = requestAnimationFrame;
  let [last, now] = [0, 0];
  window.requestAnimationFrame = (paint) => real((time) => {
    if (time !== last) now += ${FRAME_MS};
    last = time;
    paint(now);
  });
`;

/** What the wood's film shows: w(hole), r(ecess), t(hrough), e(dge) or o(utside), by the shares of ink on paper. */
export const PICTURE: string = `(() => {
  const stage = document.querySelector(".cut-stage");
  const film = stage.querySelector("canvas");
  const { width, height } = film;
  const { data } = film.getContext("2d").getImageData(0, 0, width, height);
  const letters = new Array(width * height);
  for (let i = 0; i < letters.length; i++) {
    const [r, g, b, a] = data.subarray(4 * i, 4 * i + 4);
    const ink = (251 - r) / 223;
    const isGrey = Math.abs(g - (250 - 207 * ink)) < 3 && Math.abs(b - (246 - 189 * ink)) < 3;
    letters[i] = a === 0 ? "o" : !isGrey ? "r" : ink > 0.84 ? "e" : ink > 0.7 ? "t" : ink < 0.125 ? "w" : "r";
  }
  return { width, height, window: stage.dataset.window, classes: letters.join("") };
})()`;

/** Rows of waves, to and fro over a whole sheet in passes of 2 mm: straight, half a circle, straight, half a circle. */
export function waves(blocks: number): string {
  const lines = [
    "(Waves, to see how a long program plays.)",
    "G21 G17 G90 G94 G54",
    "G0 Z20",
    "S16000 M3",
    "G0 X10 Y10",
  ];
  lines.push("Z16", "G1 Z13 F600", "F9000");
  for (let row = 0, x = 10; lines.length < blocks - 3; row++) {
    const [way, y] = [row % 2 === 0 ? 1 : -1, 10 + (row % 80) * 7];
    if (row > 0) lines.push(`G1 Y${y} F9000`);
    if (row === 80) lines.push("G1 Z11 F600");
    for (let i = 0; i < 118 && lines.length < blocks - 3; i++) {
      lines.push(
        `G1 X${x + 6 * way} F9000`,
        `${(row + i) % 2 ? "G2" : "G3"} X${x + 10 * way} I${2 * way} J0`,
      );
      x += 10 * way;
    }
  }
  return [...lines.slice(0, blocks - 3), "G0 Z25", "M5", "M30"].join("\n");
}

/** Two grooves, 5 mm deep in a sheet of 15, at y = 20 and y = 60. */
export const TWO_GROOVES: string = `(Sheet: 200 x 80 mm, 15 mm thick. Cutter 1, 6 mm straight. Z0 on the bed)
G21 G17 G90 G94 G54
G0 Z20
S16000 M3
G0 X20 Y20
G1 Z10 F600
X180 F3000
(the second groove)
G0 Z20
X180 Y60
G1 Z10 F600
X20 F3000
G0 Z20
M5
M30`;

/** R12: a closed square, and a line that closes on nothing. */
export const DXF: string = [
  [0, "SECTION", 2, "HEADER", 9, "$ACADVER", 1, "AC1015", 9, "$INSUNITS", 70, 4, 0, "ENDSEC"],
  [0, "SECTION", 2, "ENTITIES"],
  [
    0,
    "LWPOLYLINE",
    8,
    "THROUGH_OUTSIDE",
    90,
    4,
    70,
    1,
    10,
    0,
    20,
    0,
    10,
    100,
    20,
    0,
    10,
    100,
    20,
    80,
    10,
    0,
    20,
    80,
  ],
  [0, "LINE", 8, "THROUGH_OUTSIDE", 10, 120, 20, 0, 11, 160, 21, 40],
  [0, "ENDSEC", 0, "EOF"],
]
  .flat()
  .join("\n");
