import type { Point } from "@dryfit/geometry";
import type { Shown } from "@dryfit/job";
import type { JSX } from "preact";
import { figureText } from "../figures/figure-text.ts";
import { type SheetProps, turnTo } from "../state/sheet-props.ts";

/** What one sheet holds and leaves, how it is held down, and its programs. */
export function SheetFacts({
  board,
  set,
  shown,
  sheet,
  screws,
}: SheetProps & {
  readonly shown: Shown;
  readonly sheet: Shown["layout"]["sheets"][number];
  readonly screws: readonly Point<"sheet">[] | null;
}): JSX.Element {
  const length = (mm: number): string => figureText(mm, "length", board.units);
  const programs = shown.programs.filter((program) => program.sheet === sheet.id);
  const tabs = programs.reduce((sum, program) => sum + program.tabs.length, 0);
  const skin = programs.find((program) => program.skin !== null)?.skin ?? null;
  const offcuts = shown.offcuts.filter((offcut) => offcut.sheet === sheet.id);
  return (
    <table class="table">
      <caption>{sheet.id}</caption>
      <tbody>
        <tr>
          <th scope="row">size</th>
          <td>
            {length(sheet.stock.size[0])} × {length(sheet.stock.size[1])}, grain along {sheet.stock.grain}
          </td>
        </tr>
        <tr>
          <th scope="row">used</th>
          <td>{((shown.yields[sheet.id] ?? 0) * 100).toFixed(0)} % lies in parts</td>
        </tr>
        <tr>
          <th scope="row">to keep</th>
          <td>
            {offcuts.length === 0
              ? "no rest worth keeping"
              : offcuts.map(({ w, h }) => `${length(w)} × ${length(h)}`).join(", ")}
          </td>
        </tr>
        <tr>
          <th scope="row">held by</th>
          <td>{heldBy(tabs, skin === null ? null : length(skin), screws)}</td>
        </tr>
        <tr>
          <th scope="row">programs</th>
          <td>
            <span class="row">
              {programs.length === 0 && "none yet"}
              {programs.map(({ file, minutes }) => (
                <button key={file} type="button" class="lettered" onClick={() => set(turnTo("cut", file))}>
                  {file}, {minutes.toFixed(0)} min
                </button>
              ))}
            </span>
          </td>
        </tr>
      </tbody>
    </table>
  );
}

function heldBy(tabs: number, skin: string | null, screws: readonly Point<"sheet">[] | null): string {
  const parts = [
    ...(tabs > 0 ? [`${tabs} tabs`] : []),
    ...(skin === null ? [] : [`a skin of ${skin}`]),
    ...(screws === null
      ? []
      : screws.length === 0
        ? ["no waste is wide enough for screws: use clamps or tape"]
        : [`${screws.length} places for screws`]),
  ];
  return parts.join(", ") || "…";
}
