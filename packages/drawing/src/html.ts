import { escaped, type Markup } from "./svg.ts";

export interface Head {
  readonly title: string;
  /** Figures stand to the right. */
  readonly figures?: boolean;
}

/** A table; every cell is plain text. An empty row list gives nothing. */
export function table(heads: readonly Head[], rows: readonly (readonly string[])[]): Markup {
  if (rows.length === 0) return "";
  const cell = (tag: "td" | "th", text: string, i: number): Markup => {
    const blank = tag === "td" && text === BLANK;
    const classes = blank ? "blank" : heads[i]?.figures ? "figure" : "";
    const scope = tag === "th" ? ' scope="col"' : "";
    return `<${tag}${scope}${classes ? ` class="${classes}"` : ""}>${blank ? "" : escaped(text)}</${tag}>`;
  };
  const row = (tag: "td" | "th", cells: readonly string[]) =>
    `<tr>${cells.map((text, i) => cell(tag, text, i)).join("")}</tr>`;
  const head = row(
    "th",
    heads.map(({ title }) => title),
  );
  return `<div class="scroll"><table><thead>${head}</thead><tbody>${rows.map((cells) => row("td", cells)).join("")}</tbody></table></div>`;
}

/** A cell for the maker's pencil. */
export const BLANK = " ";

export function section(id: string, title: string, ...content: readonly Markup[]): Markup {
  const body = content.join("");
  return body === "" ? "" : `<section id="${id}"><h2>${escaped(title)}</h2>${body}</section>`;
}

export function paragraph(text: string): Markup {
  return `<p>${escaped(text)}</p>`;
}

/** Things to do, in this order. */
export function steps(items: readonly string[]): Markup {
  return items.length === 0 ? "" : `<ol class="steps">${list(items)}</ol>`;
}

/** Things to tick off. */
export function checks(items: readonly string[]): Markup {
  return items.length === 0 ? "" : `<ul class="checks">${list(items)}</ul>`;
}

function list(items: readonly string[]): Markup {
  return items.map((item) => `<li>${escaped(item)}</li>`).join("");
}
