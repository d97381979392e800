import { SAME_POINT_MM } from "@dryfit/geometry";
import type { Blank, Board, SawRules, SawSheet } from "@dryfit/nest";

type Sheet = Pick<SawSheet, "id" | "cuts" | "blanks"> & { readonly size: readonly [number, number] };

/**
 * What goes wrong when a sheet is sawn as its list says, one cut after the other: every cut must go right across a board
 * that is there, leave what it promises, and in the end every blank must lie there with its size, clear of the edges
 * that are not trusted. Knows nothing of how the list came about.
 */
export function replaySaw(sheet: Sheet, wanted: readonly Blank[], { kerf, trim }: SawRules): string[] {
  const faults: string[] = [];
  const [w, h] = sheet.size;
  const [whole] = sheet.cuts.length === 0 ? sheet.blanks : [];
  const first: Board = { name: whole?.id ?? sheet.id, blank: whole?.id ?? null, x: 0, y: 0, w, h };
  const boards = new Map([[first.name, first]]);
  for (const [k, cut] of sheet.cuts.entries()) {
    const board = boards.get(cut.board);
    if (!board) {
      faults.push(`cut ${k + 1} asks for ${cut.board}, which is not there`);
      continue;
    }
    boards.delete(cut.board);
    const [low, length] = cut.axis === "x" ? [board.x, board.w] : [board.y, board.h];
    if (cut.at + kerf < low || cut.at > low + length) faults.push(`cut ${k + 1} misses ${cut.board}`);
    const part = (from: number, to: number) =>
      cut.axis === "x" ? { ...board, x: from, w: to - from } : { ...board, y: from, h: to - from };
    const sides = [
      [cut.near, part(low, cut.at)],
      [cut.far, part(cut.at + kerf, low + length)],
    ] as const;
    for (const [promised, falls] of sides) {
      if (!promised) continue;
      if (!same(promised, falls)) faults.push(`cut ${k + 1} does not give ${promised.name} as it says`);
      if (boards.has(promised.name)) faults.push(`cut ${k + 1} gives a second ${promised.name}`);
      boards.set(promised.name, { ...falls, name: promised.name, blank: promised.blank });
    }
  }
  for (const { id, turned } of sheet.blanks) {
    const board = boards.get(id);
    const size = wanted.find((blank) => blank.id === id)?.size;
    if (!board || !size) faults.push(`${id} does not fall`);
    else {
      const [x, y] = turned ? [size[1], size[0]] : size;
      if (!near(board.w, x) || !near(board.h, y)) faults.push(`${id} measures ${board.w} × ${board.h}`);
      if (Math.min(board.x, board.y, w - board.x - board.w, h - board.y - board.h) < trim - SLACK_MM)
        faults.push(`${id} keeps an edge of the sheet`);
    }
  }
  return faults;
}

/** What is written in a file is rounded to four places, and sums of such figures are off by a few of them. */
const SLACK_MM: number = 100 * SAME_POINT_MM;

function same(a: Board, b: Pick<Board, "x" | "y" | "w" | "h">): boolean {
  return near(a.x, b.x) && near(a.y, b.y) && near(a.w, b.w) && near(a.h, b.h);
}

function near(a: number, b: number): boolean {
  return Math.abs(a - b) <= SLACK_MM;
}
