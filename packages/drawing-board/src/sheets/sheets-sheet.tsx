import type { JSX } from "preact";
import { figureText } from "../figures/figure-text.ts";
import { isStale } from "../state/board-state.ts";
import type { SheetProps } from "../state/sheet-props.ts";
import { turnTo } from "../state/sheet-props.ts";

/** The sheets as they will be cut: parts as nested, drawn from the files that a machine and a service read. */
export function SheetsSheet({ board, set }: SheetProps): JSX.Element {
  const made = board.made?.made;
  const shown = made?.shown;
  const previews = made?.files.filter(({ file }) => /^preview\/.*\.svg$/.test(file)) ?? [];
  if (!shown || shown.layout.sheets.length === 0) {
    return (
      <p class="waiting">{board.run.at === "making" ? "The parts are being laid on sheets…" : NOTHING}</p>
    );
  }
  const stale = isStale(board);
  return (
    <div class={`sheets-sheet${stale ? " older" : ""}`}>
      {stale && (
        <p role="status">
          These sheets are of the design before the last change; the new ones are being made.
        </p>
      )}
      {shown.layout.sheets.map((sheet) => {
        const svg = previews.find(({ file }) => file === `preview/${sheet.id}.svg`)?.text;
        const [x, y] = sheet.stock.size.map((mm) => figureText(mm, "length", board.units));
        const turned = sheet.parts.map(
          ({ part }) => shown.assembly.parts.find(({ id }) => id === part)?.title ?? part,
        );
        return (
          <section key={sheet.id} aria-label={sheet.id}>
            {svg ? (
              // It was drawn by this page's own worker: every text in it is escaped.
              <div class="preview" dangerouslySetInnerHTML={{ __html: svg }} />
            ) : (
              <p class="waiting">
                This sheet has no programs yet: the notes on Case say what is to be mended.
              </p>
            )}
            <table class="table">
              <caption>{sheet.id}</caption>
              <tbody>
                <tr>
                  <th scope="row">size</th>
                  <td>
                    {x} × {y}, grain along {sheet.stock.grain}
                  </td>
                </tr>
                <tr>
                  <th scope="row">used</th>
                  <td>{((shown.yields[sheet.id] ?? 0) * 100).toFixed(0)} % lies in parts</td>
                </tr>
                <tr>
                  <th scope="row">parts</th>
                  <td>{turned.join(", ")}</td>
                </tr>
                <tr>
                  <th scope="row">programs</th>
                  <td>
                    <span class="row">
                      {shown.programs
                        .filter((program) => program.sheet === sheet.id)
                        .map(({ file, minutes }) => (
                          <button
                            key={file}
                            type="button"
                            class="lettered"
                            onClick={() => set(turnTo("cut", file))}
                          >
                            {file}, {minutes.toFixed(0)} min
                          </button>
                        ))}
                    </span>
                  </td>
                </tr>
              </tbody>
            </table>
          </section>
        );
      })}
    </div>
  );
}

const NOTHING = "There are no sheets: the notes on Case say what is to be mended first.";
