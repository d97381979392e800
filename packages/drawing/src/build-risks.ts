import type { BuildSheetData, Risk } from "./build-data.ts";
import { type Section, section, table } from "./paper/block.ts";

/** What no proof can know: how it shows, and what helps. */
export function riskSection({ making, assembly }: BuildSheetData): Section | null {
  const mirrored = assembly.parts.some(({ id }) => /-right(-|$)/.test(id));
  const rows = [
    ...(making?.risks ?? MACHINE_RISKS),
    ...(mirrored ? [MIRRORED] : []),
    ...(assembly.joints.length > 0 ? [SHOULDER] : []),
    FILM,
  ];
  return section(
    "risks",
    "What can still go wrong",
    table(
      [{ title: "what" }, { title: "how it shows" }, { title: "what helps" }],
      rows.map(({ what, shows, helps }) => [what, shows, helps]),
    ),
  );
}

/** Of a machine that runs programs. */
export const MACHINE_RISKS: readonly Risk[] = [
  {
    what: "The cutter is not as wide as its program says",
    shows: "every tongue binds, or every one rattles",
    helps:
      "measure a slot in waste, or cut the coupon; put the width into the cutters' file and make it again",
  },
  {
    what: "The zero is lost at a change of cutter",
    shows: "recesses of one cutter are too deep or too shallow",
    helps: "set Z0 again at every change, try it in waste, measure the first recess",
  },
  {
    what: "The sheet is bowed or not held down",
    shows: "depths differ over the sheet; skin is left, or the board under it is cut",
    helps: "screw it down near the parts; dryfit spots marks the places",
  },
  {
    what: "A part comes loose",
    shows: "it chatters, or its edge has a step",
    helps: "stop, fix it, take the program up again with dryfit resume",
  },
];

const MIRRORED: Risk = {
  what: "Left and right, or the faces, are mixed up",
  shows: "a housing looks outwards",
  helps: "labels on face A before the parts leave the sheet",
};

const SHOULDER: Risk = {
  what: "A shoulder does not close",
  shows: "a strip of paper goes in; the diagonals differ",
  helps: "dust in a corner, or a housing not deep enough: look before there is glue",
};

const FILM: Risk = {
  what: "The finish takes up the air",
  shows: "what moved when dry binds once it is coated",
  helps: "mask what touches; ease with fine paper",
};
