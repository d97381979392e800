import type { JSX } from "preact";
import { useRef } from "preact/hooks";
import { isStale } from "../state/board-state.ts";
import type { SheetProps } from "../state/sheet-props.ts";
import { download } from "../title/save.ts";

/** The papers for the bench, and every file of the folder. */
export function PapersSheet({ board }: SheetProps): JSX.Element {
  const frame = useRef<HTMLIFrameElement>(null);
  const files = board.made?.made.files ?? [];
  const paper = files.find(({ file }) => file === "build-sheet.html");
  if (!paper) {
    return (
      <p class="waiting">
        {board.run.at === "making"
          ? "The papers are being drawn…"
          : "There are no papers: they are written once the case is proved. The notes on Case say what is to be mended."}
      </p>
    );
  }
  return (
    <div class={`papers-sheet${isStale(board) ? " older" : ""}`}>
      <section aria-label="Build sheet">
        <h2>
          Build sheet{" "}
          <button type="button" class="lettered" onClick={() => frame.current?.contentWindow?.print()}>
            print it
          </button>
        </h2>
        <iframe
          ref={frame}
          title="Build sheet"
          srcdoc={paper.text}
          sandbox="allow-same-origin allow-modals"
        />
      </section>
      <section aria-labelledby="files-title">
        <h2 id="files-title">Files</h2>
        <ul class="files-list">
          {files.map(({ file, text }) => (
            <li key={file}>
              <button
                type="button"
                class="lettered"
                onClick={() => download(file.split("/").at(-1)!, text, "text/plain")}
              >
                {file}
              </button>{" "}
              {sizeWords(text.length)}
            </li>
          ))}
        </ul>
      </section>
    </div>
  );
}

function sizeWords(bytes: number): string {
  return bytes < 10_000 ? `${(bytes / 1000).toFixed(1)} kB` : `${Math.round(bytes / 1000)} kB`;
}
