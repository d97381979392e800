import type { Finding } from "@dryfit/joinery";
import type { Markup } from "../svg.ts";

/** A paper for the bench, before it is a page on a screen or in print. */
export interface Paper {
  readonly name: string;
  /** "Build sheet". */
  readonly subject: string;
  readonly revision: string;
  readonly verdict: { readonly pass: boolean; readonly sentence: string } | null;
  /** Of the title block: what, and its figure. */
  readonly fields: readonly (readonly [string, string])[];
  readonly sections: readonly Section[];
}

export interface Section {
  readonly id: string;
  readonly title: string;
  readonly blocks: readonly Block[];
  /** Starts a new page in print. */
  readonly newPage?: boolean;
}

export type Block =
  | { readonly kind: "paragraph"; readonly text: string }
  | { readonly kind: "title"; readonly text: string }
  /** Things to do in this order, and things to tick off. */
  | { readonly kind: "steps" | "checks"; readonly items: readonly string[] }
  | { readonly kind: "table"; readonly heads: readonly Head[]; readonly rows: readonly (readonly string[])[] }
  /** A drawing of ours as SVG; `wide`: as large as the page allows. */
  | {
      readonly kind: "drawing";
      readonly svg: Markup;
      readonly caption: string | null;
      readonly wide: boolean;
    }
  | { readonly kind: "findings"; readonly findings: readonly Finding[] }
  /** Words to type. */
  | { readonly kind: "command"; readonly text: string }
  | { readonly kind: "caution"; readonly items: readonly string[] };

export interface Head {
  readonly title: string;
  /** Figures stand to the right. */
  readonly figures?: boolean;
}

/** A cell for the maker's pencil. */
export const BLANK = " ";

/** With whatever stands in it; null where nothing does. */
export function section(id: string, title: string, ...blocks: readonly (Block | null)[]): Section | null {
  const standing = blocks.filter((block) => block !== null);
  return standing.length === 0 ? null : { id, title, blocks: standing };
}

export function sections(...all: readonly (Section | null)[]): readonly Section[] {
  return all.filter((one) => one !== null);
}

/** Null where there are no rows. */
export function table(heads: readonly Head[], rows: readonly (readonly string[])[]): Block | null {
  return rows.length === 0 ? null : { kind: "table", heads, rows };
}

export function title(text: string): Block {
  return { kind: "title", text };
}

export function paragraph(text: string): Block {
  return { kind: "paragraph", text };
}

export function steps(items: readonly string[]): Block | null {
  return items.length === 0 ? null : { kind: "steps", items };
}

export function checks(items: readonly string[]): Block | null {
  return items.length === 0 ? null : { kind: "checks", items };
}

export function drawing(svg: Markup, caption: string | null = null, wide = false): Block {
  return { kind: "drawing", svg: svg.trim(), caption, wide };
}
