import { starterDesign } from "@dryfit/joinery";
import type { JSX } from "preact";
import { useRef } from "preact/hooks";
import { addressOf } from "../state/address.ts";
import { workOf } from "../state/board-state.ts";
import { change, refuse, say } from "../state/edit.ts";
import { openFiles } from "../state/open-files.ts";
import { SAMPLE } from "../state/opening.ts";
import type { SheetProps } from "../state/sheet-props.ts";
import { save } from "./save.ts";

/** What comes onto the board and what leaves it. */
export function Files({ board, set }: SheetProps): JSX.Element {
  const picker = useRef<HTMLInputElement>(null);
  const copyLink = async (): Promise<void> => {
    const { hash, leftOut } = addressOf(workOf(board));
    const link = `${location.href.replace(/[#?].*$/, "")}#${hash}`;
    try {
      await navigator.clipboard.writeText(link);
      set(
        say(
          leftOut.length === 0
            ? "The link is copied. It carries the design; whoever opens it has it on the board."
            : `The link is copied. It would be too long with ${leftOut.join(" and ")}, so it carries the design alone: send the drawing too, to be dropped on the page.`,
        ),
      );
    } catch {
      set(refuse("The browser does not let the page copy. The address above carries the design too."));
    }
  };
  return (
    <div class="cell files">
      <button type="button" class="lettered" onClick={() => save(board, set)}>
        save
      </button>
      <button type="button" class="lettered" onClick={() => picker.current?.click()}>
        open
      </button>
      <input
        ref={picker}
        class="heard"
        type="file"
        tabIndex={-1}
        aria-label="Open a design with its drawings, a program or a DXF file"
        accept=".yaml,.yml,.nc,.ngc,.tap,.gcode,.dxf,.svg"
        multiple
        onChange={async (event) => {
          const input = event.currentTarget;
          set(await openFiles([...(input.files ?? [])]));
          input.value = "";
        }}
      />
      <button
        id="new"
        type="button"
        class="lettered"
        onClick={() => set(change({ file: "my-case.yaml", text: starterDesign(), gear: [], drawings: [] }))}
      >
        new
      </button>
      <button type="button" class="lettered" onClick={() => set(change(SAMPLE))}>
        sample
      </button>
      <button type="button" class="lettered" onClick={copyLink}>
        copy link
      </button>
      <button type="button" class="lettered" onClick={() => print()}>
        print
      </button>
    </div>
  );
}
