import { BLANK, checks, paragraph, section, steps, table } from "./html.ts";
import { length } from "./lettering.ts";
import { pageStyle } from "./page-style.ts";
import type { SawLine, SawPlanData, SawSheetData } from "./saw-data.ts";
import { sawSheetSvg } from "./saw-sheet.ts";
import { escaped, type Markup } from "./svg.ts";

/** The saw plan for the bench: every sheet drawn, every cut in order with what is left, and what to keep in mind. */
export function sawPlanHtml(plan: SawPlanData): string {
  const { name, revision, sheets } = plan;
  const cuts = sheets.reduce((sum, sheet) => sum + sheet.cuts.length, 0);
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8"/>
<meta name="viewport" content="width=device-width, initial-scale=1"/>
<title>${escaped(`${name}: saw plan, revision ${revision}`)}</title>
<style>${pageStyle()}
@media print { section.sheet + section.sheet { break-before: page; } }</style>
</head>
<body>
<main>
<header class="block">
<h1 class="name">${escaped(name)}</h1>
<p class="subject">Saw plan</p>
<p><small>material</small>${escaped(plan.material)}, ${escaped(plan.thickness)}</p>
<p><small>blade; off every edge</small>${escaped(plan.kerf)}; ${escaped(plan.trim)}</p>
<p><small>cuts; settings of the fence</small>${cuts}; ${plan.settings}</p>
<p><small>revision</small>${escaped(revision)}</p>
</header>
${[told(plan), how(), ...sheets.map((sheet) => sheetSection(plan, sheet)), blanks(plan), cautions()].filter(Boolean).join("\n")}
</main>
</body>
</html>
`;
}

function told({ findings }: SawPlanData): Markup {
  return section("findings", "To know before you start", checks(findings));
}

function how(): Markup {
  return section(
    "how",
    "How to read it",
    steps([
      "Measure your blade's cut in a scrap. If it differs from the figure above by more than 0.2 mm, make the plan again with yours.",
      "Every cut goes right across its board. The fence is set to the figure; what lies between fence and blade is what the cut gives, the blade's width is lost on the other side.",
      "Strips first, then lengths, then what is sawn narrower once more. Where it says “as it is”, leave the fence: what comes from one setting is the same, whatever the rule says. A rip runs along the face grain, a crosscut across it.",
      "Write its name on every board as it falls, on face A. What is left of a board keeps the board's name.",
    ]),
  );
}

function sheetSection(plan: SawPlanData, sheet: SawSheetData): Markup {
  const title = `${sheet.id.replace(/^s/, "S").replace("-", " ")}: ${length(sheet.size[0])} × ${length(sheet.size[1])} mm, ${length(100 * sheet.yield)} % used`;
  const stages = [...new Set(sheet.cuts.map(({ stage }) => stage))];
  const lists = stages.map((stage) =>
    stageList(
      stage,
      sheet.cuts.filter((cut) => cut.stage === stage),
    ),
  );
  return `<section class="sheet" id="${escaped(sheet.id)}"><h2>${escaped(title)}</h2><figure class="wide">${sawSheetSvg(plan, sheet).trim()}</figure>${lists.join("")}${keep(sheet)}</section>`;
}

const STAGES = ["Edges", "Strips", "Lengths", "Narrower once more", "Shorter once more"] as const;

function stageList(stage: number, cuts: readonly SawLine[]): Markup {
  const heads = [
    { title: "cut" },
    { title: "done" },
    { title: "board" },
    { title: "set the fence to", figures: true },
    { title: "" },
    { title: "gives" },
    { title: "left of the board", figures: true },
  ];
  return `<h3>${STAGES[stage] ?? "Further"}</h3>${table(heads, cuts.map(row))}`;
}

function row({ number, board, setting, grain, gives, left }: SawLine): readonly string[] {
  const way = grain === "along" ? "rip" : "crosscut";
  return [String(number), BLANK, board, setting ?? "as it is", way, gives ?? "waste", left ?? "nothing"];
}

function keep({ rests }: SawSheetData): Markup {
  if (rests.length === 0) return "";
  return paragraph(`To keep: ${rests.map(({ words }) => words).join(", ")}.`);
}

function blanks({ sheets }: SawPlanData): Markup {
  return section(
    "blanks",
    "Blanks",
    checks(sheets.flatMap((sheet) => sheet.blanks.map(({ id, words }) => `${id}: ${words}`))),
    paragraph("Measure both diagonals of the largest: they must be equal."),
  );
}

function cautions(): Markup {
  return section(
    "cautions",
    "Cautions",
    paragraph(
      "Saws maim in a moment. Read the saw's manual; riving knife and guard on; push sticks where a strip is narrow; the sheet carried on both sides of the blade, so that nothing pinches it. Plug out before the blade is touched. Eye and ear protection, extraction, a mask for fine dust. Never saw a length between fence and mitre guide. Local rules come before this paper.",
    ),
  );
}
