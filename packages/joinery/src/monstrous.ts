/** Letters in a file: a design has a few thousand, and the parser looks at each key once for every other. */
const MOST_LETTERS = 50_000;

/** Brackets in brackets: a design has three. The parser does not survive thousands. */
const DEEPEST = 50;

/** Spaces before a line. */
const MOST_INDENT = 500;

/**
 * Why a text is too big or too deep to be given to the YAML parser at all, and where; null where it is not.
 * Brackets in quotes and comments do not count.
 */
export function monstrous(text: string): null | {
  readonly found: string;
  readonly allowed: string;
  readonly line: number;
  readonly column: number;
} {
  if (text.length > MOST_LETTERS) {
    return {
      found: `a file of ${text.length} letters`,
      allowed: `at most ${MOST_LETTERS}`,
      line: 1,
      column: 1,
    };
  }
  const lines = text.split("\n");
  let depth = 0;
  for (const [i, line] of lines.entries()) {
    const code = line.replace(/"(?:[^"\\]|\\.)*"|'[^']*'|(?:^|\s)#.*/g, (skipped) =>
      " ".repeat(skipped.length),
    );
    for (let column = 0; column < code.length; column++) {
      const letter = code[column]!;
      if ("[{".includes(letter)) depth++;
      else if ("]}".includes(letter)) depth = Math.max(0, depth - 1);
      if (depth > DEEPEST) {
        return {
          found: `brackets ${depth} deep`,
          allowed: `at most ${DEEPEST} in each other`,
          line: i + 1,
          column: column + 1,
        };
      }
    }
    const indent = line.length - line.trimStart().length;
    if (indent > MOST_INDENT) {
      return {
        found: `an indentation of ${indent}`,
        allowed: `at most ${MOST_INDENT}`,
        line: i + 1,
        column: indent + 1,
      };
    }
  }
  return null;
}
