import type { Point3 } from "@dryfit/joinery";

/** From where one looks: turned round to the right of the front, and raised above the table. Degrees. */
export interface Eye {
  readonly turnDeg: number;
  readonly riseDeg: number;
  /** 1 fills the paper. */
  readonly zoom: number;
}

export const PRESETS: readonly (readonly [title: string, eye: Omit<Eye, "zoom">])[] = [
  ["corner", { turnDeg: 32, riseDeg: 28 }],
  ["front", { turnDeg: 0, riseDeg: 0 }],
  ["side", { turnDeg: 90, riseDeg: 0 }],
  ["from above", { turnDeg: 0, riseDeg: 90 }],
  ["from below", { turnDeg: 32, riseDeg: -40 }],
];

/** Round and up or down; never over the top, so that up stays up. */
export function orbited(eye: Eye, turnDeg: number, riseDeg: number): Eye {
  const turn = eye.turnDeg + turnDeg;
  return {
    ...eye,
    turnDeg: turn > 180 ? turn - 360 : turn <= -180 ? turn + 360 : turn,
    riseDeg: Math.min(90, Math.max(-90, eye.riseDeg + riseDeg)),
  };
}

export function zoomed(eye: Eye, by: number): Eye {
  return { ...eye, zoom: Math.min(8, Math.max(0.5, eye.zoom * by)) };
}

/** What a key does to the eye; null where it does nothing. */
export function eyeAfterKey(eye: Eye, key: string, shift: boolean): Eye | null {
  const by = shift ? 1 : 10;
  switch (key) {
    case "ArrowLeft":
      return orbited(eye, by, 0);
    case "ArrowRight":
      return orbited(eye, -by, 0);
    case "ArrowUp":
      return orbited(eye, 0, -by);
    case "ArrowDown":
      return orbited(eye, 0, by);
    case "+":
    case "=":
      return zoomed(eye, 1.25);
    case "-":
      return zoomed(eye, 0.8);
    case "Home":
      return { ...PRESETS[0]![1], zoom: 1 };
    default:
      return null;
  }
}

export function eyeWords({ turnDeg, riseDeg }: Eye): string {
  const [turn, rise] = [Math.round(turnDeg), Math.round(riseDeg)];
  const preset = PRESETS.find(([, eye]) => eye.turnDeg === turn && eye.riseDeg === rise);
  if (preset) return `Seen ${preset[0].startsWith("from") ? preset[0] : `from the ${preset[0]}`}`;
  const side = turn === 0 ? "front" : `front, ${Math.abs(turn)}° to the ${turn > 0 ? "right" : "left"}`;
  return `Seen from the ${side}, ${Math.abs(rise)}° ${rise >= 0 ? "above" : "below"}`;
}

/** The eye's own axes in the case frame: right and up on the paper, and towards the eye. */
export interface EyeAxes {
  readonly right: Point3;
  readonly up: Point3;
  readonly towards: Point3;
}

export function axesOf({ turnDeg, riseDeg }: Eye): EyeAxes {
  const [turn, rise] = [(turnDeg * Math.PI) / 180, (riseDeg * Math.PI) / 180];
  const [sin, cos, high, level] = [Math.sin(turn), Math.cos(turn), Math.sin(rise), Math.cos(rise)];
  return {
    right: { x: cos, y: sin, z: 0 },
    up: { x: -sin * high, y: cos * high, z: level },
    towards: { x: sin * level, y: -cos * level, z: high },
  };
}
