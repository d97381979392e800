import type { z } from "zod";

type Issue = z.core.$ZodIssue;

/** What a schema allows at the place of an issue, in words. A message of the schema's own goes first. */
export function allowedBy(issue: Issue): string {
  if (!/^(Invalid|Too|Unrecognized)\b/.test(issue.message)) return issue.message;
  if (issue.code === "invalid_type") return kinds[issue.expected] ?? issue.expected;
  if (issue.code === "invalid_value") return issue.values.map((v) => JSON.stringify(v)).join(", ");
  if (issue.code === "too_small") {
    return `${unitOf(issue.origin)}${issue.inclusive === false ? "more than" : "at least"} ${issue.minimum}`;
  }
  if (issue.code === "too_big") {
    return `${unitOf(issue.origin)}${issue.inclusive === false ? "less than" : "at most"} ${issue.maximum}`;
  }
  if (issue.code === "not_multiple_of") return `a multiple of ${issue.divisor}`;
  if (issue.code === "invalid_union") {
    const words = issue.errors.flatMap((branch) => branch.slice(0, 1).map(allowedBy));
    return [...new Set(words)].join(", or ") || "something else";
  }
  return issue.message;
}

/** The keys that a schema knows at a path, whatever stands around them (optional, default, list, choice). */
export function keysAt(schema: z.core.$ZodType, path: readonly (string | number)[]): string[] {
  const found = path.reduce<z.core.$ZodType[]>(
    (level, key) => level.flatMap((s) => inner(s)).flatMap((s) => child(s, key)),
    [schema],
  );
  return [...new Set(found.flatMap((s) => inner(s)).flatMap((s) => Object.keys(shapeOf(s) ?? {})))];
}

interface Def {
  readonly type: string;
  readonly innerType?: z.core.$ZodType;
  readonly in?: z.core.$ZodType;
  readonly out?: z.core.$ZodType;
  readonly options?: readonly z.core.$ZodType[];
  readonly element?: z.core.$ZodType;
  readonly items?: readonly z.core.$ZodType[];
  readonly valueType?: z.core.$ZodType;
  readonly shape?: Readonly<Record<string, z.core.$ZodType>>;
}

function defOf(schema: z.core.$ZodType): Def {
  return schema._zod.def as unknown as Def;
}

function shapeOf(schema: z.core.$ZodType): Readonly<Record<string, z.core.$ZodType>> | undefined {
  return defOf(schema).shape;
}

/** The schemas under wrappers and choices. */
function inner(schema: z.core.$ZodType): z.core.$ZodType[] {
  const def = defOf(schema);
  if (def.innerType) return inner(def.innerType);
  // Of a pipe, the side that is not a mere function.
  if (def.in && def.out)
    return [def.in, def.out]
      .filter((s) => defOf(s).type !== "transform")
      .slice(0, 1)
      .flatMap(inner);
  if (def.options) return def.options.flatMap(inner);
  return [schema];
}

function child(schema: z.core.$ZodType, key: string | number): z.core.$ZodType[] {
  const def = defOf(schema);
  const next = def.shape?.[key] ?? def.element ?? def.items?.[Number(key)] ?? def.valueType;
  return next ? [next] : [];
}

function unitOf(origin: string): string {
  return origin === "array" ? "a list of " : origin === "string" ? "text of letters, " : "";
}

const kinds: Readonly<Record<string, string>> = {
  number: "a number",
  int: "a whole number",
  string: "text",
  boolean: "true or false",
  object: "a group of keys",
  record: "a group of keys",
  array: "a list",
  tuple: "a list",
  null: "nothing",
};
