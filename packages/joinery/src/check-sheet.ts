import { boundsOf } from "@dryfit/geometry";
import type { Design, SheetSize } from "./design.ts";
import type { Finding } from "./finding.ts";
import { finding, when } from "./findings.ts";
import { formatLength } from "./length.ts";
import type { Part } from "./part.ts";

/** Most that a sanded sheet's thickness varies within one sheet, mm (a birch mill's dimension table). */
const SPREAD_MM = 0.6;

/** Thickness, sizes and places to keep clear of. */
export function checkSheet({ sheet, units }: Design): Finding[] {
  const say = (mm: number): string => formatLength(mm, units);
  const { min, mean, max } = sheet.thickness;
  const ids = sheet.sizes.map((s) => s.id);
  return [
    ...when(sheet.readings.length === 1, () =>
      finding(
        "thickness_single",
        "note",
        "sheet.thickness",
        `The thickness is one number, ${say(mean)}: sheets differ from it by up to half a millimetre.`,
        { thickness: mean },
        "Measure the sheet in several places and list the readings.",
      ),
    ),
    ...when(max - min > SPREAD_MM, () =>
      finding(
        "thickness_spread",
        "warning",
        "sheet.thickness",
        `The readings differ by ${say(max - min)}; a sound sheet keeps within ${say(SPREAD_MM)}.`,
        { spread: max - min, most: SPREAD_MM },
        "Measure again away from chipped edges, or cut from the even part of the sheet.",
      ),
    ),
    ...sheet.readings.flatMap((reading, i) =>
      when(Math.abs(reading - median(sheet.readings)) > 0.1 * mean, () =>
        finding(
          "reading_odd",
          "warning",
          `sheet.thickness[${i}]`,
          `The reading ${say(reading)} is far from the middle one, ${say(median(sheet.readings))}.`,
          { reading, middle: median(sheet.readings) },
          "Measure there again.",
        ),
      ),
    ),
    ...sheet.sizes.flatMap((size, i) => [
      ...when(Math.min(...size.size) <= 2 * sheet.margin, () =>
        finding(
          "sheet_all_margin",
          "error",
          `sheet.sizes[${i}]`,
          `A margin of ${say(sheet.margin)} all round leaves nothing of a sheet of ${say(size.size[0])} × ${say(size.size[1])}.`,
          { margin: sheet.margin, x: size.size[0], y: size.size[1] },
          "Lower sheet.margin or take larger sheets.",
        ),
      ),
      ...when(ids.indexOf(size.id) !== i, () =>
        finding(
          "name_twice",
          "error",
          `sheet.sizes[${i}].id`,
          `Two sheets are called "${size.id}".`,
          {},
          "Give one of them another id.",
        ),
      ),
      ...size.avoid.flatMap(([left, bottom, width, height], j) =>
        when(left + width > size.size[0] || bottom + height > size.size[1], () =>
          finding(
            "avoid_off_sheet",
            "warning",
            `sheet.sizes[${i}].avoid[${j}]`,
            `The place to keep clear of reaches to ${say(left + width)} × ${say(bottom + height)}, outside the sheet.`,
            { right: left + width, top: bottom + height },
            "Give left, bottom, width, height from the sheet's lower left corner.",
          ),
        ),
      ),
    ]),
  ];
}

/** Whether each part can lie on some sheet, its grain along the sheet's where it has one. */
export function checkPartsOnSheets(design: Design, parts: readonly Part[]): Finding[] {
  const { sheet, units } = design;
  const say = (mm: number): string => formatLength(mm, units);
  const larger = parts.flatMap((part) => {
    const { x, y } = boundsOf(part.outline).max;
    const lies = sheet.sizes.some((size) => liesOn(part.grain, x, y, size, sheet.margin));
    return when(!lies, () => {
      const largest = sheet.sizes.reduce((a, b) => (b.size[0] * b.size[1] > a.size[0] * a.size[1] ? b : a));
      return finding(
        "panel_larger_than_sheet",
        "error",
        "sheet.sizes",
        `${part.title} is ${say(x)} × ${say(y)}; inside the margin of ${say(sheet.margin)} no sheet has room for it with its grain right (the largest is ${say(largest.size[0])} × ${say(largest.size[1])}).`,
        { x, y, sheetX: largest.size[0], sheetY: largest.size[1], margin: sheet.margin },
        "Take a larger sheet, a smaller margin or a smaller case.",
      );
    });
  });
  return [...larger, ...checkLocked(design, parts)];
}

/** Whether what is locked is there to be locked; whether it lies well is for nesting to say. */
function checkLocked({ sheet: { locked, sizes } }: Design, parts: readonly Part[]): Finding[] {
  return locked.flatMap(({ part, sheet, size }, i) => {
    const path = `sheet.locked[${i}]`;
    const named = locked.find((other) => other.sheet === sheet)!.size;
    return [
      ...when(!parts.some(({ id }) => id === part), () =>
        finding(
          "locked_unknown",
          "error",
          `${path}.part`,
          `The case has no part called "${part}" that could be locked on a sheet.`,
          {},
          `Its parts are ${parts.map(({ id }) => id).join(", ")}.`,
        ),
      ),
      ...when(locked.findIndex((other) => other.part === part) !== i, () =>
        finding(
          "name_twice",
          "error",
          `${path}.part`,
          `${part} is locked twice.`,
          {},
          "Keep one of the two.",
        ),
      ),
      ...when(!sizes.some(({ id }) => id === size), () =>
        finding(
          "locked_size",
          "error",
          `${path}.size`,
          `No sheet size is called "${size}".`,
          {},
          `The sizes are ${sizes.map(({ id }) => id).join(", ")}.`,
        ),
      ),
      ...when(size !== named, () =>
        finding(
          "locked_size",
          "error",
          `${path}.size`,
          `Sheet ${sheet} is said to be ${named} and ${size}.`,
          { sheet },
          "Name one size for each sheet.",
        ),
      ),
    ];
  });
}

function liesOn(grain: Part["grain"], x: number, y: number, size: SheetSize, margin: number): boolean {
  const [across, up] = [size.size[0] - 2 * margin, size.size[1] - 2 * margin];
  const fits = (a: number, b: number): boolean => a <= across + 1e-9 && b <= up + 1e-9;
  if (grain === "free") return fits(x, y) || fits(y, x);
  return grain === size.grain ? fits(x, y) : fits(y, x);
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)]!;
}
