import {
  type Document,
  isMap,
  isNode,
  isPair,
  isScalar,
  LineCounter,
  type Node,
  parseDocument,
  visit,
} from "yaml";
import type { z } from "zod";
import { monstrous } from "./monstrous.ts";
import { nearestWord } from "./nearest-word.ts";
import { allowedBy, keysAt } from "./schema-words.ts";

/** A place in a file, counted from 1. */
export interface Place {
  readonly file: string;
  readonly line: number;
  readonly column: number;
}

/** What is wrong with a file, where, what was found there and what is allowed. */
export interface FileProblem extends Place {
  /** "joint.stop", "cutters[2].diameter"; empty for the file as a whole. */
  readonly path: string;
  readonly found: string;
  readonly allowed: string;
  /** One line: file:line:column, path, found, allowed. */
  readonly message: string;
}

export type Read<T> =
  | {
      readonly ok: true;
      readonly value: T;
      /** Where a path of the file stands; where it is not written, its nearest ancestor that is. */
      readonly place: (path: string) => Place;
    }
  | { readonly ok: false; readonly problems: readonly FileProblem[] };

/** A schema, or how to choose one by what stands in the file. */
type SchemaFor<T> = z.ZodType<T> | ((raw: unknown) => z.ZodType<T>);

/** More are not told at once. */
const MOST_PROBLEMS = 100;

type Keys = readonly (string | number)[];

/**
 * Reads a YAML file by a schema. Every problem is told, each at its line and column.
 *
 * A schema's own messages (`{ error: "…" }`, custom issues) say what is allowed: "a length from 3 to 40 mm".
 */
export function readYaml<T>(text: string, file: string, schemaFor: SchemaFor<T>): Read<T> {
  const lines = new LineCounter();
  const monster = monstrous(text);
  if (monster !== null) {
    const { found, allowed, line, column } = monster;
    return { ok: false, problems: [problem({ file, line, column }, "", found, allowed)] };
  }
  const doc = parseDocument(text, {
    lineCounter: lines,
    prettyErrors: false,
    strict: true,
    logLevel: "error",
  });
  const at = (offset: number): Place => {
    const { line, col } = lines.linePos(offset);
    return { file, line: Math.max(1, line), column: Math.max(1, col) };
  };
  const broken = [...doc.errors, ...doc.warnings].map((e) =>
    problem(
      at(e.pos[0]),
      "",
      brokenWords[e.code] ?? e.message.replace(/\s+/g, " "),
      "YAML 1.2, indented with spaces",
    ),
  );
  if (broken.length > 0) return { ok: false, problems: broken };
  const lost = unresolved(doc);
  if (lost)
    return {
      ok: false,
      problems: [
        problem(
          at(lost.offset),
          "",
          `*${lost.name}, which names nothing`,
          "an alias of an anchor that stands before it",
        ),
      ],
    };
  let raw: unknown;
  try {
    raw = doc.toJS();
  } catch {
    // The library refuses aliases that would unfold to a heap.
    return { ok: false, problems: [problem(at(0), "", "too many aliases", "at most 100")] };
  }
  const schema = typeof schemaFor === "function" ? schemaFor(raw) : schemaFor;
  const result = schema.safeParse(raw);
  if (!result.success) {
    const problems = result.error.issues
      .flatMap(unfolded)
      .flatMap((issue) => problemsOf(issue, doc, schema, at, raw));
    return { ok: false, problems: problems.sort((a, b) => a.line - b.line || a.column - b.column) };
  }
  return { ok: true, value: result.data, place: (path) => at(offsetOf(doc, keysOf(path))) };
}

/** "joint.stop" or "cutters[2].diameter" as keys. */
function keysOf(path: string): Keys {
  return [...path.matchAll(/[^.[\]]+/g)].map(([key]) => (/^\d+$/.test(key) ? Number(key) : key));
}

function pathOfKeys(keys: Keys): string {
  return keys.map((k, i) => (typeof k === "number" ? `[${k}]` : i === 0 ? k : `.${k}`)).join("");
}

type Issue = z.core.$ZodIssue;

/** Of a choice, the branch that was meant: the one whose issues all lie inside the value, if there is one. */
function unfolded(issue: Issue): Issue[] {
  if (issue.code !== "invalid_union") return [issue];
  const meant = issue.errors.find((branch) =>
    branch.every((inner) => inner.path.length > 0 || inner.code === "unrecognized_keys"),
  );
  if (meant === undefined || meant.length === 0) return [issue];
  return meant.flatMap((inner) => unfolded({ ...inner, path: [...issue.path, ...inner.path] } as Issue));
}

function problemsOf(
  issue: Issue,
  doc: Document,
  schema: z.ZodType,
  at: (offset: number) => Place,
  raw: unknown,
): FileProblem[] {
  const keys = issue.path.filter((k) => typeof k !== "symbol");
  if (issue.code === "unrecognized_keys") {
    const known = keysAt(schema, keys);
    return issue.keys.slice(0, MOST_PROBLEMS).map((key) => {
      const near = nearestWord(key, known);
      const hint = near ? `did you mean "${near}"? Allowed here: ` : "";
      const offset = keyOffset(doc, keys, key);
      return problem(
        at(offset),
        pathOfKeys([...keys, key]),
        `the unknown key "${key}"`,
        `${hint}${known.join(", ")}`,
      );
    });
  }
  const value = keys.reduce<unknown>((v, k) => (v as Record<string | number, unknown> | undefined)?.[k], raw);
  const missing = value === undefined;
  const found = missing
    ? keys.length === 0
      ? "an empty file"
      : `nothing: the key "${keys.at(-1)}" is missing`
    : snippet(value);
  return [problem(at(offsetOf(doc, keys)), pathOfKeys(keys), found, allowedBy(issue))];
}

function problem(place: Place, path: string, found: string, allowed: string): FileProblem {
  const where = `${place.file}:${place.line}:${place.column}`;
  const what = path === "" ? "" : `${path}: `;
  return { ...place, path, found, allowed, message: `${where}: ${what}found ${found}; allowed: ${allowed}` };
}

function snippet(value: unknown): string {
  if (value === null) return "nothing";
  if (typeof value === "number") return Number.isNaN(value) ? "a number that is none" : String(value);
  const text = Array.isArray(value)
    ? "a list"
    : typeof value === "object"
      ? "a group of keys"
      : JSON.stringify(value);
  return text.length > 40 ? `${text.slice(0, 39)}…` : text;
}

/** Where the value stands; where it is missing, where its nearest ancestor's key (or value) does. */
function offsetOf(doc: Document, keys: Keys): number {
  for (let n = keys.length; n > 0; n--) {
    const node = doc.getIn(keys.slice(0, n), true);
    if (isNode(node) && node.range) {
      if (n === keys.length) return node.range[0];
      return keyOffset(doc, keys.slice(0, n - 1), keys[n - 1]!) ?? node.range[0];
    }
  }
  return doc.contents?.range?.[0] ?? 0;
}

function keyOffset(doc: Document, parent: Keys, key: string | number): number {
  const map = parent.length === 0 ? doc.contents : (doc.getIn(parent, true) as Node | undefined);
  if (isMap(map)) {
    for (const pair of map.items) {
      if (isPair(pair) && isScalar(pair.key) && String(pair.key.value) === String(key) && pair.key.range) {
        return pair.key.range[0];
      }
    }
  }
  const node = doc.getIn([...parent, key], true);
  return isNode(node) && node.range ? node.range[0] : (map?.range?.[0] ?? 0);
}

function unresolved(doc: Document): { readonly name: string; readonly offset: number } | null {
  let lost: { name: string; offset: number } | null = null;
  visit(doc, {
    Alias(_, alias) {
      if (alias.resolve(doc) !== undefined) return undefined;
      lost = { name: alias.source, offset: alias.range?.[0] ?? 0 };
      return visit.BREAK;
    },
  });
  return lost;
}

const brokenWords: Readonly<Record<string, string>> = {
  DUPLICATE_KEY: "a key that stands here twice",
  MULTIPLE_DOCS: "a second document",
  TAB_AS_INDENT: "a tab in the indentation",
  BAD_INDENT: "an indentation that does not fit the lines above",
  BAD_ALIAS: "an alias that cannot be read",
  MISSING_CHAR: "a bracket or quote that is not closed",
  UNEXPECTED_TOKEN: "a character that does not belong here",
  TAG_RESOLVE_FAILED: "a tag that we do not know",
};
