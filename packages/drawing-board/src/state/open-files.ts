import type { OutFile } from "@dryfit/job";
import { TEXT_MAX } from "./address.ts";
import { type BoardState, workOf } from "./board-state.ts";
import { asNamed, missingIn, putIn } from "./drawings.ts";
import { change, refuse } from "./edit.ts";
import type { Change } from "./store.ts";

/**
 * What files that someone opened or dropped come to: a design on the board with the drawings that it names, programs
 * and other drawings on Cut, or why not. The order in which a browser hands them over means nothing: designs come first.
 */
export async function openFiles(files: readonly File[]): Promise<Change> {
  const read = await Promise.all(files.map(readFile));
  const rank = ({ what }: Opened): number => ["design", "drawing", "program", "refused"].indexOf(what);
  const inOrder = [...read].sort((a, b) => rank(a) - rank(b));
  return (board) => {
    const opened = inOrder.reduce<BoardState>((now, one) => changeFor(one)(now), board);
    return inOrder.some(({ what }) => what === "design" || what === "drawing") ? askedFor(opened) : opened;
  };
}

type Opened =
  | { readonly what: "design" | "program" | "drawing"; readonly file: OutFile }
  | { readonly what: "refused"; readonly why: string };

async function readFile(file: File): Promise<Opened> {
  const refused = (why: string): Opened => ({ what: "refused", why });
  const kind = KINDS.find(({ endings }) => endings.test(file.name));
  if (!kind) {
    return refused(
      `${file.name} is no file for this board. Wanted: a design (.yaml), its drawings (.dxf, .svg) or a program (.nc).`,
    );
  }
  if (file.size > kind.most)
    return refused(
      `${file.name} is larger than any ${kind.what}: ${Math.round(file.size / 1e6)} MB. It was left out.`,
    );
  try {
    const text = new TextDecoder("utf-8", { fatal: true }).decode(await file.arrayBuffer());
    return { what: kind.what, file: { file: file.name, text } };
  } catch {
    return refused(`${file.name} holds no text that can be read. Your work stays on the board.`);
  }
}

function changeFor(opened: Opened): Change {
  if (opened.what === "refused") return refuse(opened.why);
  const { file } = opened;
  if (opened.what === "design") return change({ ...file, drawings: [] });
  if (opened.what === "program") return onCut(file);
  return (board) => {
    const named = asNamed(board.drawn.design, file);
    if (named.length > 0) return change({ drawings: putIn(workOf(board).drawings, named) })(board);
    if (!/\.svg$/i.test(file.file)) return onCut(file)(board);
    return refuse(
      `${file.file} is in no place of ${workOf(board).file}: name it there, as \`file: ${file.file}\`.`,
    )(board);
  };
}

function onCut(file: OutFile): Change {
  return (board) => ({
    ...board,
    dropped: [file, ...board.dropped.filter((each) => each.file !== file.file)],
    turnedTo: "cut",
    lookAt: file.file,
    notice: null,
  });
}

/** Says which drawings the design still waits for. */
function askedFor(board: BoardState): BoardState {
  const { file, drawings } = workOf(board);
  const missing = missingIn(board.drawn.design, drawings);
  if (missing.length === 0 || board.notice !== null) return board;
  const text = `${file} names ${missing.join(" and ")}, which ${missing.length === 1 ? "is" : "are"} not on the board: open or drop ${missing.length === 1 ? "it" : "them"} too.`;
  return { ...board, notice: { kind: "refused", text } };
}

const KINDS = [
  { what: "design", endings: /\.ya?ml$/i, most: TEXT_MAX },
  { what: "program", endings: /\.(nc|ngc|tap|gcode|cnc)$/i, most: 40_000_000 },
  { what: "drawing", endings: /\.dxf$/i, most: 40_000_000 },
  { what: "drawing", endings: /\.svg$/i, most: 4_000_000 },
] as const;
