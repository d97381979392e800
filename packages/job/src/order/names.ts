import type { Part } from "@dryfit/joinery";

/** What fills the braces of a file's name. */
export interface NameWords {
  readonly case: string;
  readonly part: string;
  readonly material: string;
  readonly thickness: string;
  readonly count: string;
  readonly revision: string;
}

/** "lantern-base-birch-plywood-5.92mm-1x": the pattern with its words filled in, in letters that every system takes. */
export function fileName(pattern: string, words: NameWords): string {
  const filled = pattern.replace(/\{(\w+)\}/g, (_, word: string) => words[word as keyof NameWords]);
  return filled
    .normalize("NFKD")
    .replace(/[^A-Za-z0-9._-]+/g, "-")
    .replace(/-{2,}/g, "-")
    .replace(/^[-.]+|[-.]+$/g, "");
}

/** One name for parts that are the same: "slat" for slat-1, slat-2 and slat-3; the first one's otherwise. */
export function nameOfGroup(parts: readonly Part[], others: ReadonlySet<string>): string {
  const first = parts[0]!.id;
  if (parts.length === 1) return first;
  const stem = first.replace(/-\d+$/, "");
  const same = parts.every(({ id }) => id.replace(/-\d+$/, "") === stem);
  return same && !others.has(stem) ? stem : first;
}
