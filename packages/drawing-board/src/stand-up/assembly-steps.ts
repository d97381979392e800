import type { Box3, Direction, Point3 } from "@dryfit/joinery";

/** One part on its way home: where it comes from, and how far away it waits. */
export interface Step {
  readonly part: string;
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
): readonly Step[] {
  const steps: Step[] = [];
  for (const part of order) {
    const out = ways[part] ?? null;
    const box = boxes[part];
    if (!out || !box) {
      steps.push({ part, out: null, far: 0 });
      continue;
    }
    const others = steps.flatMap((step) => (boxes[step.part] ? [moved(boxes[step.part]!, apart(step))] : []));
    steps.push({ part, out, far: farEnough(box, out, others) });
  }
  return steps;
}

/**
 * Where each part is, as far from home as the slider says: 0 is apart, and each whole number brings the next part
 * home, up to one less than there are parts.
 */
export function offsetsAt(steps: readonly Step[], at: number): Readonly<Record<string, Point3>> {
  return Object.fromEntries(
    steps.map((step, i) => {
      const left = 1 - Math.min(1, Math.max(0, at - (i - 1)));
      return [step.part, scaled(apart(step), left)];
    }),
  );
}

/** What the slider shows, in words. */
export function stepWords(steps: readonly Step[], at: number, titleOf: (part: string) => string): string {
  const last = steps.length - 1;
  if (at <= 0) return `Apart: ${steps.length} parts, ${titleOf(steps[0]?.part ?? "")} first.`;
  if (at >= last) return "Closed: every part is home.";
  const step = steps[Math.ceil(at)]!;
  const whole = Number.isInteger(at);
  const words = step.out ? `${titleOf(step.part)}, ${FROM[step.out]}` : titleOf(step.part);
  return `Step ${Math.ceil(at)} of ${last}: ${words}${whole ? ", is home." : ", on its way."}`;
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
