import { length } from "./lettering.ts";
import {
  type Block,
  checks,
  type Paper,
  paragraph,
  type Section,
  section,
  sections,
  steps,
  table,
} from "./paper/block.ts";

/** One width or depth that is tried; mm. */
interface Trial {
  readonly letter: string;
  readonly size: number;
  readonly clearance: number;
  readonly now: boolean;
}

export interface CouponSheetData {
  readonly name: string;
  readonly revision: string;
  /** Null where tongues are as thick as the sheet: then only slots are tried. */
  readonly tongue: { readonly thickness: number; readonly length: number } | null;
  /** Mean of the sheet, mm. */
  readonly thickness: number;
  readonly widths: readonly Trial[];
  readonly depths: readonly Trial[];
  readonly kerfs: readonly Trial[];
}

/** How to try a coupon, what each letter stands for, and what to type afterwards. */
export function couponSheet(data: CouponSheetData): Paper {
  const { name, revision, tongue } = data;
  return {
    name,
    subject: "Fit coupon",
    revision,
    verdict: null,
    fields: [
      ...(tongue === null
        ? []
        : ([
            ["tongue", `${length(tongue.thickness)} × ${length(tongue.length)} mm`],
            [
              "air now, beside and under",
              `${length(nowOf(data.widths), 3)} and ${length(nowOf(data.depths), 3)} mm`,
            ],
          ] as const)),
      ["sheet, mean", `${length(data.thickness)} mm`],
    ],
    sections: sections(
      ...(tongue === null ? [] : [how(), widths(data, tongue.thickness), depths(data, tongue.length)]),
      kerfs(data),
      then(name, tongue !== null),
      cautions(),
    ),
  };
}

function nowOf(trials: readonly Trial[]): number {
  return trials.find(({ now }) => now)!.clearance;
}

function how(): Section | null {
  return section(
    "how",
    "How to try it",
    steps([
      "Cut it from an offcut of the same sheet, with the cutter and the machine that will cut the case. Take its readings with a caliper while you are there.",
      "Clean the edges as you will clean the case's: no more, or the tongue comes out thinner than the case's will.",
      "The cut-off corner is next to A. Housings run on from it in the order of the alphabet: upright ones across the face grain first, level ones along it above.",
      "Push the tongue in by hand, shoulder to the face. The right letter goes home with a firm push, stands by itself, and comes out again without a tool. Glue will swell it a little.",
      "Try both tongues, the one along the grain and the one across it. Where two letters are right, or the rows differ, take the later letter.",
    ]),
  );
}

function widths({ widths: trials }: CouponSheetData, thickness: number): Section | null {
  return section(
    "widths",
    "Widths",
    paragraph(
      `The tongue is ${length(thickness)} mm thick. Each housing is 0.05 mm wider than the one before.`,
    ),
    trialTable("housing is wide", "air on each side", trials, 3),
  );
}

function depths({ depths: trials }: CouponSheetData, long: number): Section | null {
  return section(
    "depths",
    "Depths",
    paragraph(
      `The tongue is ${length(long)} mm long. The right depth is the first in which the shoulder closes all round; measure it with the caliper's depth rod, too: what differs from the table is your machine's zero.`,
    ),
    trialTable("housing is deep", "air under the tongue", trials),
  );
}

function kerfs({ kerfs: trials }: CouponSheetData): Section | null {
  return section(
    "kerf",
    "For a laser: kerf",
    paragraph(
      "dxf/parts/coupon-kerf.dxf has slots drawn as they are, with no kerf allowed for. Push the edge of the same sheet into them: the letter that fits tells the kerf (dryfit fit … --kerf E --service laser-service.yaml).",
    ),
    trialTable("slot is drawn", "kerf where it fits", trials),
  );
}

function trialTable(size: string, stands: string, trials: readonly Trial[], digits = 2): Block | null {
  return table(
    [
      { title: "letter" },
      { title: `${size}, mm`, figures: true },
      { title: `${stands}, mm`, figures: true },
      { title: "" },
    ],
    trials.map(({ letter, size: mm, clearance, now }) => [
      letter,
      length(mm, 2),
      length(clearance, digits),
      now ? "as the design has it now" : "",
    ]),
  );
}

function then(name: string, isHoused: boolean): Section | null {
  return section(
    "then",
    "Then",
    paragraph("Give the letters back, and everything that is made from now on follows them; for example:"),
    {
      kind: "command",
      text: `dryfit fit ${name}.yaml --coupon FOLDER ${isHoused ? "--width C --depth Q" : "--kerf E --service FILE"} --readings 14.7,14.8,14.8,14.9`,
    },
    checks([
      ...(isHoused ? ["letter for the width", "letter for the depth"] : []),
      "letter for the kerf",
      "readings of the sheet",
    ]),
  );
}

function cautions(): Section | null {
  return section(
    "cautions",
    "Cautions",
    paragraph(
      "Small pieces are hard to hold: clamp or screw the offcut well outside the cut, and keep hands off while the cutter turns. Eye and ear protection, extraction, a mask for fine dust; a laser's fumes from plywood's glue must be drawn off. Local rules come before this paper.",
    ),
  );
}
