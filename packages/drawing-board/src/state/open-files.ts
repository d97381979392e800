import { TEXT_MAX } from "./address.ts";
import type { BoardState } from "./board-state.ts";
import { change, refuse } from "./edit.ts";
import type { Change } from "./store.ts";

/** What files that someone opened or dropped come to: a design on the board, programs and drawings on Cut, or why not. */
export async function openFiles(files: readonly File[]): Promise<Change> {
  const changes = await Promise.all(files.map(openFile));
  return (board) => changes.reduce<BoardState>((now, next) => next(now), board);
}

async function openFile(file: File): Promise<Change> {
  const kind = KINDS.find(({ endings }) => endings.test(file.name));
  if (!kind) {
    return refuse(
      `${file.name} is no file for this board. Wanted: a design (.yaml), a program (.nc) or a drawing (.dxf).`,
    );
  }
  if (file.size > kind.most)
    return refuse(
      `${file.name} is larger than any ${kind.what}: ${Math.round(file.size / 1e6)} MB. It was left out.`,
    );
  let text: string;
  try {
    text = new TextDecoder("utf-8", { fatal: true }).decode(await file.arrayBuffer());
  } catch {
    return refuse(`${file.name} holds no text that can be read. Your work stays on the board.`);
  }
  if (kind.what !== "design") {
    return (board) => ({
      ...board,
      dropped: [{ file: file.name, text }, ...board.dropped.filter((each) => each.file !== file.name)],
      turnedTo: "cut",
      lookAt: file.name,
      notice: null,
    });
  }
  return change({ file: file.name, text });
}

const KINDS = [
  { what: "design", endings: /\.ya?ml$/i, most: TEXT_MAX },
  { what: "program", endings: /\.(nc|ngc|tap|gcode|cnc)$/i, most: 40_000_000 },
  { what: "drawing", endings: /\.dxf$/i, most: 40_000_000 },
] as const;
