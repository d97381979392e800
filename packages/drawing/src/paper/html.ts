import type { Finding } from "@dryfit/joinery";
import { pageStyle } from "../page-style.ts";
import { escaped, type Markup } from "../svg.ts";
import { BLANK, type Block, type Head, type Paper, type Section } from "./block.ts";

/** The paper as one page that opens from disk and prints. */
export function paperHtml(paper: Paper): string {
  const { name, subject, revision } = paper;
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8"/>
<meta name="viewport" content="width=device-width, initial-scale=1"/>
<title>${escaped(`${name}: ${subject.toLowerCase()}, revision ${revision}`)}</title>
<style>${pageStyle()}</style>
</head>
<body>
<main>
${[titleBlock(paper), ...paper.sections.map(sectionHtml)].join("\n")}
</main>
</body>
</html>
`;
}

function titleBlock({ name, subject, verdict, fields, revision }: Paper): Markup {
  const all = [...fields, ["revision", revision]] as const;
  return `<header class="block">
${verdict === null ? "" : `<p class="verdict">${verdictMark(verdict.pass)}<span>${escaped(verdict.sentence)}</span></p>\n`}<h1 class="name">${escaped(name)}</h1>
<p class="subject">${escaped(subject)}</p>
${all.map(([caption, text]) => `<p><small>${escaped(caption)}</small>${escaped(text)}</p>`).join("\n")}
</header>`;
}

/** A disc with a tick, or a square with a cross: told apart without colour. */
function verdictMark(pass: boolean): Markup {
  const shape = pass
    ? `<circle class="proved" cx="10" cy="10" r="9"/><path d="M5.8 10.3l2.9 3.2l5.6 -7"/>`
    : `<rect class="refused" x="1" y="1" width="18" height="18"/><path d="M6 6l8 8m0 -8l-8 8"/>`;
  return `<svg class="mark" viewBox="0 0 20 20" role="img" aria-label="${pass ? "proved" : "not proved"}">${shape}</svg>`;
}

function sectionHtml({ id, title, blocks, newPage }: Section): Markup {
  const classes = newPage ? ' class="page"' : "";
  return `<section id="${escaped(id)}"${classes}><h2>${escaped(title)}</h2>${blocks.map(blockHtml).join("")}</section>`;
}

function blockHtml(block: Block): Markup {
  switch (block.kind) {
    case "paragraph":
      return `<p>${escaped(block.text)}</p>`;
    case "title":
      return `<h3>${escaped(block.text)}</h3>`;
    case "steps":
      return `<ol class="steps">${list(block.items)}</ol>`;
    case "checks":
      return `<ul class="checks">${list(block.items)}</ul>`;
    case "table":
      return tableHtml(block.heads, block.rows);
    case "drawing": {
      const caption = block.caption === null ? "" : `<figcaption>${escaped(block.caption)}</figcaption>`;
      return `<figure${block.wide ? ' class="wide"' : ""}>${block.svg}${caption}</figure>`;
    }
    case "findings":
      return `<ul class="findings">${block.findings.map(findingHtml).join("")}</ul>`;
    case "command":
      return `<pre>${escaped(block.text)}</pre>`;
    case "caution":
      return `<div class="caution"><ul class="checks">${list(block.items)}</ul></div>`;
  }
}

function list(items: readonly string[]): Markup {
  return items.map((item) => `<li>${escaped(item)}</li>`).join("");
}

/** Numbered as on the drawings. */
function findingHtml({ severity, message, wayOut, path }: Finding, i: number): Markup {
  const more = wayOut === undefined ? "" : ` ${escaped(wayOut)}`;
  return `<li><span class="balloon ${severity}" title="${severity}">${i + 1}</span><span>${escaped(message)}${more} <small>(${escaped(`${severity}: ${path}`)})</small></span></li>`;
}

function tableHtml(heads: readonly Head[], rows: readonly (readonly string[])[]): Markup {
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
