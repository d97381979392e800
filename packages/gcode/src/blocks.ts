import { comment, type Line, words } from "./lines.ts";
import type { Controller } from "./machine.ts";
import type { DrillMotion, Motion } from "./motion.ts";
import { coordinateWord, plainWord } from "./rounding.ts";
import type { Position } from "./toolpath.ts";

/**
 * The blocks of operation `number`. The first block and the first of each pass state every word, all others only
 * what changes; so a program can be taken up at "Block 7" or "Block 7.2", which the comments and the mode lines mark.
 */
export function blocksOf(
  motions: readonly Motion[],
  number: number,
  controller: Controller,
): readonly Line[] {
  const lines: Line[] = [];
  let state = NOTHING_STATED;
  let passes = 0;
  for (const motion of motions) {
    if (state.drill !== null && motion.kind !== "drill") {
      lines.push(words("G80"));
      state = { ...state, drill: null, code: null };
    }
    if (motion.kind === "pass") {
      passes++;
      lines.push(
        comment(`Block ${number}.${passes}${motion.text === "" ? "" : `: ${motion.text}`}`),
        words(...PASS_MODES),
      );
      state = NOTHING_STATED;
      continue;
    }
    const [line, next] = block(motion, state, controller);
    lines.push(line);
    state = next;
  }
  return state.drill === null ? lines : [...lines, words("G80")];
}

/** "P2.5" or "P2500". */
export function dwellWord(seconds: number, { dwellUnit }: Pick<Controller, "dwellUnit">): string {
  return dwellUnit === "s" ? plainWord("P", seconds, 3) : plainWord("P", Math.round(seconds * 1000), 0);
}

/** Stated where an operation begins; nowhere else in a program's body. */
export const OPERATION_MODES: readonly string[] = ["G17", "G90", "G94"];

/** Stated where a pass begins. */
export const PASS_MODES: readonly string[] = ["G90", "G94"];

/** What the controller remembers from the blocks so far; null: state it anew. */
interface State {
  readonly code: string | null;
  readonly at: Position | null;
  readonly feed: string | null;
  readonly drill: DrillMotion | null;
}

const NOTHING_STATED: State = { code: null, at: null, feed: null, drill: null };

function block(
  motion: Exclude<Motion, { kind: "pass" }>,
  state: State,
  controller: Controller,
): readonly [Line, State] {
  switch (motion.kind) {
    case "dwell":
      return [words("G4", dwellWord(motion.seconds, controller)), state];
    case "rapid": {
      const list = [changed(state.code, "G0"), ...axisWords(state.at, motion.to, controller)];
      return [words(...list), { ...state, code: "G0", at: motion.to }];
    }
    case "line": {
      const feed = feedWord(motion.feed);
      const list = [
        changed(state.code, "G1"),
        ...axisWords(state.at, motion.to, controller),
        changed(state.feed, feed),
      ];
      return [words(...list), { ...state, code: "G1", at: motion.to, feed }];
    }
    case "arc": {
      const code = motion.sweep > 0 ? "G3" : "G2";
      const feed = feedWord(motion.feed);
      const list = [
        changed(state.code, code),
        ...arcWords(state.at, motion, controller),
        changed(state.feed, feed),
      ];
      return [words(...list), { ...state, code, at: motion.to, feed }];
    }
    case "drill": {
      const feed = feedWord(motion.feed);
      const to = { ...motion.at, z: motion.back };
      return [
        words(...drillWords(motion, state, feed, controller)),
        { code: null, at: to, feed, drill: motion },
      ];
    }
  }
}

function changed(before: string | null, now: string): string | null {
  return before === now ? null : now;
}

function axisWords(from: Position | null, to: Position, controller: Controller): readonly (string | null)[] {
  return (["x", "y", "z"] as const).map((axis) =>
    from !== null && from[axis] === to[axis]
      ? null
      : coordinateWord(axis.toUpperCase(), to[axis], controller),
  );
}

/** X and Y always stand, so that a whole turn and its end are plain to every reader. Z only where it may change. */
function arcWords(
  from: Position | null,
  motion: Motion & { kind: "arc" },
  controller: Controller,
): readonly (string | null)[] {
  const { to, i, j } = motion;
  const climbs = controller.helix && from?.z !== to.z;
  return [
    coordinateWord("X", to.x, controller),
    coordinateWord("Y", to.y, controller),
    climbs ? coordinateWord("Z", to.z, controller) : null,
    coordinateWord("I", i, controller),
    coordinateWord("J", j, controller),
  ];
}

/** The same hole again needs only its place. */
function drillWords(
  motion: DrillMotion,
  state: State,
  feed: string,
  controller: Controller,
): readonly (string | null)[] {
  const place = [coordinateWord("X", motion.at.x, controller), coordinateWord("Y", motion.at.y, controller)];
  if (state.drill !== null && sameCycle(state.drill, motion)) return place;
  const code = motion.peck !== null ? "G83" : motion.dwellSeconds > 0 ? "G82" : "G81";
  return [
    "G98",
    code,
    ...place,
    coordinateWord("Z", motion.bottom, controller),
    coordinateWord("R", motion.retract, controller),
    motion.peck === null ? null : coordinateWord("Q", motion.peck, controller),
    motion.peck === null && motion.dwellSeconds > 0 ? dwellWord(motion.dwellSeconds, controller) : null,
    feed,
  ];
}

function sameCycle(a: DrillMotion, b: DrillMotion): boolean {
  return (
    a.bottom === b.bottom &&
    a.retract === b.retract &&
    a.peck === b.peck &&
    a.dwellSeconds === b.dwellSeconds &&
    a.feed === b.feed
  );
}

/** mm/min to one decimal; a feed that would print as 0 stops a strict controller. */
function feedWord(feed: number): string {
  if (!(feed > 0)) throw new RangeError(`a feed must be positive, not ${feed}`);
  return plainWord("F", Math.max(feed, 0.1), 1);
}
