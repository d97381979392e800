import { type Box, boundsOf, type Placement, placeCurve, placement } from "@dryfit/geometry";
import type { Shown } from "@dryfit/job";
import { type Design, type LockedPart, type Part, withItem, without, withValue } from "@dryfit/joinery";

export type Turn = LockedPart["turn"];

/** Where a part lies, as a design file would say it. */
export interface Place extends LockedPart {
  readonly isLocked: boolean;
}

/** Where every part lies: as the design locks it, else as it was nested last. */
export function placesOf({ layout, assembly }: Shown, design: Design | null): readonly Place[] {
  const locked = design?.sheet.locked ?? [];
  return layout.sheets.flatMap((sheet, i) =>
    sheet.parts.flatMap(({ part: id, placement: at }): Place[] => {
      const part = assembly.parts.find((each) => each.id === id);
      if (!part) return [];
      const { min } = boundsOf(placeCurve(at, part.outline));
      const nested: Place = {
        part: id,
        sheet: i + 1,
        size: sheet.stock.id,
        x: min.x,
        y: min.y,
        turn: (at.quarters * 90) as Turn,
        isLocked: false,
      };
      const lock = locked.find((each) => each.part === id);
      // Its number may be higher than there are sheets: it is shown where it came to lie.
      return [lock ? { ...lock, sheet: i + 1, isLocked: true } : nested];
    }),
  );
}

export function placementOf(
  part: Part,
  { x, y, turn }: Pick<Place, "x" | "y" | "turn">,
): Placement<"sheet", "panel"> {
  const quarters = (turn / 90) as Placement["quarters"];
  const { min } = boundsOf(
    placeCurve(placement<"sheet", "panel">({ x: 0, y: 0 }, { quarters }), part.outline),
  );
  return placement({ x: x - min.x, y: y - min.y }, { quarters });
}

/** The box round a part as it lies. */
export function boxOf(part: Part, place: Place): Box<"sheet"> {
  return boundsOf(placeCurve(placementOf(part, place), part.outline));
}

/** The ways a part may be turned on a sheet: its grain stays with the sheet's. */
export function turnsOf({ grain }: Part, sheetGrain: "x" | "y"): readonly Turn[] {
  if (grain === "free") return [0, 90, 180, 270];
  return grain === sheetGrain ? [0, 180] : [90, 270];
}

/** The next turn of these, counter-clockwise. */
export function turnedOn(turns: readonly Turn[], turn: Turn): Turn {
  return turns.find((each) => each > turn) ?? turns[0]!;
}

/**
 * The design's text with a part locked where it is put. Other locks keep their sheets' numbers as they came to lie,
 * so that two on one sheet stay together. Null where the text cannot be edited.
 */
export function withLock(
  text: string,
  { locked, sizes }: Design["sheet"],
  places: readonly Place[],
  put: LockedPart,
  asFiled: (mm: number) => number,
): string | null {
  const renumbered = locked.reduce<string | null>((now, lock, i) => {
    const sheet = places.find(({ part }) => part === lock.part)?.sheet ?? lock.sheet;
    return now !== null && sheet !== lock.sheet ? withValue(now, `sheet.locked[${i}].sheet`, sheet) : now;
  }, text);
  if (renumbered === null) return null;
  const said = {
    ...(put.sheet === 1 ? {} : { sheet: put.sheet }),
    ...(put.size === sizes[0]?.id ? {} : { size: put.size }),
    x: asFiled(put.x),
    y: asFiled(put.y),
    ...(put.turn === 0 ? {} : { turn: put.turn }),
  };
  const index = locked.findIndex(({ part }) => part === put.part);
  if (index < 0) return withItem(renumbered, "sheet.locked", { part: put.part, ...said });
  const now = locked[index]!;
  const all = { ...said, sheet: put.sheet, size: put.size, turn: put.turn };
  return (["sheet", "size", "x", "y", "turn"] as const).reduce<string | null>(
    (next, key) =>
      next === null || now[key] === put[key]
        ? next
        : withValue(next, `sheet.locked[${index}].${key}`, all[key]),
    renumbered,
  );
}

/** The design's text with these parts free to be nested; null where it cannot be edited. */
export function withoutLocks(
  text: string,
  locked: readonly LockedPart[],
  parts: readonly string[],
): string | null {
  if (locked.every(({ part }) => parts.includes(part))) return without(text, "sheet.locked");
  return locked
    .map(({ part }, i) => ({ part, i }))
    .filter(({ part }) => parts.includes(part))
    .reverse()
    .reduce<string | null>((now, { i }) => (now === null ? null : without(now, `sheet.locked[${i}]`)), text);
}
