import type { Point } from "@dryfit/geometry";
import { arctangent, cosine, sine } from "@dryfit/geometry";
import type { Piece } from "./piece.ts";

/** The strokes of a path's data, and why it stops being one where it does. Source: SVG 1.1, 8.3 and F.6. */
export function pathPieces(data: string): {
  readonly pieces: readonly Piece[];
  readonly broken: string | null;
} {
  const pieces: Piece[] = [];
  let at: Point = { x: 0, y: 0 };
  let start = at;
  /** The last control point of a cubic or quadratic curve before this command. */
  let control: Control | null = null;
  const line = (to: Point): void => {
    pieces.push({ kind: "line", from: at, to });
    at = to;
  };
  const cubic = (a: Point, b: Point, to: Point): void => {
    pieces.push(bezier([at, a, b, to]));
    at = to;
  };
  const quadratic = (a: Point, to: Point): void => {
    pieces.push(bezier([at, a, to]));
    at = to;
  };
  const read = reader(data);
  let started = false;
  for (let command = read.command(); command !== null; command = read.command()) {
    const kind = command.toUpperCase();
    const isRelative = command !== kind;
    const from = (): Point => (isRelative ? at : { x: 0, y: 0 });
    if (!started && kind !== "M") return { pieces, broken: `it begins with ${command}, not with M` };
    started = true;
    if (kind === "Z") {
      if (Math.hypot(at.x - start.x, at.y - start.y) > 0) line(start);
      at = start;
      control = null;
      continue;
    }
    const count = COUNTS[kind];
    if (count === undefined) return { pieces, broken: `"${command}" is no command` };
    let first = true;
    do {
      const n = read.numbers(count, kind === "A");
      if (n === null) return { pieces, broken: `${command} has too few numbers, or one that is none` };
      const o = from();
      const p = (i: number): Point => ({ x: o.x + n[i]!, y: o.y + n[i + 1]! });
      let next: Control | null = null;
      switch (kind) {
        case "M":
          if (first) {
            at = p(0);
            start = at;
          } else line(p(0));
          break;
        case "L":
          line(p(0));
          break;
        case "H":
          line({ x: o.x + n[0]!, y: at.y });
          break;
        case "V":
          line({ x: at.x, y: o.y + n[0]! });
          break;
        case "C":
          next = { kind: "C", at: p(2) };
          cubic(p(0), p(2), p(4));
          break;
        case "S": {
          const a = control?.kind === "C" ? mirrored(control.at, at) : at;
          next = { kind: "C", at: p(0) };
          cubic(a, p(0), p(2));
          break;
        }
        case "Q":
          next = { kind: "Q", at: p(0) };
          quadratic(p(0), p(2));
          break;
        case "T": {
          const a: Point = control?.kind === "Q" ? mirrored(control.at, at) : at;
          next = { kind: "Q", at: a };
          quadratic(a, p(0));
          break;
        }
        case "A": {
          const to = p(5);
          const arc = arcPiece(at, to, {
            rx: n[0]!,
            ry: n[1]!,
            turnDeg: n[2]!,
            large: n[3] !== 0,
            positive: n[4] !== 0,
          });
          if (arc) pieces.push(arc);
          at = to;
          break;
        }
      }
      control = next;
      first = false;
    } while (read.hasNumber());
  }
  return { pieces, broken: read.rest() };
}

interface Control {
  readonly kind: "C" | "Q";
  readonly at: Point;
}

const COUNTS: Readonly<Record<string, number>> = { M: 2, L: 2, H: 1, V: 1, C: 6, S: 4, Q: 4, T: 2, A: 7 };

function mirrored(p: Point, about: Point): Point {
  return { x: 2 * about.x - p.x, y: 2 * about.y - p.y };
}

/** A Bézier curve by de Casteljau. */
function bezier(points: readonly Point[]): Piece {
  const at = (t: number): Point => {
    let level = points;
    while (level.length > 1)
      level = level.slice(1).map((q, i) => {
        const p = level[i]!;
        return { x: p.x + (q.x - p.x) * t, y: p.y + (q.y - p.y) * t };
      });
    return level[0]!;
  };
  return { kind: "curve", at, knots: [0, 1] };
}

/** From two ends, radii and flags to centre and sweep; radii too small grow until they reach. SVG 1.1, F.6.5 and F.6.6. */
function arcPiece(
  from: Point,
  to: Point,
  arc: {
    readonly rx: number;
    readonly ry: number;
    readonly turnDeg: number;
    readonly large: boolean;
    readonly positive: boolean;
  },
): Piece | null {
  if (from.x === to.x && from.y === to.y) return null;
  let [rx, ry] = [Math.abs(arc.rx), Math.abs(arc.ry)];
  if (rx === 0 || ry === 0) return { kind: "line", from, to };
  const phi = (arc.turnDeg * Math.PI) / 180;
  const [cos, sin] = [cosine(phi), sine(phi)];
  const [hx, hy] = [(from.x - to.x) / 2, (from.y - to.y) / 2];
  const x1 = cos * hx + sin * hy;
  const y1 = -sin * hx + cos * hy;
  const stretch = (x1 / rx) ** 2 + (y1 / ry) ** 2;
  if (stretch > 1) {
    rx *= Math.sqrt(stretch);
    ry *= Math.sqrt(stretch);
  }
  const square =
    Math.max(0, (rx * ry) ** 2 - (rx * y1) ** 2 - (ry * x1) ** 2) / ((rx * y1) ** 2 + (ry * x1) ** 2);
  const root = Math.sqrt(square) * (arc.large === arc.positive ? -1 : 1);
  const [cx, cy] = [(root * rx * y1) / ry, (-root * ry * x1) / rx];
  const centre = {
    x: cos * cx - sin * cy + (from.x + to.x) / 2,
    y: sin * cx + cos * cy + (from.y + to.y) / 2,
  };
  const start = arctangent((y1 - cy) / ry, (x1 - cx) / rx);
  const end = arctangent((-y1 - cy) / ry, (-x1 - cx) / rx);
  const turn = 2 * Math.PI;
  const ahead = (((end - start) % turn) + turn) % turn;
  return {
    kind: "ellipse",
    centre,
    u: { x: rx * cos, y: rx * sin },
    v: { x: -ry * sin, y: ry * cos },
    from: start,
    sweep: arc.positive ? ahead : ahead - turn,
  };
}

/** Commands and numbers of path data, one after the other; flags of an arc may stand without a gap. */
function reader(data: string) {
  let at = 0;
  const skip = (): void => {
    while (at < data.length && /[\s,]/.test(data[at]!)) at++;
  };
  const match = (pattern: RegExp): string | null => {
    skip();
    pattern.lastIndex = at;
    const found = pattern.exec(data);
    if (!found) return null;
    at += found[0].length;
    return found[0];
  };
  return {
    command: (): string | null => match(/[A-Za-z]/y),
    hasNumber: (): boolean => {
      skip();
      return /[-+.\d]/.test(data[at] ?? "");
    },
    numbers: (count: number, isArc: boolean): readonly number[] | null => {
      const found: number[] = [];
      for (let i = 0; i < count; i++) {
        const flag = isArc && (i === 3 || i === 4);
        const text = match(flag ? /[01]/y : /[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?/y);
        if (text === null) return null;
        found.push(Number(text));
      }
      return found;
    },
    rest: (): string | null => {
      skip();
      return at < data.length ? `"${data.slice(at, at + 12)}" is no command` : null;
    },
  };
}
