import {
  type Assembly,
  type Design,
  type Explanation,
  explain,
  type FileProblem,
  type Finding,
  type Read,
  readDesign,
  recipe,
} from "@dryfit/joinery";
import type { Work } from "./work.ts";

/** What the page itself works out at once, before the worker has cut and proved anything. */
export interface Drawn {
  /** Null where the text cannot be read. */
  readonly design: Design | null;
  /** Null where the text cannot be read; without parts where the design cannot be drawn. */
  readonly assembly: Assembly | null;
  readonly explanations: readonly Explanation[];
  /** Why the text cannot be read. */
  readonly problems: readonly FileProblem[];
  readonly findings: readonly Finding[];
}

/** The last case that could be drawn; it stays on the board while the text cannot. */
export interface Drawable {
  readonly design: Design;
  readonly assembly: Assembly;
  readonly explanations: readonly Explanation[];
}

export function draw({ text, file }: Work): Drawn {
  let read: Read<Design>;
  try {
    read = readDesign(text, file);
  } catch (error) {
    return unread([
      {
        file,
        line: 1,
        column: 1,
        path: "",
        found: error instanceof Error ? error.message : String(error),
        allowed: "a design file",
        message: `${file} could not be read.`,
      },
    ]);
  }
  if (!read.ok) return unread(read.problems);
  const assembly = recipe(read.value);
  return {
    design: read.value,
    assembly,
    explanations: explain(read.value),
    problems: [],
    findings: assembly.findings,
  };
}

export function drawableOf({ design, assembly, explanations }: Drawn): Drawable | null {
  return design && assembly && assembly.parts.length > 0 ? { design, assembly, explanations } : null;
}

function unread(problems: readonly FileProblem[]): Drawn {
  return { design: null, assembly: null, explanations: [], problems, findings: [] };
}
