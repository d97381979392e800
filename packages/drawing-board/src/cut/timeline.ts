import { lengthOfMotion, type Motion, type Position, positionAt } from "@dryfit/verify";

/** When each motion of a program ends if it runs at its own speeds, in seconds from the start. */
export interface Timeline {
  readonly motions: readonly Motion[];
  readonly ends: Float64Array;
  readonly seconds: number;
}

/** A moment within a program: which motion is under way, and what share of it is done. */
export interface Moment {
  readonly index: number;
  readonly share: number;
}

export function timelineOf(motions: readonly Motion[]): Timeline {
  const ends = new Float64Array(motions.length);
  let seconds = 0;
  for (let i = 0; i < motions.length; i++) {
    const motion = motions[i]!;
    const speed = motion.kind === "rapid" ? RAPID_MM_PER_MIN : motion.feed;
    seconds += Math.max(LEAST_S, speed > 0 ? (60 * lengthOfMotion(motion)) / speed : 0);
    ends[i] = seconds;
  }
  return { motions, ends, seconds };
}

/** Also a motion that goes nowhere has a moment of its own, or one could not stop at its line. */
const LEAST_S = 1e-4;

/** How fast rapids are shown, mm/min: the program does not say. */
const RAPID_MM_PER_MIN = 6000;

export function startOf({ ends }: Timeline, index: number): number {
  return index <= 0 ? 0 : ends[index - 1]!;
}

export function momentAt({ ends, seconds }: Timeline, at: number): Moment {
  if (ends.length === 0 || at <= 0) return { index: 0, share: 0 };
  if (at >= seconds) return { index: ends.length - 1, share: 1 };
  let [low, high] = [0, ends.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (ends[middle]! >= at) high = middle;
    else low = middle + 1;
  }
  const start = low === 0 ? 0 : ends[low - 1]!;
  return { index: low, share: (at - start) / (ends[low]! - start) };
}

/** The first motion that a line asks for, or the next line that moves; the last one after them all. */
export function motionOfLine({ motions }: Timeline, line: number): number {
  let [low, high] = [0, motions.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (motions[middle]!.line >= line) high = middle;
    else low = middle + 1;
  }
  return Math.max(low, 0);
}

/** When the last motion of the line that this one belongs to is done. */
export function endOfLine({ motions, ends }: Timeline, index: number): number {
  let last = index;
  while (last + 1 < motions.length && motions[last + 1]!.line === motions[index]!.line) last++;
  return ends[last] ?? 0;
}

/** All that the line asks for which this motion belongs to. */
export function motionsOfBlock({ motions }: Timeline, index: number): readonly Motion[] {
  const line = motions[index]?.line;
  let [first, last] = [index, index];
  while (first > 0 && motions[first - 1]!.line === line) first--;
  while (last < motions.length && motions[last]!.line === line) last++;
  return motions.slice(first, last);
}

/** Where the tip is at a moment; the program's zero where nothing moves. */
export function momentPosition({ motions }: Timeline, { index, share }: Moment): Position {
  const motion = motions[index];
  return motion ? positionAt(motion, share) : { x: 0, y: 0, z: 0 };
}

/** The moment at which so many lines more are done, or fewer. */
export function linesOn(timeline: Timeline, seconds: number, lines: number): number {
  const { motions } = timeline;
  let at = momentAt(timeline, seconds).index;
  for (let n = 0; n < Math.abs(lines); n++) {
    const { line } = motions[at] ?? { line: 0 };
    if (lines < 0) {
      // Within a line: to the end of the one before.
      while (at >= 0 && motions[at]!.line === line) at--;
      if (at < 0) return 0;
    } else if (n > 0 || seconds >= endOfLine(timeline, at)) {
      while (at < motions.length && motions[at]!.line === line) at++;
      if (at >= motions.length) return timeline.seconds;
    }
  }
  return endOfLine(timeline, at);
}
