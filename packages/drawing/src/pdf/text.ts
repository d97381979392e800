/** How wide a text is set, mm. */
export function textWidth(text: string, size: number, bold = false): number {
  const widths = bold ? BOLD : REGULAR;
  const units = codesOf(text).reduce((sum, code) => sum + (widths.get(code) ?? OTHER), 0);
  return (units * size) / 1000;
}

/** The text as a string of the file, in WinAnsi; what that encoding lacks is written in words or as "?". */
export function pdfString(text: string): string {
  const written = codesOf(text).map((code) => {
    const character = String.fromCharCode(code);
    if ("()\\".includes(character)) return `\\${character}`;
    return code >= 32 && code < 127 ? character : `\\${code.toString(8).padStart(3, "0")}`;
  });
  return `(${written.join("")})`;
}

/** The text in lines that are at most `width` mm wide; a longer word stands alone. */
export function wrapped(text: string, width: number, size: number, bold = false): readonly string[] {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const longer = lines.length === 0 ? word : `${lines.at(-1)} ${word}`;
    if (lines.length > 0 && textWidth(longer, size, bold) <= width) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}

/** WinAnsi codes of a text. */
function codesOf(text: string): readonly number[] {
  return [...text].flatMap((character) => {
    const code = character.codePointAt(0)!;
    if ((code >= 32 && code < 127) || (code >= 160 && code <= 255)) return [code];
    const known = ELSEWHERE[character];
    if (known !== undefined) return [known];
    return [...(IN_WORDS[character] ?? "?")].map((c) => c.charCodeAt(0));
  });
}

/** Characters that WinAnsi holds at another place than Unicode. */
const ELSEWHERE: Readonly<Record<string, number>> = {
  "€": 128,
  "…": 133,
  "‘": 145,
  "’": 146,
  "“": 147,
  "”": 148,
  "•": 149,
  "–": 150,
  "—": 151,
};

const IN_WORDS: Readonly<Record<string, string>> = {
  "−": "-",
  "≥": ">=",
  "≤": "<=",
  "→": "->",
  "⌀": "dia. ",
  "\t": " ",
  "\n": " ",
};

/** Width of a character that is in no list, thousandths of the size: a figure's. */
const OTHER = 556;

/** Widths from space to tilde of Helvetica and its bold, thousandths of the size. Source: the faces' metrics, from memory. */
const REGULAR: ReadonlyMap<number, number> = table(
  `278 278 355 556 556 889 667 191 333 333 389 584 278 333 278 278
   556 556 556 556 556 556 556 556 556 556 278 278 584 584 584 556
   1015 667 667 722 722 667 611 778 722 278 500 667 556 833 722 778
   667 778 722 667 611 722 667 944 667 667 611 278 278 278 469 556
   333 556 556 500 556 556 278 556 556 222 222 500 222 833 556 556
   556 556 333 500 278 556 500 722 500 500 500 334 260 334 584`,
  {
    133: 1000,
    145: 222,
    146: 222,
    147: 333,
    148: 333,
    149: 350,
    151: 1000,
    176: 400,
    177: 584,
    183: 278,
    215: 584,
    216: 778,
  },
);

const BOLD: ReadonlyMap<number, number> = table(
  `278 333 474 556 556 889 722 238 333 333 389 584 278 333 278 278
   556 556 556 556 556 556 556 556 556 556 333 333 584 584 584 611
   975 722 722 722 722 667 611 778 722 278 556 722 611 833 722 778
   667 778 722 667 611 722 667 944 667 667 611 333 278 333 584 556
   333 556 611 556 611 556 333 611 611 278 278 556 278 889 611 611
   611 611 389 556 333 611 556 778 556 556 500 389 280 389 584`,
  {
    133: 1000,
    145: 278,
    146: 278,
    147: 500,
    148: 500,
    149: 350,
    151: 1000,
    176: 400,
    177: 584,
    183: 278,
    215: 584,
    216: 778,
  },
);

function table(ascii: string, others: Readonly<Record<number, number>>): ReadonlyMap<number, number> {
  const listed = ascii.split(/\s+/).map((width, i): [number, number] => [32 + i, Number(width)]);
  return new Map([
    ...listed,
    ...Object.entries(others).map(([code, w]): [number, number] => [Number(code), w]),
  ]);
}
