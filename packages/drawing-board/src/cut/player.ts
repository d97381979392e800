import { momentAt, type Timeline } from "./timeline.ts";

/** What is to be painted: a moment of the program. */
export interface Shot {
  readonly seconds: number;
  /** The motion under way, and what share of it is done. */
  readonly index: number;
  readonly share: number;
  /** The line of the program that asks for it; 0 where nothing moves. */
  readonly line: number;
  readonly isPlaying: boolean;
}

/** Paints a shot. False: something is left over, so that it wants painting again. */
export type Painter = (shot: Shot) => boolean;

export interface Player {
  readonly shot: () => Shot;
  readonly seek: (seconds: number) => void;
  /** Plays or pauses; at the end it begins anew. */
  readonly toggle: () => void;
  readonly setSpeed: (times: number) => void;
  /** Asks for a painting in the next frame. */
  readonly repaint: () => void;
  /** Adds a painter, until the returned function is called. */
  readonly listen: (painter: Painter) => () => void;
  /** Told whenever it begins or stops playing. */
  readonly onTurn: (told: (isPlaying: boolean) => void) => void;
  readonly stop: () => void;
}

/**
 * Plays a timeline: all painters paint in one frame. The script time of each frame that plays is left as a
 * performance measure named FRAME_MEASURE.
 */
export function createPlayer(timeline: Timeline): Player {
  const painters = new Set<Painter>();
  let seconds = 0;
  let speed = 60;
  let isPlaying = false;
  let frame = 0;
  let before: number | null = null;
  let turned: (isPlaying: boolean) => void = () => {};

  const shot = (): Shot => {
    const { index, share } = momentAt(timeline, seconds);
    return { seconds, index, share, line: timeline.motions[index]?.line ?? 0, isPlaying };
  };
  const repaint = (): void => {
    if (frame === 0) frame = requestAnimationFrame(paint);
  };
  const turn = (to: boolean): void => {
    if (to === isPlaying) return;
    isPlaying = to;
    before = null;
    turned(to);
    repaint();
  };
  const paint = (now: number): void => {
    frame = 0;
    const start = performance.now();
    const wasPlaying = isPlaying;
    if (isPlaying) {
      const passed = before === null ? 0 : Math.min(LONGEST_FRAME_MS, now - before);
      before = now;
      seconds = Math.min(timeline.seconds, seconds + (passed * speed) / 1000);
    }
    const taken = shot();
    const isDone = [...painters].map((painter) => painter(taken)).every((done) => done);
    // After the view library, which puts its own work behind this.
    if (wasPlaying)
      queueMicrotask(() => performance.measure(FRAME_MEASURE, { start, end: performance.now() }));
    if (isPlaying && seconds >= timeline.seconds) turn(false);
    if (isPlaying || !isDone) repaint();
  };

  return {
    shot,
    seek(to) {
      seconds = Math.min(timeline.seconds, Math.max(0, to));
      repaint();
    },
    toggle() {
      if (!isPlaying && seconds >= timeline.seconds) seconds = 0;
      if (!isPlaying) performance.clearMeasures(FRAME_MEASURE);
      turn(!isPlaying);
    },
    setSpeed(times) {
      speed = times;
    },
    repaint,
    listen(painter) {
      painters.add(painter);
      repaint();
      return () => painters.delete(painter);
    },
    onTurn(told) {
      turned = told;
    },
    stop() {
      cancelAnimationFrame(frame);
      frame = 0;
      turn(false);
      cancelAnimationFrame(frame);
    },
  };
}

export const FRAME_MEASURE = "cut-frame";

/** After a hiccup of the browser the program goes on where it was, not far ahead. */
const LONGEST_FRAME_MS = 100;
