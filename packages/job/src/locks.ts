import { boundsOf, placeCurve, placement } from "@dryfit/geometry";
import type { Design, Finding, Part } from "@dryfit/joinery";
import type { Lock } from "@dryfit/nest";

/** The parts that the design lays down by hand, as nesting has them. */
export function locksOf({ sheet }: Design, parts: readonly Part[]): readonly Lock[] {
  return sheet.locked.flatMap(({ part: id, sheet: number, size, x, y, turn }) => {
    const part = parts.find((each) => each.id === id);
    if (!part) return [];
    const turned = { quarters: (turn / 90) as 0 | 1 | 2 | 3 };
    const { min } = boundsOf(placeCurve(placement<"sheet", "panel">({ x: 0, y: 0 }, turned), part.outline));
    return [
      {
        part: id,
        sheet: number,
        stock: size,
        placement: placement<"sheet", "panel">({ x: x - min.x, y: y - min.y }, turned),
      },
    ];
  });
}

/** What is wrong with how a locked part lies, said at the place where the design locks it. */
export function toldOfLocks(findings: readonly Finding[], { sheet }: Design): readonly Finding[] {
  return findings.map((finding) => {
    const index = LYING.has(finding.code) ? sheet.locked.findIndex(({ part }) => part === finding.path) : -1;
    if (index < 0) return finding;
    const wayOut = finding.wayOut ?? "Move it, or take its lock away and it is nested like the others.";
    return { ...finding, path: `sheet.locked[${index}]`, wayOut };
  });
}

/** Places on a design's own sheets mean nothing where others lay the parts; `where` says who. */
export function locksLeftOut({ sheet }: Design, where: string): readonly Finding[] {
  if (sheet.locked.length === 0) return [];
  return [
    {
      code: "locks_left_out",
      severity: "note",
      path: "sheet.locked",
      message: `Parts that are locked in their places lie anywhere ${where}`,
      numbers: { locked: sheet.locked.length },
    },
  ];
}

/** Codes with which nesting says how a part lies. */
const LYING: ReadonlySet<string> = new Set([
  "grain_turned",
  "keep_out_hit",
  "locked_sheet_moved",
  "locked_stock_missing",
  "margin_cut",
  "parts_too_close",
  "wrong_material",
]);
