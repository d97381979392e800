import { printedError } from "@dryfit/verify";
import { type BoardState, isStale } from "../state/board-state.ts";

/** What stands first in the title block: whether the case is proved, and if not yet, why. */
export interface BoardVerdict {
  readonly mark: "proved" | "mend" | "working" | "stopped";
  readonly sentence: string;
}

export function verdictOf(board: BoardState): BoardVerdict {
  const { run, made, drawn } = board;
  if (drawn.problems.length > 0)
    return { mark: "mend", sentence: `Not readable: ${things(drawn.problems.length)} to mend.` };
  const errors = drawn.findings.filter(({ severity }) => severity === "error").length;
  if (errors > 0) return { mark: "mend", sentence: `Not provable yet: ${things(errors)} to mend.` };
  if (run.at === "failed")
    return { mark: "stopped", sentence: `The work stopped: ${run.why}. Your design is safe.` };
  if (run.at === "making" || made === null || isStale(board))
    return { mark: "working", sentence: `Not proved yet: ${stage(board)}…` };
  const { outcome, shown, findings } = made.made;
  if (outcome === "made" && shown?.proof) {
    const widest = Math.max(shown.proof.gouge, shown.proof.uncut);
    return { mark: "proved", sentence: `Proved: widest error ${printedError(widest)}, nothing touches.` };
  }
  const count = findings.filter(({ severity }) => severity === "error").length;
  return { mark: "mend", sentence: `Not provable yet: ${things(count)} to mend.` };
}

function stage({ run }: BoardState): string {
  return run.at === "making" ? run.stage : "waiting";
}

function things(count: number): string {
  return `${count} ${count === 1 ? "thing" : "things"}`;
}
