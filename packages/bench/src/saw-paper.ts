import {
  type SawBox,
  type SawLine,
  type SawPlanData,
  type SawSheetData,
  thicknessWords,
} from "@dryfit/drawing";
import { SAME_POINT_MM } from "@dryfit/geometry";
import { type Design, type Finding, formatLength } from "@dryfit/joinery";
import type { Board, SawCut, SawPlan, SawRules, SawSheet } from "@dryfit/nest";

/** A saw plan in words and lines, for its papers. */
export function sawPaper(
  design: Design,
  plan: SawPlan,
  rules: SawRules,
  { revision, findings }: { readonly revision: string; readonly findings: readonly Finding[] },
): SawPlanData {
  const words = measuresIn(design.units);
  const sheets = plan.sheets.map((sheet) => sheetData(sheet, rules, words));
  return {
    name: design.name,
    revision,
    material: design.sheet.name,
    thickness: thicknessWords(design.sheet.thickness),
    kerf: `${plain(rules.kerf)} mm`,
    trim: `${plain(rules.trim)} mm`,
    settings: sheets.reduce(
      (sum, { cuts }) => sum + cuts.filter(({ stage, setting }) => stage > 0 && setting !== null).length,
      0,
    ),
    sheets,
    findings: findings.map(({ message, wayOut }) => (wayOut ? `${message} ${wayOut}` : message)),
  };
}

/** How lengths and sizes are written: in inches with millimetres behind them, where the design is in inches. */
interface Measures {
  readonly length: (mm: number) => string;
  readonly size: (box: SawBox) => string;
}

function measuresIn(units: Design["units"]): Measures {
  if (units === "mm")
    return { length: (mm) => plain(mm, 1), size: ({ w, h }) => `${plain(w, 1)} × ${plain(h, 1)}` };
  const inches = (mm: number): string => formatLength(mm, "in").replace(/ in$/, "″");
  return {
    length: (mm) => `${inches(mm)} (${plain(mm, 1)} mm)`,
    size: ({ w, h }) => `${inches(w)} × ${inches(h)}`,
  };
}

function sheetData(
  { id, stock, blanks, cuts, rests }: SawSheet,
  rules: SawRules,
  words: Measures,
): SawSheetData {
  const boards = new Map<string, SawBox>([[id, { x: 0, y: 0, w: stock.size[0], h: stock.size[1] }]]);
  let last: number | null = null;
  const lines = cuts.map((cut, k): SawLine => {
    const board = boards.get(cut.board)!;
    for (const part of [cut.near, cut.far]) if (part) boards.set(part.name, part);
    const same = last !== null && Math.abs(last - cut.setting) <= SAME_POINT_MM;
    last = cut.stage === 0 ? null : cut.setting;
    return {
      number: k + 1,
      stage: cut.stage,
      path: bladePath(board, cut, rules.kerf),
      axis: cut.axis,
      board: cut.board,
      setting: settingWords(cut, rules, same, words),
      grain: cut.grain,
      gives: cut.near ? given(cut.near, words) : null,
      left: cut.far ? given(cut.far, words) : null,
    };
  });
  const area = blanks.reduce((sum, { w, h }) => sum + w * h, 0);
  return {
    id,
    size: stock.size,
    grain: stock.grain,
    blanks: blanks.map((blank) => ({ ...blank, words: words.size(blank) })),
    rests: rests.map((rest) => ({ ...rest, words: words.size(rest) })),
    avoid: stock.keepOuts.map(({ outer }) => {
      const [low, , high] = outer.vertices;
      return { x: low!.x, y: low!.y, w: high!.x - low!.x, h: high!.y - low!.y };
    }),
    cuts: lines,
    yield: area / (stock.size[0] * stock.size[1]),
  };
}

function settingWords(cut: SawCut, { trim }: SawRules, same: boolean, words: Measures): string | null {
  if (cut.stage === 0) return `${words.length(trim)} off, blade and all`;
  return same ? null : words.length(cut.setting);
}

function given(board: Board, words: Measures): string {
  return `${board.name}, ${words.size(board)}`;
}

function bladePath(board: SawBox, { axis, at }: SawCut, kerf: number): SawBox {
  return axis === "x"
    ? { x: at, y: board.y, w: kerf, h: board.h }
    : { x: board.x, y: at, w: board.w, h: kerf };
}

function plain(value: number, decimals = 2): string {
  return String(Number(value.toFixed(decimals)) + 0);
}
