import type { Box3, Direction, Point3 } from "@dryfit/joinery";

/** One part on its way home, or several that are glued to one: where they come from, and how far away they wait. */
export interface Step {
  /** The first of them. */
  readonly part: string;
  readonly parts: readonly string[];
  /** The way out; null for the part that all others come to. */
  readonly out: Direction | null;
  /** mm from home when all is apart. */
  readonly far: number;
}

/** The order of assembly with room for every part to wait in, clear of those that go home before it. */
export function stepsOf(
  order: readonly string[],
  ways: Readonly<Record<string, Direction>>,
  boxes: Readonly<Record<string, Box3>>,
  glued: readonly (readonly string[])[] = [],
): readonly Step[] {
  const steps: Step[] = [];
  for (const part of order) {
    if (steps.some(({ parts }) => parts.includes(part))) continue;
    const parts = glued.find((layers) => layers.includes(part)) ?? [part];
    const own = parts.flatMap((each) => boxes[each] ?? []);
    const out = own.length > 0 ? (ways[part] ?? null) : null;
    const others = steps.flatMap((step) =>
      step.parts.flatMap((other) => (boxes[other] ? [moved(boxes[other], apart(step))] : [])),
    );
    const far = out ? Math.max(...own.map((box) => farEnough(box, out, others))) : 0;
    steps.push({ part, parts, out, far });
  }
  return steps;
}

/**
 * Where each part is, as far from home as the slider says: 0 is apart, and each whole number brings the next part
 * home, up to one less than there are parts.
 */
export function offsetsAt(steps: readonly Step[], at: number): Readonly<Record<string, Point3>> {
  return Object.fromEntries(
    steps.flatMap((step, i) => {
      const left = 1 - Math.min(1, Math.max(0, at - (i - 1)));
      return step.parts.map((part) => [part, scaled(apart(step), left)] as const);
    }),
  );
}

/** What the slider shows, in words. */
export function stepWords(steps: readonly Step[], at: number, titleOf: (part: string) => string): string {
  const last = steps.length - 1;
  const count = steps.reduce((sum, { parts }) => sum + parts.length, 0);
  if (at <= 0) return `Apart: ${count} parts, ${steps[0] ? nameOf(steps[0], titleOf) : "none"} first.`;
  if (at >= last) return "Closed: every part is home.";
  const step = steps[Math.ceil(at)]!;
  const whole = Number.isInteger(at);
  const words = step.out ? `${nameOf(step, titleOf)}, ${FROM[step.out]}` : nameOf(step, titleOf);
  return `Step ${Math.ceil(at)} of ${last}: ${words}${whole ? ", is home." : ", on its way."}`;
}

/** "Left cheek", or "Left cheek, its 2 layers glued". */
export function nameOf({ part, parts }: Step, titleOf: (part: string) => string): string {
  return parts.length === 1 ? titleOf(part) : `${titleOf(part)}, its ${parts.length} layers glued`;
}

/** A part whose way out leads to the left comes from the left. */
export const FROM: Readonly<Record<Direction, string>> = {
  "-x": "from the left",
  "+x": "from the right",
  "-y": "from the front",
  "+y": "from the back",
  "+z": "from above",
  "-z": "from below",
};

/** Least air between a part that waits and those that are nearer, mm. */
const BETWEEN_MM = 90;

function farEnough(box: Box3, out: Direction, others: readonly Box3[]): number {
  const axis = out[1] as keyof Point3;
  const across = (["x", "y", "z"] as const).filter((each) => each !== axis);
  const inTheWay = others.filter((other) =>
    across.every((each) => other.min[each] < box.max[each] && box.min[each] < other.max[each]),
  );
  const reach = inTheWay.map((other) =>
    out[0] === "+" ? other.max[axis] - box.min[axis] : box.max[axis] - other.min[axis],
  );
  return Math.max(0, ...reach) + BETWEEN_MM;
}

function apart({ out, far }: Step): Point3 {
  const none = { x: 0, y: 0, z: 0 };
  return out ? { ...none, [out[1]!]: out[0] === "+" ? far : -far } : none;
}

function moved({ min, max }: Box3, by: Point3): Box3 {
  const plus = (p: Point3): Point3 => ({ x: p.x + by.x, y: p.y + by.y, z: p.z + by.z });
  return { min: plus(min), max: plus(max) };
}

function scaled({ x, y, z }: Point3, by: number): Point3 {
  return { x: x * by, y: y * by, z: z * by };
}
