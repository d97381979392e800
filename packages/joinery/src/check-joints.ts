import { CONTACT_MM, GLUE_LINE_MM, SAME_POINT_MM } from "@dryfit/geometry";
import { checkLayers } from "./check-layers.ts";
import type { Design } from "./design.ts";
import type { Finding } from "./finding.ts";
import { finding, when } from "./findings.ts";
import { formatLength } from "./length.ts";
import { type CaseNumbers, fullStyleOverhang } from "./numbers.ts";

/** Thinner tongues break while they are handled, mm; common practice, no source. */
const THINNEST_TONGUE_MM = 3;

/** The narrowest shoulder that closes a joint, mm; common practice, no source. */
const NARROWEST_SHOULDER_MM = 2;

/** Least wood that should stay behind a housing, mm: three or four plies (common practice). */
const BEHIND_MM = 4;

/** Tongues, housings, clearances and the cutter, by arithmetic alone. */
export function checkJoints(design: Design, numbers: CaseNumbers): Finding[] {
  if (design.layers) {
    return [
      ...checkLayers(design, numbers, design.layers),
      ...checkClearance(design, numbers),
      ...checkStop(design, numbers),
    ];
  }
  return [
    ...checkTongue(design, numbers),
    ...checkHousing(design, numbers),
    ...checkClearance(design, numbers),
    ...checkStop(design, numbers),
    railStyleNote(design, numbers),
  ];
}

function checkTongue({ joint, sheet, units }: Design, numbers: CaseNumbers): Finding[] {
  const say = (mm: number): string => formatLength(mm, units);
  const { thickness: k, length: l } = joint.tongue;
  const broken = k < THINNEST_TONGUE_MM || k < numbers.t / 4;
  const shoulder = sheet.thickness.min - k;
  return [
    ...when(k < numbers.t / 3 || k < THINNEST_TONGUE_MM, () =>
      finding(
        "tongue_thin",
        broken ? "error" : "warning",
        "joint.tongue.thickness",
        `A tongue of ${say(k)} on a sheet of ${say(numbers.t)}; a third to a half of the thickness holds.`,
        { tongue: k, thickness: numbers.t, least: Math.max(THINNEST_TONGUE_MM, numbers.t / 3) },
        `Make it ${say(Math.ceil(numbers.t / 3))} or more.`,
      ),
    ),
    ...when(shoulder < NARROWEST_SHOULDER_MM, () =>
      finding(
        "tongue_thick",
        "error",
        "joint.tongue.thickness",
        `A tongue of ${say(k)} leaves a shoulder of ${say(shoulder)} where the sheet is thinnest; ${say(NARROWEST_SHOULDER_MM)} is the least.`,
        { tongue: k, shoulder, least: NARROWEST_SHOULDER_MM },
        "Make the tongue thinner, about half the sheet.",
      ),
    ),
    ...when(l < numbers.r - SAME_POINT_MM, () =>
      finding(
        "tongue_short_for_cutter",
        "error",
        "joint.tongue.length",
        `A tongue ${say(l)} long is shorter than the cutter's radius, ${say(numbers.r)}: the corner at its root cannot be cut.`,
        { length: l, radius: numbers.r },
        "Lengthen the tongue or take a smaller cutter.",
      ),
    ),
  ];
}

function checkHousing({ joint, sheet, cutter, units }: Design, numbers: CaseNumbers): Finding[] {
  const say = (mm: number): string => formatLength(mm, units);
  const width = joint.tongue.thickness + 2 * joint.clearance.side;
  const deepest = sheet.thickness.min / 2;
  return [
    ...when(cutter > width + SAME_POINT_MM, () =>
      finding(
        "cutter_wide",
        "error",
        "cutter",
        `The cutter is ${say(cutter)} wide, the housings and grooves ${say(width)}.`,
        { cutter, housing: width },
        `Take a cutter of ${say(width)} or less, or a thicker tongue.`,
      ),
    ),
    ...when(numbers.recessDepth > deepest + SAME_POINT_MM, () =>
      finding(
        "housing_deep",
        "error",
        "joint.tongue.length",
        `Housings ${say(numbers.recessDepth)} deep (tongue and gap) take more than half of the sheet, which is ${say(sheet.thickness.min)} at its thinnest.`,
        { depth: numbers.recessDepth, deepest },
        `Make the tongue ${say(Math.floor(10 * (deepest - joint.clearance.end)) / 10)} long or shorter.`,
      ),
    ),
    ...when(numbers.recessDepth <= deepest + SAME_POINT_MM && numbers.behind < BEHIND_MM, () =>
      finding(
        "housing_wall_thin",
        "warning",
        "joint.tongue.length",
        `${say(numbers.behind)} of wood is left behind the housings; ${say(BEHIND_MM)} is good practice.`,
        { behind: numbers.behind, least: BEHIND_MM },
        "Shorten the tongue or take a thicker sheet.",
      ),
    ),
  ];
}

function checkClearance({ joint, sheet, units, layers }: Design, numbers: CaseNumbers): Finding[] {
  const say = (mm: number): string => formatLength(mm, units);
  const { side, end } = joint.clearance;
  const { min, max } = sheet.thickness;
  const loose = side + max - min;
  return [
    ...when(side > GLUE_LINE_MM, () =>
      finding(
        "clearance_loose",
        "warning",
        "joint.clearance.side",
        `${say(side)} of air on each side of a tongue; glue bridges about ${say(GLUE_LINE_MM)}.`,
        { side, most: GLUE_LINE_MM },
        "Lower it, and try it on an offcut of the same sheet.",
      ),
    ),
    ...when(numbers.style === "full" && side <= GLUE_LINE_MM && loose > GLUE_LINE_MM + CONTACT_MM, () =>
      finding(
        "clearance_loose",
        "warning",
        "sheet.thickness",
        `${layers ? "Tongues as thick as the sheet" : "Full-thickness rail ends"} have ${say(loose)} of air on one side where the sheet is thinnest; glue bridges about ${say(GLUE_LINE_MM)}.`,
        { side: loose, most: GLUE_LINE_MM, spread: max - min },
        layers
          ? "Take a more even sheet."
          : "Take joint.rails inner, whose tongues do not follow the sheet, or a more even sheet.",
      ),
    ),
    ...when(side < 0.03, () =>
      finding(
        "clearance_tight",
        "warning",
        "joint.clearance.side",
        `${say(side)} of air on each side of a tongue: the joint may not close by hand.`,
        { side, least: 0.03 },
        "0.05 to 0.15 mm a side is usual; try it on an offcut of the same sheet.",
      ),
    ),
    ...when(end < 0.2, () =>
      finding(
        "end_gap_small",
        "warning",
        "joint.clearance.end",
        `${say(end)} of air under a tongue: glue and dust may hold its shoulder open.`,
        { end, least: 0.2 },
        "0.3 to 0.5 mm is usual.",
      ),
    ),
  ];
}

/** Wood between housings and the cheek's straight edges. The crest is looked at once it is drawn. */
function checkStop(design: Design, numbers: CaseNumbers): Finding[] {
  const { joint, cheek, units, layers } = design;
  const say = (mm: number): string => formatLength(mm, units);
  const below = numbers.baseHousing.min - numbers.belly;
  const short = (left: number): boolean => left < joint.stop - SAME_POINT_MM;
  const ends = (["front", "back"] as const).flatMap((end) => {
    const left = cheek.overhang[end] + numbers.t - numbers.seat - joint.clearance.side;
    if (!short(left)) return [];
    if (numbers.style === "full") {
      const least = fullStyleOverhang(design);
      return [
        finding(
          "overhang_short",
          "error",
          `cheek.overhang.${end}`,
          `The cheeks stand out ${say(cheek.overhang[end])} over the ${end} rail, whose full-thickness end needs ${say(least)} to keep ${say(joint.stop)} of wood before its housing.`,
          { overhang: cheek.overhang[end], least, stop: joint.stop },
          `Make cheek.overhang.${end} ${say(Math.ceil(10 * least - 1e-6) / 10)}${layers ? "" : ", or joint.rails inner"}.`,
        ),
      ];
    }
    return [
      stopShort(`cheek.overhang.${end}`, left, `the ${end} rail's housing and the cheek's ${end} edge`),
    ];
  });
  return [
    ...when(short(below), () => stopShort("joint.stop", below, "the base's housing and the belly")),
    ...ends,
  ];

  function stopShort(path: string, left: number, between: string): Finding {
    return finding(
      "stop_short",
      "error",
      path,
      `${say(left)} of wood is left between ${between}; ${say(joint.stop)} is the least you asked for.`,
      { left, stop: joint.stop },
      "Make the tongue thinner, or lower joint.stop.",
    );
  }
}

function railStyleNote(design: Design, numbers: CaseNumbers): Finding {
  const { joint, units } = design;
  const asked = joint.rails === "fewest-flips" ? "Fewest flips were asked for. " : "";
  const least = fullStyleOverhang(design);
  const numbersOfStyle = { setups: numbers.style === "full" ? 1 : 2, overhang: least };
  const message =
    numbers.style === "full"
      ? `${asked}Full-thickness rail ends: one setup for every sheet, since all recesses are cut from face A.`
      : `${asked}Inner rail tongues: the rails' sheet is turned over once, since their groove is inside and their rebate outside. Full-thickness ends would need one setup only, with cheeks that stand out ${formatLength(least, units)} over the rails.`;
  return finding("rail_style", "note", "joint.rails", message, numbersOfStyle);
}
