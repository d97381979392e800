import type { Shown } from "@dryfit/job";
import { workOf } from "../state/board-state.ts";
import { change, refuse } from "../state/edit.ts";
import type { SheetProps } from "../state/sheet-props.ts";
import { lengthForFile, type TypedIn } from "../state/type-in.ts";
import { type Place, withLock, withoutLocks } from "./place.ts";

/** How parts are locked in their places by hand, and freed again. */
export interface Locking {
  /** The design with the part locked there; refused where the file may not say so. */
  readonly putting: (place: Place) => TypedIn;
  readonly put: (place: Place) => void;
  readonly free: (parts: readonly string[]) => void;
  /** Every part where it lies now. */
  readonly lockAll: () => void;
}

export function lockingOf({ board, set }: SheetProps, shown: Shown, places: readonly Place[]): Locking {
  const { design } = board.drawn;
  const { text: before } = workOf(board);
  const inFile = (mm: number): number => lengthForFile(mm, board);
  const putting = (place: Place): TypedIn => {
    if (!design) return { ok: false, why: CANNOT };
    const sheet = shown.layout.sheets[place.sheet - 1];
    const put = { ...place, size: sheet?.stock.id ?? place.size };
    const text = withLock(before, design.sheet, places, put, inFile);
    if (text === null) return { ok: false, why: CANNOT };
    return { ok: true, change: text === before ? null : change({ text }) };
  };
  const take = (text: string | null): void => set(text === null ? refuse(CANNOT) : change({ text }));
  return {
    putting,
    put(place) {
      const typed = putting(place);
      if (!typed.ok) set(refuse(typed.why));
      else if (typed.change) set(typed.change);
    },
    free: (parts) => take(design && withoutLocks(before, design.sheet.locked, parts)),
    lockAll() {
      const loose = places.filter(({ isLocked }) => !isLocked);
      take(
        design &&
          loose.reduce<string | null>(
            (now, place) => now && withLock(now, design.sheet, places, place, inFile),
            before,
          ),
      );
    },
  };
}

const CANNOT = "The design file has to be mended before parts can be locked in it.";
