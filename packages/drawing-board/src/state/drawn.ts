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
import { withOwnDrawings } from "./drawings.ts";
import type { Work } from "./work.ts";

/** What the page itself works out at once, before the worker has cut and proved anything. */
export interface Drawn {
  /** What is drawn. */
  readonly file: string;
  readonly text: string;
  readonly drawings: Work["drawings"];
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

export function draw(work: Work, read: Read<Design> = readWork(work)): Drawn {
  const { file, text, drawings } = work;
  if (!read.ok)
    return {
      file,
      text,
      drawings,
      design: null,
      assembly: null,
      explanations: [],
      problems: read.problems,
      findings: [],
    };
  const design = withOwnDrawings(read.value, drawings);
  const assembly = recipe(design);
  return {
    file,
    text,
    drawings,
    design,
    assembly,
    explanations: explain(design),
    problems: [],
    findings: assembly.findings,
  };
}

export function drawableOf({ design, assembly, explanations }: Drawn): Drawable | null {
  return design && assembly && assembly.parts.length > 0 ? { design, assembly, explanations } : null;
}

/** As a design. What makes the reader stumble is a problem of the file, never of the board. */
export function readWork({ text, file }: Pick<Work, "text" | "file">): Read<Design> {
  try {
    return readDesign(text, file);
  } catch (error) {
    const found = error instanceof Error ? error.message : String(error);
    const message = `${file} could not be read.`;
    const problem = { file, line: 1, column: 1, path: "", found, allowed: "a design file", message };
    return { ok: false, problems: [problem] };
  }
}
