/** One stretch of a path, as a look-ahead planner sees it. mm, mm/s, mm/s². */
export interface Stretch {
  readonly length: number;
  /** The most that feed, machine and bend allow. */
  readonly speed: number;
  readonly acceleration: number;
  /** The most at its start, where the stretch before meets it; 0 stops. */
  readonly cornerSpeed: number;
}

/** How a stretch is driven: a trapezoid, or a triangle where it is short. */
export interface Travelled {
  readonly entry: number;
  readonly exit: number;
  readonly peak: number;
  readonly seconds: number;
}

/**
 * The quickest way along a path from rest to rest that exceeds no speed, acceleration or corner: the speeds at its
 * joints, one more than it has stretches; `trapezoid` tells how each stretch is driven between two of them.
 *
 * Two passes: back from the end so that every stretch can still be braked for, then forward from the start so
 * that every speed can have been reached.
 */
export function velocityPlan(path: readonly Stretch[]): Float64Array {
  const speeds = new Float64Array(path.length + 1);
  for (let k = path.length - 1; k >= 0; k--) {
    const { length, acceleration, speed, cornerSpeed } = path[k]!;
    const before = path[k - 1]?.speed ?? 0;
    speeds[k] = Math.min(speed, before, cornerSpeed, reached(speeds[k + 1]!, acceleration, length));
  }
  for (let k = 0; k < path.length; k++) {
    const { length, acceleration } = path[k]!;
    speeds[k + 1] = Math.min(speeds[k + 1]!, reached(speeds[k]!, acceleration, length));
  }
  return speeds;
}

/** Source: uniform acceleration; `entry` and `exit` are within reach of each other. */
export function trapezoid(
  length: number,
  speed: number,
  acceleration: number,
  entry: number,
  exit: number,
): Travelled {
  const peak = Math.sqrt((2 * acceleration * length + entry ** 2 + exit ** 2) / 2);
  if (peak <= speed) return { entry, exit, peak, seconds: (2 * peak - entry - exit) / acceleration };
  const ramps = (2 * speed ** 2 - entry ** 2 - exit ** 2) / (2 * acceleration);
  const seconds = (2 * speed - entry - exit) / acceleration + (length - ramps) / speed;
  return { entry, exit, peak: speed, seconds };
}

/**
 * The speed at which a corner may be taken so that a circle touching both sides stays within `deviation` of it.
 *
 * `cosine` is the dot product of the two unit directions: 1 goes straight on, −1 turns back.
 * Source: R = d s / (1 − s) with s the sine of half the inside angle, v = √(a R); the rule of several public controllers.
 */
export function cornerSpeed(cosine: number, acceleration: number, deviation: number): number {
  const s = Math.sqrt(Math.max(0, (1 + Math.min(1, cosine)) / 2));
  if (s >= 1) return Number.POSITIVE_INFINITY;
  return Math.sqrt((acceleration * deviation * s) / (1 - s));
}

function reached(speed: number, acceleration: number, length: number): number {
  return Math.sqrt(speed ** 2 + 2 * acceleration * length);
}
