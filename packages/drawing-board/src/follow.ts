import { hearKeys } from "./hear-keys.ts";
import { addressOf, workIn } from "./state/address.ts";
import { type BoardState, workOf } from "./state/board-state.ts";
import { change, refuse } from "./state/edit.ts";
import { keep } from "./state/keep.ts";
import type { Store } from "./state/store.ts";
import type { Work } from "./state/work.ts";
import { takeDrops } from "./take-drops.ts";
import { createRunner, type Runner } from "./worker/runner.ts";

/**
 * What follows from each change of the work: a run in the worker, the browser's copy, the page's address.
 * `once` says when the first worker may take the processor.
 */
export function follow(store: Store, once: (go: () => void) => void): void {
  let run = 0;
  const { set } = store;
  let runner: Runner | null = null;
  let asked: Pick<Work, "text" | "drawings"> | null = null;
  const make = (): void => {
    if (!runner) return;
    const { file, text, drawings } = workOf(store.get());
    run++;
    const work = { text, drawings };
    asked = work;
    const of = run;
    set((board) => ({ ...board, run: { at: "making", run: of, stage: "starting" } }));
    runner.make(run, { design: { file, text }, drawings });
  };
  let keptWell: ReturnType<typeof keep> = "all";
  const remember = later(KEEP_MS, () => {
    const work = workOf(store.get());
    setAddress(addressOf(work).hash);
    const well = keep(work);
    if (well !== keptWell && well === "nothing")
      set(refuse("This browser keeps nothing for the page. Save the design before you close it."));
    if (well !== keptWell && well === "design")
      set(
        refuse("This browser keeps the design, but has no room for its drawings: open them again next time."),
      );
    keptWell = well;
  });
  const makeSoon = later(RUN_MS, make);

  store.subscribe((board: BoardState, before: BoardState) => {
    if (board.tries !== before.tries) make();
    if (workOf(board) === workOf(before)) return;
    remember();
    const { text, drawings } = workOf(board);
    if (text !== asked?.text || drawings !== asked.drawings) makeSoon();
  });
  addEventListener("hashchange", () => {
    const linked = workIn(location.hash);
    if (linked === "broken")
      set(refuse("The link is cut short or was changed: your work stays on the board."));
    else if (linked) set(change(linked));
  });
  hearKeys(store);
  takeDrops(store);
  addEventListener("pagehide", () => keep(workOf(store.get())));
  once(() => {
    runner = createRunner({
      stage: (of, stage) => set((board) => ({ ...board, run: { at: "making", run: of, stage } })),
      made: (of, made, ms) =>
        set((board) => ({ ...board, run: { at: "made", run: of, ms }, made: { ...asked!, made } })),
      failed: (of, why) => set((board) => ({ ...board, run: { at: "failed", run: of, why } })),
    });
    make();
  });
}

/** After an edit, the worker starts as soon as no other edit follows at once. */
const RUN_MS = 20;
const KEEP_MS = 300;

/** Puts off work until nothing has asked for it for a while. */
function later(ms: number, work: () => void): () => void {
  let timer = 0;
  return () => {
    clearTimeout(timer);
    timer = window.setTimeout(work, ms);
  };
}

function setAddress(hash: string): void {
  try {
    history.replaceState(null, "", `#${hash}`);
  } catch {
    // Some browsers forbid it to pages opened from disk: the link is still there to be copied.
  }
}
