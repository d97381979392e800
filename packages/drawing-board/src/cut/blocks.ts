import type { Motion } from "@dryfit/verify";

/** What a line of the program does, as far as it is drawn. */
export type LineKind = "none" | "rapid" | "cut" | "entry" | "tab";

/** What each line of a program is about. */
export interface Blocks {
  /** By line, from 1. */
  readonly kindOf: (line: number) => LineKind;
  /** The comments above a line that name what it cuts: "Base, rebate; pass 1 of 2, to 3.9 mm deep". */
  readonly titleOf: (line: number) => string;
  /** The comments that one can go to: those with cuts under them. */
  readonly headings: readonly Heading[];
}

interface Heading {
  readonly line: number;
  readonly words: string;
}

export function blocksOf(
  lines: readonly string[],
  motions: readonly Motion[],
  tabs: readonly number[],
): Blocks {
  const kinds = kindsOf(lines.length, motions, tabs);
  const headings = headingsOf(lines, motions);
  const named = new Map(headings.map((heading) => [heading.line, heading]));
  const titles = headings.map(({ line, words }, i) => {
    const inner = SUB_BLOCK.exec(words);
    if (!inner) return { line, words };
    const outer = headings.slice(0, i).findLast((each) => each.words.startsWith(`Block ${inner[1]}:`));
    return { line, words: outer ? `${outer.words}, ${words.slice(inner[0].length)}` : words };
  });
  return {
    kindOf: (line) => kinds[line] ?? "none",
    titleOf: (line) => titles.findLast((title) => title.line <= line)?.words ?? "",
    headings: [...named.values()].filter(({ words }) => !SUB_BLOCK.test(words)),
  };
}

/** "Block 3.2: pass 2 of 2": it stands under "Block 3: Base, rebate". */
const SUB_BLOCK = /^Block (\d+)\.\d+: */;

function kindsOf(count: number, motions: readonly Motion[], tabs: readonly number[]): LineKind[] {
  const kinds = new Array<LineKind>(count + 1).fill("none");
  let wasRapid = true;
  for (const { line, kind } of motions) {
    if (kind === "rapid") {
      if (kinds[line] === "none") kinds[line] = "rapid";
    } else if (wasRapid) kinds[line] = "entry";
    else if (kinds[line] !== "entry") kinds[line] = "cut";
    wasRapid = kind === "rapid";
  }
  for (const line of tabs) kinds[line] = "tab";
  return kinds;
}

/** Lines that hold nothing but a comment, after the first one that moves or just above it. */
function headingsOf(lines: readonly string[], motions: readonly Motion[]): readonly Heading[] {
  const first = motions[0]?.line ?? lines.length;
  const last = motions.at(-1)?.line ?? 0;
  const found: Heading[] = [];
  for (let line = first; line <= last && found.length < HEADINGS_MAX; line++) {
    const comment = /^\s*(?:N\d+\s*)?(?:\(([^()]+)\)|;(.+))\s*$/i.exec(lines[line - 1] ?? "");
    if (comment) found.push({ line, words: (comment[1] ?? comment[2] ?? "").trim() });
  }
  return found;
}

/** More than a person can choose from. */
const HEADINGS_MAX = 2000;
