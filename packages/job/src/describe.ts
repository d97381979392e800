import { areaOf, boundsOf } from "@dryfit/geometry";
import type { Part } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import { type Proof, printedJoint, printedWeight, type ReadProgram } from "@dryfit/verify";
import type { Shop } from "./input.ts";
import type { Job, JobCutter, JobPart, JobProgram, JobSheet, PlacedFinding } from "./job.ts";
import { type OutFile, sha256Of } from "./outfile.ts";
import { spentOn, usedOn } from "./papers.ts";
import { clearedEntry, verificationOf } from "./proof-entries.ts";
import { type Road, type WrittenProgram, yieldOf } from "./road.ts";
import type { Work } from "./work.ts";

/** What `job.json` says, all from what was made and read back. */
export function describe(
  shop: Shop,
  version: string,
  road: Road,
  proof: Proof,
  readPrograms: ReadonlyMap<string, ReadProgram>,
  files: readonly OutFile[],
  findings: readonly PlacedFinding[],
  work: Work,
): Job {
  const { assembly, layout } = road;
  return {
    name: assembly.name,
    units: "mm",
    kind: work,
    tool: { name: "dryfit", version },
    design: { file: FOLDER_NAMES.design, sha256: sha256Of(shop.texts.design.text) },
    shop: { machine: FOLDER_NAMES.machine, cutters: FOLDER_NAMES.cutters },
    revision: revisionOf(shop, version),
    parts: layout.sheets.flatMap((sheet) =>
      sheet.parts.map((placed) => partOf(sheet, placed, assembly.parts)),
    ),
    sheets: layout.sheets.map((sheet) => sheetOf(sheet, road, shop, proof, readPrograms, files)),
    joints: proof.joints.map(printedJoint),
    verification: verificationOf(proof),
    ...(work === "case" ? spentOn(shop, road, usedOn(road)) : { cost: null, finish: null }),
    weightKg: printedWeight(proof),
    findings,
    files: files.map(({ file, text }) => ({ file, sha256: sha256Of(text) })),
  };
}

/** The names of the inputs' copies in the folder. */
export const FOLDER_NAMES = {
  design: "design.yaml",
  machine: "machine.yaml",
  cutters: "cutters.yaml",
  prices: "prices.yaml",
} as const;

/** Eight digits that change whenever anything that the papers depend on does. */
export function revisionOf(shop: Shop, version: string): string {
  const { design, machine, cutters } = shop.texts;
  const others = [...(shop.prices ? [shop.prices.file] : []), ...shop.drawings].map(({ text }) => text);
  return sha256Of([version, design.text, machine.text, cutters.text, ...others].join("\0")).slice(0, 8);
}

function partOf(sheet: Sheet, placed: Sheet["parts"][number], parts: readonly Part[]): JobPart {
  const part = named(parts, placed.part);
  const box = boundsOf(part.outline);
  const openings = part.features.flatMap((f) => (f.kind === "opening" ? [f.loop] : []));
  const { quarters, angle, shift } = placed.placement;
  const area =
    areaOf([{ outer: part.outline, holes: [] }]) - areaOf(openings.map((outer) => ({ outer, holes: [] })));
  return {
    id: part.id,
    panel: part.panel,
    sheet: sheet.id,
    thickness: part.thickness.mean,
    size: [round(box.max.x - box.min.x), round(box.max.y - box.min.y)],
    upFace: part.faceNames.A,
    area: round(area),
    placed: {
      turnDeg: quarters * 90 + round((angle * 180) / Math.PI),
      shift: [round(shift.x), round(shift.y)],
    },
  };
}

function sheetOf(
  sheet: Sheet,
  road: Road,
  shop: Shop,
  proof: Proof,
  readPrograms: ReadonlyMap<string, ReadProgram>,
  files: readonly OutFile[],
): JobSheet {
  const parts = sheet.parts.map(({ part }) => named(road.assembly.parts, part));
  const flip = road.flips[sheet.id];
  return {
    id: sheet.id,
    stock: sheet.stock.id,
    size: sheet.stock.size,
    thickness: parts[0]?.thickness.mean ?? 0,
    parts: parts.map(({ id }) => id),
    yield: round(yieldOf(sheet, road.assembly.parts)),
    flip: flip === undefined ? null : { axis: flip.axis, at: flip.at },
    pins:
      flip?.pins === undefined
        ? null
        : {
            diameter: flip.pins.diameter,
            depth: round(flip.pins.depth),
            play: shop.machine.pins.play,
            apart: round(proof.setupsApart?.[sheet.id] ?? 0),
            at: flip.pins.at.map(([x, y]) => [round(x), round(y)] as const),
          },
    dxf: files.map(({ file }) => file).filter((file) => file.startsWith(`dxf/${sheet.id}`)),
    programs: road.programs
      .filter((program) => program.sheet === sheet.id)
      .map((program) => programOf(program, readPrograms.get(program.file)!, proof.engagements ?? [])),
  };
}

function programOf(
  program: WrittenProgram,
  read: ReadProgram,
  found: NonNullable<Proof["engagements"]>,
): JobProgram {
  const cutters = program.cutters.map((c) => ({ number: c.number, ...cutterOf(c) }));
  const [only] = program.cutters;
  return {
    file: `gcode/${program.file}`,
    setup: program.setup,
    ...(cutters.length === 1 && only ? { cutter: cutterOf(only) } : { cutters }),
    zZero: program.zZero,
    minutes: round(program.minutes),
    ...reach(program.file, read),
    blocks: read.facts.blocks,
    tabs: program.tabs.map((tab) => ({
      part: tab.part,
      at: [round(tab.at[0]), round(tab.at[1])],
      length: round(tab.length),
      height: round(tab.height),
    })),
    corners: program.corners.map((corner) => ({ ...corner, at: [round(corner.at[0]), round(corner.at[1])] })),
    edges: program.edges.map((edge) => ({
      ...edge,
      left: [round(edge.left[0]), round(edge.left[1])] as const,
    })),
    cleared: program.cleared.map((one) => clearedEntry(one, program.file, found)),
    skin: program.skin,
  };
}

/** A program that feeds nowhere is not written, so one that was proved has extents. */
function reach(file: string, { facts }: ReadProgram): Pick<JobProgram, "extents" | "deepest"> {
  const { extents, deepest } = facts;
  if (extents === null || deepest === null) throw new RangeError(`${file} cuts nothing`);
  const { min, max } = extents;
  return {
    extents: { x: [min.x, max.x], y: [min.y, max.y], z: [min.z, max.z] },
    deepest,
  };
}

function cutterOf({ id, kind, diameter }: WrittenProgram["cutters"][number]): JobCutter {
  return { id, kind, diameter };
}

function named(parts: readonly Part[], id: string): Part {
  const found = parts.find((part) => part.id === id);
  if (!found) throw new RangeError(`no part is called ${id}`);
  return found;
}

/** The last decimal place that we print; no −0. */
function round(value: number): number {
  return Math.round(value * 1000) / 1000 + 0;
}
