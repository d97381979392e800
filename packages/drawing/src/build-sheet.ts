import type { Finding } from "@dryfit/joinery";
import { dryFitSection, glueSection, jointSection, orderSection } from "./build-assembly.ts";
import { count, cutListSection, cuttingSection, sheetDrawings } from "./build-cutting.ts";
import type { BuildSheetData } from "./build-data.ts";
import { cautionSection, finishSection, hardwareSection } from "./build-finish.ts";
import { caseDrawing } from "./case.ts";
import { explodedDrawing } from "./exploded.ts";
import { section } from "./html.ts";
import { length } from "./lettering.ts";
import { pageStyle } from "./page-style.ts";
import { escaped, type Markup } from "./svg.ts";

/** The paper for the bench: one page that opens from disk and prints, with everything from cut to finish. */
export function buildSheetHtml(data: BuildSheetData): string {
  const { assembly, revision, material, thickness, verdict } = data;
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8"/>
<meta name="viewport" content="width=device-width, initial-scale=1"/>
<title>${escaped(`${assembly.name}: build sheet, revision ${revision}`)}</title>
<style>${pageStyle()}</style>
</head>
<body>
<main>
${[
  titleBlock(data),
  findingSection(data.findings),
  section("parts-apart", "The parts", `<figure>${explodedDrawing(assembly).trim()}</figure>`),
  section(
    "case",
    "The case",
    `<figure class="wide">${caseDrawing(assembly, { revision, material, thickness, verdict }).trim()}</figure>`,
  ),
  cutListSection(data),
  sheetDrawings(data),
  cuttingSection(data),
  hardwareSection(data),
  jointSection(data),
  orderSection(data),
  dryFitSection(data),
  glueSection(data),
  finishSection(data),
  cautionSection(data),
]
  .filter(Boolean)
  .join("\n")}
</main>
</body>
</html>
`;
}

function titleBlock(data: BuildSheetData): Markup {
  const { assembly, verdict } = data;
  const { width, depth, height } = assembly.outside;
  const minutes = data.programs.reduce((sum, program) => sum + program.minutes, 0);
  const fields: readonly (readonly [string, string])[] = [
    ["material", data.material],
    ["thickness as measured", data.thickness],
    ["outside, feet included", `${length(width)} × ${length(depth)} × ${length(height)} mm`],
    ["inside", `${length(assembly.inside.width)} × ${length(assembly.inside.depth)} mm`],
    ["parts", String(assembly.parts.length)],
    ["sheets", String(data.sheets.length)],
    ["cutting", `${count(data.programs.length, "program")}, ${length(minutes, 0)} min`],
    ["revision", data.revision],
  ];
  return `<header class="block">
<p class="verdict">${verdictMark(verdict.pass)}<span>${escaped(verdict.sentence)}</span></p>
<h1 class="name">${escaped(assembly.name)}</h1>
<p class="subject">Build sheet</p>
${fields.map(([caption, text]) => `<p><small>${escaped(caption)}</small>${escaped(text)}</p>`).join("\n")}
</header>`;
}

/** A disc with a tick, or a square with a cross: told apart without colour. */
function verdictMark(pass: boolean): Markup {
  const shape = pass
    ? `<circle class="proved" cx="10" cy="10" r="9"/><path d="M5.8 10.3l2.9 3.2l5.6 -7"/>`
    : `<rect class="refused" x="1" y="1" width="18" height="18"/><path d="M6 6l8 8m0 -8l-8 8"/>`;
  return `<svg class="mark" viewBox="0 0 20 20" role="img" aria-label="${pass ? "proved" : "not proved"}">${shape}</svg>`;
}

/** Warnings before notes, each with its way out, numbered as on the drawings. */
function findingSection(findings: readonly Finding[]): Markup {
  const weight = { error: 0, warning: 1, note: 2 } as const;
  const sorted = [...findings].sort((a, b) => weight[a.severity] - weight[b.severity]);
  const items = sorted.map(({ severity, message, wayOut, path }, i) => {
    const more = wayOut === undefined ? "" : ` ${escaped(wayOut)}`;
    return `<li><span class="balloon ${severity}" title="${severity}">${i + 1}</span><span>${escaped(message)}${more} <small>(${escaped(`${severity}: ${path}`)})</small></span></li>`;
  });
  return section(
    "findings",
    "Know before you cut",
    items.length === 0 ? "" : `<ul class="findings">${items.join("")}</ul>`,
  );
}
