import type { BuildSheetData, Verdict } from "@dryfit/drawing";
import { costOf, finishOf, hardware, type Used } from "@dryfit/joinery";
import { type Proof, printedError, type ReadProgram } from "@dryfit/verify";
import type { Shop } from "./input.ts";
import type { PlacedFinding } from "./job.ts";
import type { OutFile } from "./outfile.ts";
import { cutterWords, thicknessOn } from "./pictures.ts";
import { type Road, yieldOf } from "./road.ts";

/** What stands on every paper. */
export interface Title {
  readonly revision: string;
  readonly verdict: Verdict;
}

/** The first sentence of every paper. */
export function verdictOf(
  { pass, gouge, uncut }: Pick<Proof, "pass" | "gouge" | "uncut">,
  findings: readonly PlacedFinding[],
): Verdict {
  if (pass)
    return {
      pass,
      sentence: `Proved: widest error ${printedError(Math.max(gouge, uncut))}, nothing touches.`,
    };
  const errors = findings.filter(({ severity }) => severity === "error").length;
  return { pass, sentence: `Not provable yet: ${errors} ${errors === 1 ? "thing" : "things"} to mend.` };
}

/** What stands on the papers for the bench; `drawn` holds the sheets' pictures. */
export function paperData(
  shop: Shop,
  road: Road,
  proof: Proof,
  readPrograms: ReadonlyMap<string, ReadProgram>,
  drawn: readonly OutFile[],
  findings: readonly PlacedFinding[],
  { revision, verdict }: Title,
  used: Used = usedOn(road),
): BuildSheetData {
  const [first] = road.layout.sheets;
  return {
    assembly: road.assembly,
    revision,
    verdict,
    material: shop.design.sheet.name,
    thickness: first ? thicknessOn(road, first) : "",
    hardware: hardware(shop.design),
    sheets: road.layout.sheets.map((sheet) => ({
      id: sheet.id,
      size: sheet.stock.size,
      grain: sheet.stock.grain,
      parts: sheet.parts.map(({ part }) => part),
      yield: yieldOf(sheet, road.assembly.parts),
      flip: road.flips[sheet.id] ?? null,
      pins: pinsOf(sheet.id, road, shop, proof),
      svg: drawn.find(({ file }) => file === `preview/${sheet.id}.svg`)?.text ?? null,
    })),
    programs: road.programs.map((program) => {
      const { facts } = readPrograms.get(program.file)!;
      return {
        file: program.file,
        sheet: program.sheet,
        setup: program.setup,
        cutter: cutterWords(program),
        zZero: program.zZero,
        minutes: program.minutes,
        extents: facts.extents,
        deepest: facts.deepest,
        tabs: program.tabs.length,
      };
    }),
    edges: road.programs.flatMap((program) => program.edges),
    joints: proof.joints,
    order: proof.order,
    measures: proof.measures,
    findings,
    ...spentOn(shop, road, used),
  };
}

/** What a case costs and what goes on its wood. */
export function spentOn(
  { design, prices }: Pick<Shop, "design" | "prices">,
  { assembly }: Pick<Road, "assembly">,
  used: Used,
): Pick<BuildSheetData, "cost" | "finish"> {
  const price = prices?.value ?? null;
  const finish = finishOf(assembly, price);
  return { finish, cost: costOf(design, used, finish, price) };
}

/** What a job of one case uses up. */
export function usedOn({ layout, programs }: Road): Used {
  return {
    sheets: layout.sheets.map(({ stock }) => ({ ...stock, kind: stock.id, share: 1 })),
    minutes: programs.reduce((sum, program) => sum + program.minutes, 0),
  };
}

function pinsOf(sheet: string, road: Road, { machine }: Shop, proof: Proof): SheetPins {
  const pins = road.flips[sheet]?.pins;
  if (pins === undefined) return null;
  const { diameter, depth, at } = pins;
  return {
    count: at.length,
    diameter,
    depth,
    play: machine.pins.play,
    apart: proof.setupsApart?.[sheet] ?? 0,
  };
}

type SheetPins = NonNullable<BuildSheetData["sheets"][number]["pins"]> | null;
