import { type Assembly, type Face, type FinishPlan, type Part, waitingHours } from "@dryfit/joinery";
import { looseParts, lower } from "./build-assembly.ts";
import type { BuildSheetData, EdgeEntry } from "./build-data.ts";
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
export function finishSection({ assembly, measures, finish, edges = [] }: BuildSheetData): Section | null {
  const { byHand, made } = roundOvers(assembly, edges);
  const weight =
    measures?.weightKg == null ? "" : ` The bare case weighs about ${length(measures.weightKg)} kg.`;
  const hours = waitingHours(finish.lines);
  return section(
    "finish",
    "Round over and finish",
    steps([
      ...(byHand.length > 0 ? [`Round over, by hand or with a bearing cutter: ${byHand.join("; ")}.`] : []),
      ...(made.length > 0
        ? [
            `The programs have made these edges: ${made.join("; ")}. Finish their ends by hand, and the places where tabs or a skin held the part.`,
          ]
        : []),
      "Break all other outer edges with fine paper. Keep off the shoulders and off anything that a hinge or catch will sit on.",
      "Fill what needs it, sand with the grain to 180, take the dust off, and mask the seats of hinges, catches and connectors.",
      ...finish.lines.map(coatStep),
      ...(looseParts(assembly).length > 0
        ? ["Try the tier again after the last coat: a film of 0.1 mm on both sides takes 0.2 mm of air."]
        : []),
    ]),
    table(
      [
        { title: "what goes on" },
        { title: "coats, faces", figures: true },
        { title: "coats, edges", figures: true },
        { title: "m² in all", figures: true },
        { title: "m² a litre", figures: true },
        { title: "litres", figures: true },
        { title: "h after each", figures: true },
      ],
      finish.lines.map((line) => [
        line.what,
        String(line.coats),
        String(line.edgeCoats),
        length(line.area, 2),
        length(line.squareMetresPerLitre, 1),
        length(line.litres, 2),
        length(line.hours, 1),
      ]),
    ),
    paragraph(
      `There are ${length(finish.faces, 2)} m² of faces, both sides of every part, and ${length(finish.edges, 2)} m² of edges. Coats wait ${length(hours, 1)} h in all; a film takes about a week to reach its hardness. ${
        finish.isCommon
          ? "Coats, coverage and waiting times are common practice, no source: your tin goes first, and finish: in a price file says what you use."
          : "Coats, coverage and waiting times are your price file's."
      }${weight}`,
    ),
  );
}

function coatStep({ what, coats, edgeCoats, hours }: FinishPlan["lines"][number], i: number): string {
  const many = (n: number): string => (n === 1 ? "one coat" : `${n} coats`);
  const where =
    coats === edgeCoats
      ? `${many(coats)} on all faces and edges`
      : `${many(coats)} on faces, ${many(edgeCoats)} on edges`;
  const sand = i === 0 ? "Sand lightly once it is dry." : "Sand lightly between coats.";
  return `${what}: ${where}; wait ${length(hours, 1)} h after each. ${sand}`;
}

export function cautionSection({ assembly, hardware, making }: BuildSheetData): Section | null {
  const words = JSON.stringify([hardware, assembly.parts.flatMap((part) => part.features)]).toLowerCase();
  const mains = words.includes("mains");
  return section("cautions", "Cautions", {
    kind: "caution",
    items: [
      ...(making?.cautions ?? machineWords),
      mains
        ? "The mains inlet: this paper gives a cutout, nothing else. Wiring, earthing, fuses and covers are for the rules of your country and for somebody who is licensed to do it."
        : "If you add a mains inlet, its wiring, earthing, fuses and covers are for the rules of your country and for somebody who is licensed to do it.",
      "Lift with care: a loaded case weighs several times the bare one. Try handles and catches low over a bench first.",
    ],
  });
}

/** For whoever stands at a machine that runs programs. */
export const machineWords: readonly string[] = [
  "A router throws chips and, if a part comes loose, the part: eye protection on, hands and sleeves away, the stop within reach, nobody at the machine alone for the first run.",
  "Run each program once in the air, well above the wood, before the spindle turns. Stay by the machine while it cuts: fine dust and a blunt cutter can start a fire.",
  "Plywood dust harms lungs: extract at the cutter and wear a mask that fits. Routers are loud enough to harm hearing: wear protection.",
  "Check clamps, screws and pins against the drawing: nothing of metal where the cutter goes.",
];

export function machineCautions(): Section | null {
  return section("cautions", "Cautions", { kind: "caution", items: machineWords });
}

interface Rounds {
  readonly byHand: readonly string[];
  readonly made: readonly string[];
}

/** "left cheek, crest, radius 3, both sides": each edge of the design, by who makes it. */
function roundOvers(assembly: Assembly, edges: readonly EdgeEntry[]): Rounds {
  const isMade = (part: Part, edge: string, face: Face): boolean =>
    edges.some((one) => one.part === part.id && one.edge === edge && one.face === face);
  const words = (made: boolean): readonly string[] => [
    ...new Set(
      assembly.parts.flatMap((part) =>
        part.roundOvers.flatMap((over) => {
          const faces = over.faces.filter((face) => isMade(part, over.id, face) === made);
          return faces.length === 0 ? [] : [edgeWords(part, over, faces)];
        }),
      ),
    ),
  ];
  return { byHand: words(false), made: words(true) };
}

function edgeWords(
  part: Part,
  { id, radius, form }: Part["roundOvers"][number],
  faces: readonly Face[],
): string {
  const name = id.replace(/^(round|chamfer)-|-inside$/g, "").replaceAll("-", " ");
  const size = form === "chamfer" ? `chamfer ${length(radius)}` : `radius ${length(radius)}`;
  const sides = faces.length > 1 ? "both sides" : `${part.faceNames[faces[0]!]} only`;
  return `${lower(part.title)}, ${name}, ${size}, ${sides}`;
}
