import {
  buildSheetFiles,
  checks,
  paragraph,
  type Risk,
  type Section,
  section,
  table,
  thicknessWords,
} from "@dryfit/drawing";
import { type Assembly, cutList, hardware, type Prices } from "@dryfit/joinery";
import type { Proof } from "@dryfit/verify";
import type { PlacedFinding } from "../job.ts";
import type { OutFile } from "../outfile.ts";
import { spentOn, verdictOf } from "../papers.ts";
import { type OrderWords, orderFacts } from "./order-text.ts";
import { orderTime, serviceCutting } from "./service-minutes.ts";

/** What stays with the maker while the order is away: the build sheet of the parts that come back. */
export function orderPapers(
  words: OrderWords,
  assembly: Assembly,
  proof: Omit<Proof, "programs">,
  findings: readonly PlacedFinding[],
  prices: { readonly file: OutFile; readonly value: Prices } | null,
): readonly OutFile[] {
  const { design, service, revision } = words;
  return buildSheetFiles({
    assembly,
    revision,
    verdict: verdictOf(proof, findings),
    material: design.sheet.name,
    thickness: thicknessWords(design.sheet.thickness),
    hardware: hardware(design),
    sheets: [],
    programs: [],
    making: {
      by: service.name,
      sections: orderedSections(words, assembly),
      cautions: CAUTIONS,
      time: orderTime(serviceCutting(assembly.parts, service), service, assembly.parts.length),
      risks: RISKS,
    },
    joints: proof.joints,
    order: proof.order,
    measures: proof.measures,
    findings,
    ...spentOn({ design, prices }, { assembly }, { sheets: [], minutes: 0 }),
  });
}

const RISKS: readonly Risk[] = [
  {
    what: "The service takes another sheet",
    shows: "tongues rattle, or do not go in",
    helps: "measure before you sand; ask for the sheet by its measured thickness",
  },
  {
    what: "The kerf is allowed for twice, or not at all",
    shows: "every part is larger or smaller by as much",
    helps: "measure one part over all against the cut list; order a coupon first",
  },
  {
    what: "A file was opened in inches",
    shows: "sizes are off 25.4 times",
    helps: "the letter says mm; ask for the size of one part before it is cut",
  },
];

const CAUTIONS = [
  "Edges and corners of cut parts are sharp, and lasered edges leave soot: gloves for unpacking, and keep soot off the glue faces.",
  "Sanding and rounding over make dust that harms lungs: extract it and wear a mask that fits; eye and ear protection at every machine.",
];

function orderedSections(words: OrderWords, assembly: Assembly): readonly Section[] {
  const { min, mean, max } = words.design.sheet.thickness;
  const [first] = cutList(assembly);
  return [
    section(
      "ordered",
      "What is ordered",
      ...orderFacts(words).map(paragraph),
      table(
        [{ title: "file" }, { title: "count", figures: true }, { title: "parts" }],
        words.drawings.map(({ file, count, parts }) => [file, String(count), parts.join(", ")]),
      ),
    ),
    section(
      "on-arrival",
      "When the parts come",
      checks([
        "Count them against the cut list and put a label on each, on its face A.",
        `Measure the plywood in several places: the parts were drawn for ${mm(mean)} mm${min === max ? "" : `, ${mm(min)} to ${mm(max)}`}. Is it another sheet, fits differ by as much: try every joint before you sand anything.`,
        ...(first
          ? [
              `Measure one of each kind over all, the ${first.title.toLowerCase()} (${mm(first.size[0])} × ${mm(first.size[1])}) first: sizes are finished sizes, kerf allowed for.`,
            ]
          : []),
        "Brush off soot or fluff and break no edge of a tongue: they are cut to size.",
      ]),
    ),
  ].filter((one) => one !== null);
}

function mm(length: number): string {
  return String(Number(length.toFixed(2)));
}
