import { boundsOf, type Path, SAME_POINT_MM, sine, tangentOf } from "@dryfit/geometry";
import { bellyOf, feetOf, isSteep } from "./cheek.ts";
import { tangentLength } from "./corner.ts";
import type { Design } from "./design.ts";
import { drawnCrest } from "./drawn-crest.ts";
import type { Finding } from "./finding.ts";
import { finding, when } from "./findings.ts";
import { formatLength, trimmed } from "./length.ts";
import type { CaseNumbers } from "./numbers.ts";
import { tonguePieces } from "./rail.ts";

/** Gear slides on a steeper slope, degrees; common practice, no source. */
const STEEPEST_DEG = 15;

/** Crest, feet and rake, before the cheek is drawn. */
export function checkCheek(design: Design, numbers: CaseNumbers, crest: Path<"panel"> | null): Finding[] {
  return [
    ...checkCrest(design, numbers, crest),
    ...checkFeet(design, numbers),
    ...checkRake(design, numbers),
    ...checkRails(design, numbers),
  ];
}

function checkCrest(design: Design, numbers: CaseNumbers, crest: Path<"panel"> | null): Finding[] {
  const { inside, cheek, joint, units } = design;
  const { form, through, above } = cheek.crest;
  const say = (mm: number): string => formatLength(mm, units);
  const below = when(above < 0, () =>
    finding(
      "crest_below_rail",
      "error",
      "cheek.crest.above",
      `The crest lies ${say(-above)} below the rails' tops, which would stand proud of it.`,
      { above },
      "Make cheek.crest.above 0 or more, or lower inside.front and inside.back.",
    ),
  );
  if (form === "drawn" && drawnCrest(design) === null) return below;
  if (form !== "straight" && form !== "drawn" && !(through.at > 0 && through.at < inside.depth)) {
    return [
      ...below,
      finding(
        "crest_through_off",
        "error",
        "cheek.crest.through.at",
        `The crest's place is ${say(through.at)} from the front rail, but the rails are ${say(inside.depth)} apart.`,
        { at: through.at, depth: inside.depth },
        "Give a place between the rails.",
      ),
    ];
  }
  if (crest === null) {
    return [
      ...below,
      finding(
        "crest_curve_impossible",
        "error",
        form === "drawn" ? "cheek.crest.file" : "cheek.crest.through",
        form === "drawn"
          ? "The drawn crest turns back on its way from rail to rail, or leaves the space between them."
          : `No ${form === "arc" ? "arc" : "free batten"} runs from ${say(inside.front + above)} over ${say(through.height)} at ${say(through.at)} to ${say(inside.back + above)} without turning back.`,
        { at: through.at, height: through.height, front: inside.front + above, back: inside.back + above },
        form === "drawn"
          ? "Draw it so that it runs from front to back all the way."
          : "Move the place nearer to the straight line between the rails' tops.",
      ),
    ];
  }
  const lowest = boundsOf(crest).min.y;
  const least = numbers.baseHousing.max + joint.stop;
  return [
    ...below,
    ...when(isSteep(design, numbers, crest), () =>
      finding(
        "crest_steep",
        "error",
        "cheek.crest.through",
        "The crest leaves a rail so steeply that the cutter cannot round the corner there.",
        { at: through.at, height: through.height, radius: numbers.r },
        "Move the place that the crest goes through, or take another form.",
      ),
    ),
    ...when(lowest < least - SAME_POINT_MM, () =>
      finding(
        "crest_low",
        "error",
        "cheek.crest.through.height",
        `The crest comes down to ${say(lowest)} over the floor; the base's housing and the stop need ${say(least)}.`,
        { lowest, least },
        "Raise the place that the crest goes through.",
      ),
    ),
  ];
}

function checkFeet(design: Design, numbers: CaseNumbers): Finding[] {
  const { feet } = design.cheek;
  const say = (mm: number): string => formatLength(mm, design.units);
  const { front, back } = feetOf(design, numbers);
  const { belly } = numbers;
  const tangent = (end: "front" | "back"): number =>
    tangentLength(Math.max(feet[end].radius, numbers.r), (feet[end].angle * Math.PI) / 180);
  const { min: from, max: to } = bellyOf(design, numbers);
  const single = (["front", "back"] as const).flatMap((end) => {
    const foot = end === "front" ? front : back;
    if (!foot) return [];
    const height = belly - foot.inner.y;
    const slant = height / sine((feet[end].angle * Math.PI) / 180);
    if (height <= SAME_POINT_MM) {
      return [
        finding(
          "feet_do_not_meet_belly",
          "error",
          `cheek.feet.${end}.length`,
          `At its inner end the ${end} foot would be ${say(height)} high: the floor's slope has run into the belly.`,
          { height },
          "Shorten the foot or give it more drop.",
        ),
      ];
    }
    return when(slant < tangent(end) - SAME_POINT_MM, () =>
      finding(
        "foot_corner_wide",
        "error",
        `cheek.feet.${end}.radius`,
        `The ${end} foot is ${say(height)} high at its inner end; a curve of radius ${say(Math.max(feet[end].radius, numbers.r))} into the belly does not fit.`,
        {
          height,
          radius: Math.max(feet[end].radius, numbers.r),
          fits: slant / tangentOf((feet[end].angle * Math.PI) / 360),
        },
        `Make the radius ${say(Math.floor(slant / tangentOf((feet[end].angle * Math.PI) / 360)))} or less (the cutter leaves at least ${say(numbers.r)}), or the foot higher.`,
      ),
    );
  });
  return [
    ...single,
    ...when(single.length === 0 && to - from < SAME_POINT_MM, () =>
      finding(
        "feet_do_not_meet_belly",
        "error",
        "cheek.feet",
        `The feet and their curves would overlap by ${say(from - to)}: no belly is left between them.`,
        { overlap: from - to },
        "Shorten the feet.",
      ),
    ),
  ];
}

function checkRake(design: Design, numbers: CaseNumbers): Finding[] {
  const deg = (numbers.rake * 180) / Math.PI;
  const { front, back } = design.cheek.feet;
  return [
    ...when(deg < 0, () =>
      finding(
        "rake_forward",
        "warning",
        "cheek.feet",
        `The case slopes ${trimmed(-deg, 1)}° to the back.`,
        { rakeDeg: deg, front: front.drop, back: back.drop },
        "Give the back foot more drop than the front foot.",
      ),
    ),
    ...when(deg > STEEPEST_DEG, () =>
      finding(
        "rake_steep",
        "warning",
        "cheek.feet",
        `The case slopes ${trimmed(deg, 1)}°; gear slides from about ${STEEPEST_DEG}°.`,
        { rakeDeg: deg, most: STEEPEST_DEG },
        "Give the back foot less drop.",
      ),
    ),
  ];
}

/** Whether the rails' tongues are long enough to hold, as far as arithmetic tells (a sloping crest takes more). */
function checkRails(design: Design, numbers: CaseNumbers): Finding[] {
  const { joint, units } = design;
  const say = (mm: number): string => formatLength(mm, units);
  return (["front", "back"] as const).flatMap((name) => {
    const min = numbers.style === "full" ? numbers.lowest : numbers.baseHousing.min;
    const piece = tonguePieces(design, numbers, { min, max: numbers.highest[name] }).at(-1)!;
    const length = piece.max - piece.min;
    return when(length < joint.piece, () => tonguePieceShort(name, length, joint.piece, say));
  });
}

export function tonguePieceShort(
  name: "front" | "back",
  length: number,
  least: number,
  say: (mm: number) => string,
): Finding {
  return finding(
    "tongue_piece_short",
    "error",
    `inside.${name}`,
    `The ${name} rail's end tongue would be ${say(Math.max(0, length))} long; ${say(least)} is the least that holds.`,
    { length, least },
    `Make inside.${name} ${say(Math.ceil(least - length))} more, or lower joint.stop.`,
  );
}
