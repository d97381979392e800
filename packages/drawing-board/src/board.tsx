import type { JSX } from "preact";
import { Introduction } from "./introduction.tsx";
import { NoticeSlip } from "./notice.tsx";
import { SHEETS } from "./sheet-index.tsx";
import { type SheetProps, turnTo } from "./state/sheet-props.ts";
import { TitleBlock } from "./title/title-block.tsx";

/** The whole board: the sheet that is turned to, in its border, with the title block at its lower right. */
export function Board(props: SheetProps): JSX.Element {
  const { board, set } = props;
  const turned = SHEETS.find(({ name }) => name === board.turnedTo)!;
  return (
    <main class="sheet-frame">
      <h1 class="heard">The drawing board: {board.drawn.design?.name ?? board.history.now.file}</h1>
      <div class="zones" role="tablist" aria-label="Sheets" onKeyDown={(event) => turnByKey(event, props)}>
        {SHEETS.map(({ name, title }, i) => (
          <button
            key={name}
            type="button"
            role="tab"
            id={`tab-${name}`}
            aria-selected={name === turned.name}
            aria-controls="turned"
            tabIndex={name === turned.name ? 0 : -1}
            style={{ order: 2 * i }}
            onClick={() => set(turnTo(name))}
          >
            <span class="zone-number">{i + 1}</span> {title}
          </button>
        ))}
      </div>
      <section
        id="turned"
        class={`turned turned-${turned.name}`}
        role="tabpanel"
        aria-labelledby={`tab-${turned.name}`}
        style={{ order: 2 * SHEETS.indexOf(turned) + 1 }}
      >
        {!board.introduced && board.turnedTo === "case" && <Introduction set={set} />}
        <turned.Sheet {...props} />
        <TitleBlock {...props} title={turned.title} />
      </section>
      <NoticeSlip {...props} />
    </main>
  );
}

function turnByKey(event: KeyboardEvent, { board, set }: SheetProps): void {
  const at = SHEETS.findIndex(({ name }) => name === board.turnedTo);
  const to = {
    ArrowRight: at + 1,
    ArrowDown: at + 1,
    ArrowLeft: at - 1,
    ArrowUp: at - 1,
    Home: 0,
    End: SHEETS.length - 1,
  }[event.key];
  if (to === undefined) return;
  event.preventDefault();
  const next = SHEETS[(to + SHEETS.length) % SHEETS.length]!;
  set(turnTo(next.name));
  document.getElementById(`tab-${next.name}`)?.focus();
}
