import { boxOfCase, type Eye, type OnPaper, seen, toPaper, type View } from "@dryfit/drawing";
import type { Assembly, Box3, CaseNumbers, Design, Explanation, Point3 } from "@dryfit/joinery";
import type { DerivedFigure, DrivingFigure, Measure } from "./view-spec.ts";

/** What every view is drawn from. */
export interface CaseOnPaper {
  readonly design: Design;
  readonly assembly: Assembly;
  readonly numbers: CaseNumbers;
  readonly explanations: readonly Explanation[];
}

/** Paper kept round a view for its dimensions, mm. */
export interface Room {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** A view laid out: where points of the case come to lie. */
export interface Framed {
  readonly view: View;
  readonly box: Box3;
  readonly size: { readonly width: number; readonly height: number };
  readonly at: (p: Partial<Point3>) => OnPaper;
}

/** Steps of scale that a rule on the bench can follow. */
const SCALES = [
  0.5, 0.75, 1, 1.25, 1.5, 2, 2.5, 3, 3.5, 4, 5, 6, 7.5, 10, 12.5, 15, 20, 25, 30, 40, 50,
] as const;

/** The largest scale at which a stretch of wood fits the paper. */
export function scaleFor(mm: number, paper: number): number {
  return 1 / (SCALES.find((n) => mm / n <= paper) ?? SCALES.at(-1)!);
}

export function framed({ assembly }: CaseOnPaper, eye: Eye, scale: number, room: Room): Framed {
  const box = boxOfCase(assembly);
  const [a, b] = [seen(eye, box.min), seen(eye, box.max)];
  const [low, high] = [
    { x: Math.min(a.x, b.x), y: Math.min(a.y, b.y) },
    { x: Math.max(a.x, b.x), y: Math.max(a.y, b.y) },
  ];
  const view = { scale, origin: { x: room.left - low.x * scale, y: room.top + high.y * scale } };
  return {
    view,
    box,
    size: {
      width: room.left + (high.x - low.x) * scale + room.right,
      height: room.top + (high.y - low.y) * scale + room.bottom,
    },
    at: (p) => toPaper(view, seen(eye, { x: 0, y: 0, z: 0, ...p })),
  };
}

export function driving(
  path: string,
  label: string,
  value: number,
  at: OnPaper,
  measure: Measure = "length",
  sign?: string,
): DrivingFigure {
  return { kind: "driving", path, label, measure, value, at, ...(sign === undefined ? {} : { sign }) };
}

/** None where nothing of this name is derived: a case without a tier has no tier's depth. */
export function derived({ explanations }: CaseOnPaper, id: string, at: OnPaper): readonly DerivedFigure[] {
  const explanation = explanations.find((each) => each.id === id);
  return explanation ? [{ kind: "derived", explanation, at }] : [];
}

export function shifted({ x, y }: OnPaper, dx: number, dy: number): OnPaper {
  return { x: x + dx, y: y + dy };
}
