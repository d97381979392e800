import { type Assembly, areaOfPart, type Part } from "@dryfit/joinery";
import { lower } from "./build-assembly.ts";
import type { BuildSheetData } from "./build-data.ts";
import { length } from "./lettering.ts";
import { paragraph, type Section, section, steps, table } from "./paper/block.ts";

export function hardwareSection({ hardware }: BuildSheetData): Section | null {
  return section(
    "hardware",
    "Hardware",
    table(
      [{ title: "what" }, { title: "count", figures: true }, { title: "note" }],
      hardware.map(({ what, count, note }) => [what, String(count), note]),
    ),
  );
}

/** Edges to round over, then what goes on the wood and how much of it there is. */
export function finishSection({ assembly, measures }: BuildSheetData): Section | null {
  const rounds = roundOvers(assembly);
  const faces = assembly.parts.reduce((sum, part) => sum + 2 * areaOfPart(part), 0) / 1e6;
  const weight =
    measures?.weightKg == null ? "" : ` The bare case weighs about ${length(measures.weightKg)} kg.`;
  return section(
    "finish",
    "Round over and finish",
    steps([
      ...(rounds.length > 0 ? [`Round over, by hand or with a bearing cutter: ${rounds.join("; ")}.`] : []),
      "Break all other outer edges with fine paper. Keep off the shoulders and off anything that a hinge or catch will sit on.",
      "Fill what needs it, sand with the grain to 180, take the dust off, and mask the seats of hinges, catches and connectors.",
      `Seal all faces, edges twice: there are about ${length(faces, 2)} m² to cover in one coat. Sand lightly between coats and leave each the time that its tin asks for.`,
      "Try the tier and the lid again after the last coat: a film of 0.1 mm on both sides takes 0.2 mm of air.",
    ]),
    paragraph(`Finishing steps are common practice.${weight}`),
  );
}

export function cautionSection({ assembly, hardware }: BuildSheetData): Section | null {
  const words = JSON.stringify([hardware, assembly.parts.flatMap((part) => part.features)]).toLowerCase();
  const mains = words.includes("mains");
  return section("cautions", "Cautions", {
    kind: "caution",
    items: [
      "A router throws chips and, if a part comes loose, the part: eye protection on, hands and sleeves away, the stop within reach, nobody at the machine alone for the first run.",
      "Run each program once in the air, well above the wood, before the spindle turns. Stay by the machine while it cuts: fine dust and a blunt cutter can start a fire.",
      "Plywood dust harms lungs: extract at the cutter and wear a mask that fits. Routers are loud enough to harm hearing: wear protection.",
      "Check clamps, screws and pins against the drawing: nothing of metal where the cutter goes.",
      mains
        ? "The mains inlet: this paper gives a cutout, nothing else. Wiring, earthing, fuses and covers are for the rules of your country and for somebody who is licensed to do it."
        : "If you add a mains inlet, its wiring, earthing, fuses and covers are for the rules of your country and for somebody who is licensed to do it.",
      "Lift with care: a loaded case weighs several times the bare one. Try handles and catches low over a bench first.",
    ],
  });
}

/** "left cheek, crest, radius 3, both sides": each edge that the design rounds. */
function roundOvers(assembly: Assembly): readonly string[] {
  const words = assembly.parts.flatMap((part: Part) =>
    part.roundOvers.map(({ id, radius, faces }) => {
      const sides =
        faces.length > 1 ? "both sides" : faces.length === 1 ? `${part.faceNames[faces[0]!]} only` : "";
      return [
        `${lower(part.title)}, ${id.replace(/^round-|-inside$/g, "").replaceAll("-", " ")}, radius ${length(radius)}`,
        sides,
      ]
        .filter(Boolean)
        .join(", ");
    }),
  );
  return [...new Set(words)];
}
