import { type Loop, SAME_POINT_MM } from "@dryfit/geometry";
import { tonguePieceShort } from "./check-cheek.ts";
import type { HousingReach } from "./cheek.ts";
import type { Design } from "./design.ts";
import type { Finding } from "./finding.ts";
import { finding, when } from "./findings.ts";
import { formatLength } from "./length.ts";
import type { CaseNumbers } from "./numbers.ts";
import { tonguePieces } from "./rail.ts";
import { woodRound } from "./rounded-box.ts";

/** The housings against the cheek as it is drawn: wood left all round, and tongues that the crest cut short. */
export function checkHousings(
  design: Design,
  numbers: CaseNumbers,
  outline: Loop<"panel">,
  reach: HousingReach,
): Finding[] {
  const { joint, units } = design;
  const say = (mm: number): string => formatLength(mm, units);
  const { baseHousing, frontHousing, backHousing, r } = numbers;
  const slots = [
    { name: "the base's housing", y: { min: frontHousing.min, max: backHousing.max }, z: baseHousing },
    { name: "the front rail's housing", y: frontHousing, z: reach.front },
    { name: "the back rail's housing", y: backHousing, z: reach.back },
  ];
  const wood = woodRound(outline, r);
  const short = (["front", "back"] as const).flatMap((name) => {
    const piece = tonguePieces(design, numbers, reach[name]).at(-1)!;
    const length = piece.max - piece.min;
    return when(length < joint.piece, () => tonguePieceShort(name, length, joint.piece, say));
  });
  return [
    ...short,
    ...leftOut(design, numbers),
    ...slots.flatMap(({ name, y, z }) => {
      const left = wood(y, z);
      return when(left < joint.stop - 10 * SAME_POINT_MM, () =>
        finding(
          "stop_short",
          "error",
          "joint.stop",
          `${say(left)} of wood is left between ${name} and the cheek's edge; ${say(joint.stop)} is the least you asked for.`,
          { left, stop: joint.stop },
          "Raise the crest there, make the feet's curves smaller, or lower joint.stop.",
        ),
      );
    }),
  ];
}

function leftOut(design: Design, numbers: CaseNumbers): Finding[] {
  const { joint, units } = design;
  if (numbers.style === "full") return [];
  const length = numbers.baseHousing.min - numbers.lowest - numbers.shortOf;
  return when(length < joint.piece, () =>
    finding(
      "tongue_piece_left_out",
      "note",
      "joint.piece",
      `The groove cuts the rails' end tongues in two. Below it ${length > 0 ? `only ${formatLength(length, units)}` : "nothing"} would be left, ${formatLength(joint.piece, units)} is the least that holds: the tongues stand above the groove only.`,
      { length: Math.max(0, length), least: joint.piece },
    ),
  );
}
