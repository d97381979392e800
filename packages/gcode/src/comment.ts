import type { Controller } from "./machine.ts";

/** Lines of comment that say `text`: plain ASCII, no brackets within brackets, wrapped to the controller's line. */
export function commentLines(
  text: string,
  controller: Pick<Controller, "comments" | "maxLineLength">,
): readonly string[] {
  if (controller.comments === "none") return [];
  const [open, close] = controller.comments === "parentheses" ? ["(", ")"] : ["; ", ""];
  const width = controller.maxLineLength - open.length - close.length;
  return wrapped(plainText(text), width).map((line) => open + line + close);
}

/** What every controller shows: other letters become their nearest, brackets and marks of the language become spaces. */
export function plainText(text: string): string {
  return [...text.normalize("NFKD")]
    .map((c) => LOOKALIKES[c] ?? c)
    .join("")
    .replace(/\p{M}/gu, "")
    .replace(/;/g, ",")
    .replace(/[()[\]{}%#\t\r\n]/g, " ")
    .replace(/[^ -~]/g, "?")
    .replace(/ +/g, " ")
    .trim();
}

const LOOKALIKES: Readonly<Record<string, string>> = {
  "×": "x",
  "−": "-",
  "–": "-",
  "—": "-",
  "°": " deg",
  "’": "'",
  "‘": "'",
  "“": '"',
  "”": '"',
  ß: "ss",
  ø: "o",
  Ø: "O",
  æ: "ae",
  Æ: "AE",
  "⁄": "/",
};

/** Breaks at spaces; a word longer than the line is cut. */
function wrapped(text: string, width: number): readonly string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(" ").flatMap((w) => chopped(w, width))) {
    const longer = line === "" ? word : `${line} ${word}`;
    if (longer.length > width) lines.push(line);
    line = longer.length > width ? word : longer;
  }
  return [...lines, line];
}

function chopped(word: string, width: number): readonly string[] {
  return word.length <= width ? [word] : (word.match(new RegExp(`.{1,${width}}`, "g")) ?? [word]);
}
