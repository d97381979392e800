import { length } from "./lettering.ts";
import {
  BLANK,
  type Block,
  checks,
  drawing,
  type Paper,
  paragraph,
  type Section,
  section,
  sections,
  steps,
  table,
  title,
} from "./paper/block.ts";
import type { SawLine, SawPlanData, SawSheetData } from "./saw-data.ts";
import { sawSheetSvg } from "./saw-sheet.ts";

/** The saw plan for the bench: every sheet drawn, every cut in order with what is left, and what to keep in mind. */
export function sawPlan(plan: SawPlanData): Paper {
  const { name, revision, sheets } = plan;
  const cuts = sheets.reduce((sum, sheet) => sum + sheet.cuts.length, 0);
  return {
    name,
    subject: "Saw plan",
    revision,
    verdict: null,
    fields: [
      ["material", `${plan.material}, ${plan.thickness}`],
      ["blade; off every edge", `${plan.kerf}; ${plan.trim}`],
      ["cuts; settings of the fence", `${cuts}; ${plan.settings}`],
    ],
    sections: sections(
      told(plan),
      how(),
      ...sheets.map((sheet) => sheetSection(plan, sheet)),
      blanks(plan),
      cautions(),
    ),
  };
}

function told({ findings }: SawPlanData): Section | null {
  return section("findings", "To know before you start", checks(findings));
}

function how(): Section | null {
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

function sheetSection(plan: SawPlanData, sheet: SawSheetData): Section {
  const words = `${sheet.id.replace(/^s/, "S").replace("-", " ")}: ${length(sheet.size[0])} × ${length(sheet.size[1])} mm, ${length(100 * sheet.yield)} % used`;
  const stages = [...new Set(sheet.cuts.map(({ stage }) => stage))];
  const lists = stages.flatMap((stage) =>
    stageList(
      stage,
      sheet.cuts.filter((cut) => cut.stage === stage),
    ),
  );
  const blocks = [drawing(sawSheetSvg(plan, sheet), null, true), ...lists, keep(sheet)];
  return { ...section(sheet.id, words, ...blocks)!, newPage: sheet !== plan.sheets[0] };
}

const STAGES = ["Edges", "Strips", "Lengths", "Narrower once more", "Shorter once more"] as const;

function stageList(stage: number, cuts: readonly SawLine[]): readonly (Block | null)[] {
  const heads = [
    { title: "cut" },
    { title: "done" },
    { title: "board" },
    { title: "set the fence to", figures: true },
    { title: "" },
    { title: "gives" },
    { title: "left of the board", figures: true },
  ];
  return [title(STAGES[stage] ?? "Further"), table(heads, cuts.map(row))];
}

function row({ number, board, setting, grain, gives, left }: SawLine): readonly string[] {
  const way = grain === "along" ? "rip" : "crosscut";
  return [String(number), BLANK, board, setting ?? "as it is", way, gives ?? "waste", left ?? "nothing"];
}

function keep({ rests }: SawSheetData): Block | null {
  if (rests.length === 0) return null;
  return paragraph(`To keep: ${rests.map(({ words }) => words).join(", ")}.`);
}

function blanks({ sheets }: SawPlanData): Section | null {
  return section(
    "blanks",
    "Blanks",
    checks(sheets.flatMap((sheet) => sheet.blanks.map(({ id, words }) => `${id}: ${words}`))),
    paragraph("Measure both diagonals of the largest: they must be equal."),
  );
}

function cautions(): Section | null {
  return section(
    "cautions",
    "Cautions",
    paragraph(
      "Saws maim in a moment. Read the saw's manual; riving knife and guard on; push sticks where a strip is narrow; the sheet carried on both sides of the blade, so that nothing pinches it. Plug out before the blade is touched. Eye and ear protection, extraction, a mask for fine dust. Never saw a length between fence and mitre guide. Local rules come before this paper.",
    ),
  );
}
