import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type HandTools, makeTemplates, readHandTools, type TemplatesMade } from "@dryfit/bench";
import { type Assembly, readDesign, recipe } from "@dryfit/joinery";

const root = new URL("../../", import.meta.url);

export const TOOLS: string = readFileSync(new URL("samples/shop/hand-router.yaml", root), "utf8");

/** Without the cutter that has a bearing, outlines are run round with a bush. */
export const TOOLS_WITHOUT_BEARING: string = TOOLS.replace(/ {2}# For outlines:[\s\S]*?at: tip \}\n/, "");

export function designText(name: string): string {
  return readFileSync(new URL(`samples/${name}.yaml`, root), "utf8");
}

/** Each folder is made once, however many tests look into it. */
export function made(
  name: string,
  paper: "a4" | "a3" | "letter",
  { tools = TOOLS, measured = { x: 100, y: 100 } } = {},
): Promise<TemplatesMade> {
  const key = JSON.stringify([name, paper, tools, measured]);
  const folder =
    folders.get(key) ??
    makeTemplates({
      design: { file: `${name}.yaml`, text: designText(name) },
      tools: { file: "tools.yaml", text: tools },
      paper,
      measured,
      version: "0",
    });
  folders.set(key, folder);
  return folder;
}

const folders = new Map<string, Promise<TemplatesMade>>();

export function caseOf(name: string): Assembly {
  const read = readDesign(designText(name), name);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return recipe(read.value);
}

export function toolsOf(text: string): HandTools {
  const read = readHandTools(text, "tools.yaml");
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
}

/** What a script of ours beside this file answers to `input`, run by Debian's Python. */
export function python<T>(script: string, input: unknown): T {
  const file = new URL(script, import.meta.url).pathname;
  const answer = execFileSync("/usr/bin/python3", [file], {
    input: JSON.stringify(input),
    encoding: "utf8",
    maxBuffer: 1 << 26,
  });
  return JSON.parse(answer) as T;
}

/** The pages of a PDF as grey pictures; `use` has their file names. */
export function printed<T>(pdf: string, perMm: number, use: (pages: readonly string[]) => T): T {
  const folder = mkdtempSync(join(tmpdir(), "dryfit-print-"));
  try {
    mkdirSync(join(folder, "pages"));
    writeFileSync(join(folder, "a.pdf"), pdf);
    execFileSync("pdftoppm", [
      "-r",
      String(perMm * 25.4),
      "-gray",
      join(folder, "a.pdf"),
      join(folder, "pages", "p"),
    ]);
    const names = readdirSync(join(folder, "pages")).sort();
    return use(names.map((name) => join(folder, "pages", name)));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
