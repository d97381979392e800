import type { JSX } from "preact";
import { FigureInput } from "../figures/figure-input.tsx";
import { figureText } from "../figures/figure-text.ts";
import { workOf } from "../state/board-state.ts";
import { change, edit, say } from "../state/edit.ts";
import type { SheetProps } from "../state/sheet-props.ts";
import { lengthForFile, type TypedIn, valueIn, WANTED } from "../state/type-in.ts";
import { GEAR_KINDS, GEAR_ROWS, type GearItem, type GearRow, PLUG_MM, PLUG_PLACES } from "./gear.ts";
import { insideFor, roomFor } from "./room.ts";

const ROW_WORDS: Readonly<Record<GearRow, string>> = {
  floor: "on the floor, in front",
  tier: "on the tier",
  under: "under the tier",
};
const PLUG_WORDS = {
  none: "no plugs",
  sides: "left and right",
  back: "at the back",
  both: "all round",
} as const;

/** The gear that the case is for, and whether it fits. Nothing is changed on the drawing unless asked. */
export function GearSheet(props: SheetProps): JSX.Element {
  const { board, set } = props;
  const { gear } = workOf(board);
  const put = (next: readonly GearItem[]): void => set(change({ gear: next }));
  return (
    <div class="gear-sheet">
      <h2>Gear</h2>
      <p>
        Measure each thing as it will stand, knobs and all. A flat plug takes {PLUG_MM} mm beside the edge it
        stands in; give more where yours are longer.
      </p>
      {gear.length > 0 && (
        <table class="table schedule">
          <thead>
            <tr>
              <th scope="col">name</th>
              <th scope="col">how many</th>
              <th scope="col">width × depth × height</th>
              <th scope="col">where</th>
              <th scope="col">plugs</th>
              <th scope="col">
                <span class="heard">take out</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {gear.map((item, i) => (
              <GearRowOf key={String(i)} {...props} item={item} i={i} put={put} gear={gear} />
            ))}
          </tbody>
        </table>
      )}
      <label class="add">
        Add:{" "}
        <select
          class="figure choice"
          value=""
          onChange={(event) => {
            const kind = GEAR_KINDS.find(([name]) => name === event.currentTarget.value);
            if (kind) put([...gear, itemOf(kind)]);
            event.currentTarget.value = "";
          }}
        >
          <option value="">a kind of gear…</option>
          {GEAR_KINDS.map(([name, size]) => (
            <option key={name} value={name}>
              {name}, {size.join(" × ")} mm
            </option>
          ))}
        </select>
      </label>
      <Rows {...props} />
    </div>
  );
}

function itemOf([name, [width, depth, height]]: (typeof GEAR_KINDS)[number]): GearItem {
  const isSupply = name === "supply";
  return {
    name,
    width,
    depth,
    height,
    count: 1,
    row: isSupply ? "under" : "floor",
    plugs: isSupply ? "none" : "sides",
  };
}

function GearRowOf({
  board,
  set,
  item,
  i,
  gear,
  put,
}: SheetProps & {
  readonly item: GearItem;
  readonly i: number;
  readonly gear: readonly GearItem[];
  readonly put: (next: readonly GearItem[]) => void;
}): JSX.Element {
  const withItem = (next: Partial<GearItem>): readonly GearItem[] =>
    gear.map((each, k) => (k === i ? { ...each, ...next } : each));
  const field = (key: "width" | "depth" | "height" | "count", label: string, most: number) => (
    <FigureInput
      board={board}
      set={set}
      path={`gear[${i}].${key}`}
      label={`${item.name}: ${label}`}
      measure={key === "count" ? "count" : "length"}
      value={item[key]}
      typeIn={(text): TypedIn => {
        const measure = key === "count" ? "count" : "length";
        const value = valueIn(text, measure, board.units, "mm");
        if (!value) return { ok: false, why: WANTED[measure] };
        if (value.mm < 1 || value.mm > most) return { ok: false, why: `From 1 to ${most}.` };
        const now = key === "count" ? Math.round(value.mm) : value.mm;
        return { ok: true, change: change({ gear: withItem({ [key]: now }) }) };
      }}
    />
  );
  return (
    <tr>
      <td>
        <input
          class="figure text"
          aria-label={`Gear ${i + 1}: name`}
          value={item.name}
          maxLength={60}
          style={{ width: `${Math.max(6, item.name.length + 1)}ch` }}
          onChange={(event) => put(withItem({ name: event.currentTarget.value }))}
        />
      </td>
      <td>{field("count", "how many", 20)}</td>
      <td>
        {field("width", "width", 1000)} × {field("depth", "depth", 1000)} × {field("height", "height", 500)}
      </td>
      <td>
        <select
          class="figure choice"
          aria-label={`${item.name}: where`}
          value={item.row}
          onChange={(event) => put(withItem({ row: event.currentTarget.value as GearRow }))}
        >
          {GEAR_ROWS.map((row) => (
            <option key={row} value={row}>
              {ROW_WORDS[row]}
            </option>
          ))}
        </select>
      </td>
      <td>
        <select
          class="figure choice"
          aria-label={`${item.name}: plugs`}
          value={item.plugs}
          onChange={(event) => put(withItem({ plugs: event.currentTarget.value as GearItem["plugs"] }))}
        >
          {PLUG_PLACES.map((place) => (
            <option key={place} value={place}>
              {PLUG_WORDS[place]}
            </option>
          ))}
        </select>
      </td>
      <td>
        <button
          type="button"
          class="lettered"
          aria-label={`take out ${item.name}`}
          onClick={() => put(gear.filter((_, k) => k !== i))}
        >
          take out
        </button>
      </td>
    </tr>
  );
}

/** Row by row: what is asked, what there is. */
function Rows({ board, set }: SheetProps): JSX.Element | null {
  const { gear } = workOf(board);
  const design = board.drawable?.design;
  if (!design || gear.length === 0) return null;
  const rows = roomFor(gear, design);
  const least = insideFor(gear, design);
  const say1 = (mm: number): string => figureText(mm, "length", board.units);
  const { width, depth } = design.inside;
  const isOther = least !== null && (least.width !== width || least.depth !== depth);
  return (
    <>
      <h2>Room</h2>
      <table class="table schedule">
        <thead>
          <tr>
            <th scope="col">row</th>
            <th scope="col">width: asked / there is</th>
            <th scope="col">depth</th>
            <th scope="col">height</th>
            <th scope="col">fits</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ row, needs, has, widthSum, fits }) => (
            <tr key={row}>
              <th scope="row">{ROW_WORDS[row]}</th>
              <td>
                {widthSum} = {say1(needs.width)} / {has ? say1(has.width) : "no tier"}
              </td>
              <td>
                {say1(needs.depth)} / {has ? say1(has.depth) : "no tier"}
              </td>
              <td>
                {say1(needs.height)} /{" "}
                {has ? (has.height === null ? "open above" : say1(has.height)) : "no tier"}
              </td>
              <td>
                <b>{fits ? "yes" : "no"}</b>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {least && isOther && (
        <p class="offer">
          The least inside that holds it: {say1(least.width)} wide, {say1(least.depth)} deep. The case is{" "}
          {say1(width)} × {say1(depth)}.{" "}
          <button
            type="button"
            class="lettered"
            onClick={() => {
              set(
                edit(
                  { path: "inside.width", value: lengthForFile(least.width, board) },
                  { path: "inside.depth", value: lengthForFile(least.depth, board) },
                ),
              );
              set(say("The inside is drawn to the gear. Undo takes it back."));
            }}
          >
            draw the case so
          </button>
        </p>
      )}
    </>
  );
}
