import { type BoardState, workOf } from "../state/board-state.ts";
import { refuse, say } from "../state/edit.ts";
import type { Change } from "../state/store.ts";

/** Writes the design: into the file that `dryfit board` serves, or to the browser's downloads. */
export async function save(board: BoardState, set: (change: Change) => void): Promise<void> {
  const { file, text } = workOf(board);
  const { served } = board;
  if (!served || served.file !== file) {
    download(file, text, "text/yaml");
    return set((now) => say(`Saved as ${file} where your browser keeps downloads.`)({ ...now, saved: text }));
  }
  try {
    const answer = await fetch(served.url, { method: "PUT", body: text });
    if (!answer.ok) throw new Error(await answer.text());
    set((now) => say(`Saved to ${file}.`)({ ...now, saved: text }));
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    set(
      refuse(
        `Not saved to ${file}: ${why} Is dryfit board still running? Your work is kept in this browser.`,
      ),
    );
  }
}

export function download(name: string, content: string | Uint8Array, type: string): void {
  const url = URL.createObjectURL(new Blob([content as BlobPart], { type }));
  const link = document.createElement("a");
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
