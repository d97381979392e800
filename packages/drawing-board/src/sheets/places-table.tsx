import type { Shown } from "@dryfit/job";
import type { JSX } from "preact";
import { FigureInput } from "../figures/figure-input.tsx";
import type { SheetProps } from "../state/sheet-props.ts";
import { type TypedIn, valueIn, WANTED } from "../state/type-in.ts";
import { type Place, type Turn, turnsOf } from "./place.ts";

interface TableProps extends SheetProps {
  readonly shown: Shown;
  readonly places: readonly Place[];
  readonly chosen: string | null;
  /** What putting a part there comes to. */
  readonly putting: (place: Place) => TypedIn;
  readonly onPut: (place: Place) => void;
  readonly onFree: (part: string) => void;
}

/** Where every part lies, in figures: typing one locks the part there. */
export function PlacesTable(props: TableProps): JSX.Element {
  const { shown, places, chosen } = props;
  return (
    <table class="table places">
      <caption>Where the parts lie</caption>
      <thead>
        <tr>
          <th scope="col">part</th>
          <th scope="col">sheet</th>
          <th scope="col">x</th>
          <th scope="col">y</th>
          <th scope="col">turn</th>
          <th scope="col">held</th>
        </tr>
      </thead>
      <tbody>
        {places.map((place) => (
          <tr key={place.part} class={place.part === chosen ? "chosen" : undefined}>
            <PlaceCells
              {...props}
              place={place}
              part={shown.assembly.parts.find(({ id }) => id === place.part)!}
            />
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function PlaceCells({
  board,
  set,
  shown,
  place,
  part,
  putting,
  onPut,
  onFree,
}: TableProps & {
  readonly place: Place;
  readonly part: Shown["assembly"]["parts"][number];
}): JSX.Element {
  const held = place.isLocked ? "locked: free it" : "nested: lock it";
  const sheet = shown.layout.sheets[place.sheet - 1]!;
  const figure = (key: "x" | "y" | "sheet"): JSX.Element => {
    const measure = key === "sheet" ? "count" : "length";
    return (
      <FigureInput
        board={board}
        set={set}
        path={`lock.${place.part}.${key}`}
        label={`${part.title}: ${key === "sheet" ? "sheet" : `${key} on the sheet`}`}
        measure={measure}
        value={place[key]}
        typeIn={(text) => {
          const value = valueIn(text, measure, board.units, board.drawn.design?.units ?? "mm");
          if (value === null || value.mm < 0) return { ok: false, why: WANTED[measure] };
          if (value.mm === place[key] && place.isLocked) return { ok: true, change: null };
          return putting({ ...place, [key]: value.mm });
        }}
      />
    );
  };
  return (
    <>
      <th scope="row">{part.title}</th>
      <td>{figure("sheet")}</td>
      <td>{figure("x")}</td>
      <td>{figure("y")}</td>
      <td>
        <select
          class="figure choice"
          aria-label={`${part.title}: turned`}
          value={String(place.turn)}
          onChange={(event) => onPut({ ...place, turn: Number(event.currentTarget.value) as Turn })}
        >
          {[...new Set([...turnsOf(part, sheet.stock.grain), place.turn])].map((turn) => (
            <option key={turn} value={String(turn)}>
              {turn}°
            </option>
          ))}
        </select>
      </td>
      <td>
        <button
          type="button"
          class="lettered"
          aria-label={`${held}, ${part.title}`}
          onClick={() => (place.isLocked ? onFree(place.part) : onPut(place))}
        >
          {held}
        </button>
      </td>
    </>
  );
}
