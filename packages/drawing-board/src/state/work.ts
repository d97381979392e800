import type { OutFile } from "@dryfit/job";
import type { GearItem } from "../gear/gear.ts";

/** All that a person has made: what is undone, kept in the browser and carried by a link. */
export interface Work {
  /** "tidepool.yaml". */
  readonly file: string;
  /** The design file's text: the one source of everything on the board. */
  readonly text: string;
  readonly gear: readonly GearItem[];
  /** Files of own outlines, by the names that the design gives them. */
  readonly drawings: readonly OutFile[];
}

/** Work with its undone and redone neighbours. */
export interface History {
  readonly past: readonly Work[];
  readonly now: Work;
  readonly future: readonly Work[];
}

export function historyOf(now: Work): History {
  return { past: [], now, future: [] };
}

/** The same history where nothing changed, so that an empty edit costs no step. */
export function advanced(history: History, next: Work): History {
  if (sameWork(history.now, next)) return history;
  return { past: [...history.past.slice(1 - STEPS_MAX), history.now], now: next, future: [] };
}

export function undone(history: History): History {
  const last = history.past.at(-1);
  if (!last) return history;
  return { past: history.past.slice(0, -1), now: last, future: [history.now, ...history.future] };
}

export function redone(history: History): History {
  const [next, ...future] = history.future;
  return next ? { past: [...history.past, history.now], now: next, future } : history;
}

/** As many steps back as are kept. */
const STEPS_MAX = 500;

function sameWork(a: Work, b: Work): boolean {
  return a.text === b.text && a.file === b.file && a.gear === b.gear && a.drawings === b.drawings;
}
