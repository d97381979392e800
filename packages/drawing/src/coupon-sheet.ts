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

interface CouponPlate {
  readonly part: string;
  readonly way: "climb" | "conventional";
  readonly now: boolean;
}

export interface CouponSheetData {
  readonly name: string;
  readonly revision: string;
  /** Null where tongues are as thick as the sheet: then only slots are tried. */
  readonly tongue: { readonly thickness: number; readonly length: number } | null;
  /** Mean of the sheet, mm. */
  readonly thickness: number;
  /** How the plates of housings are cut; `now`: the way that everything else is cut. Empty where none is. */
  readonly plates: readonly CouponPlate[];
  /** How the parts are cut: decides on what is told of programs, or of templates. */
  readonly by: "program" | "template";
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
      ...(tongue === null
        ? []
        : [how(data), plates(data), widths(data, tongue.thickness), depths(data, tongue.length)]),
      kerfs(data),
      then(data),
      cautions(),
    ),
  };
}

function nowOf(trials: readonly Trial[]): number {
  return trials.find(({ now }) => now)!.clearance;
}

function how({ by }: CouponSheetData): Section | null {
  const cut =
    by === "program"
      ? "Cut it from an offcut of the same sheet, with the cutter and the machine that will cut the case."
      : "Rout it in an offcut of the same sheet, with the cutter, the bush and the router that will rout the case: settings.pdf has every step.";
  return section(
    "how",
    "How to try it",
    steps([
      `${cut} Take its readings with a caliper while you are there.`,
      "Clean the edges as you will clean the case's: no more, or the tongue comes out thinner than the case's will.",
      `${by === "program" ? "The cut-off corner is next to A." : "A is next to the lower left corner of the plate."} Housings run on from it in the order of the alphabet: upright ones across the face grain first, then the depths, level ones along it above.`,
      "Push the tongue in by hand, shoulder to the face. The right letter goes home with a firm push, stands by itself, and comes out again without a tool. Glue will swell it a little.",
      "Try both tongues, the one along the grain and the one across it. Where two letters are right, or the rows differ, take the later letter.",
    ]),
  );
}

/** Which plate is cut which way, and what that may tell. */
function plates({ plates: tried }: CouponSheetData): Section | null {
  if (tried.length < 2) return null;
  return section(
    "plates",
    "Both ways of cutting",
    table(
      [{ title: "plate" }, { title: "corners cut off" }, { title: "the cutter goes" }, { title: "" }],
      tried.map(({ part, way, now }) => [
        part,
        way === "climb" ? "one, next to A" : "two, next to A and above it",
        way === "climb" ? "with the wood on its right: climb" : "with the wood on its left: conventional",
        now ? "as your machine file has it" : "the other way",
      ]),
    ),
    paragraph(
      "A cutter bends away from the wall in climb and into it in conventional: the same program then leaves another width, and another face on the veneer. Try the tongue in both plates. The letter counts that fits in the plate of your machine file's way; where the other plate is the cleaner one, take its letter and give its way back with it (--direction).",
    ),
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
  if (trials.length === 0) return null;
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

function then({ name, tongue, plates: tried, kerfs }: CouponSheetData): Section | null {
  const isHoused = tongue !== null;
  const other = tried.length > 1 ? tried.find(({ now }) => !now) : undefined;
  return section(
    "then",
    "Then",
    paragraph("Give the letters back, and everything that is made from now on follows them; for example:"),
    {
      kind: "command",
      text: `dryfit fit ${name}.yaml --coupon FOLDER ${isHoused ? "--width C --depth Q" : "--kerf E --service FILE"} --readings 14.7,14.8,14.8,14.9`,
    },
    other === undefined
      ? null
      : {
          kind: "command",
          text: `dryfit fit ${name}.yaml --coupon FOLDER --width C --direction ${other.way} --machine MACHINE.yaml`,
        },
    checks([
      ...(isHoused ? ["letter for the width", "letter for the depth"] : []),
      ...(other === undefined ? [] : ["way of cutting, climb or conventional"]),
      ...(kerfs.length > 0 ? ["letter for the kerf"] : []),
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
