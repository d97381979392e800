import { type AirProgram, spottingProgram, walkProgram } from "@dryfit/gcode";
import { CUT_MM } from "@dryfit/geometry";
import type { Finding } from "@dryfit/joinery";
import { checkProgram, type Motion, proveCuts } from "@dryfit/verify";
import { revisionOf } from "./describe.ts";
import type { PlacedFinding } from "./job.ts";
import { type Opened, openFolder } from "./opened.ts";
import type { OutFile } from "./outfile.ts";
import { machineFacts, toProve } from "./proving.ts";
import { hasErrors, titled, type WrittenProgram } from "./road.ts";

/** Programs to run before those that cut, proved; none unless made. */
export interface Beforehand {
  readonly outcome: "made" | "cannot" | "unreadable" | "disproved";
  readonly programs: readonly (OutFile & { readonly minutes: number })[];
  readonly findings: readonly PlacedFinding[];
}

/**
 * For each setup of each sheet a program that goes round the sheet's edge and its keep-outs in the air.
 *
 * Proved by reading it back: no motion is lower than the height of rapids, the spindle never turns, and it stays
 * within the machine's travel.
 */
export function walksOf(folder: readonly OutFile[]): Beforehand {
  const opened = openFolder(folder);
  if ("outcome" in opened) return { ...opened, programs: [] };
  const { road, shop } = opened;
  const walks = road.layout.sheets.flatMap((sheet) =>
    (["A", "B"] as const).flatMap((setup) => {
      const own = road.programs.filter((one) => one.sheet === sheet.id && one.setup === setup);
      const first = own[0];
      const part = road.assembly.parts.find(({ id }) => id === sheet.parts[0]?.part);
      if (first === undefined || part === undefined) return [];
      const { thickness } = part;
      const { machine } = shop;
      const cutters = own.flatMap((one) => one.cutters);
      const flip = road.flips[sheet.id] ?? null;
      const walk = walkProgram({
        name: titleOf(opened),
        sheet,
        setup,
        flip,
        thickness,
        machine,
        cutters,
      });
      const asRun = { ...first, file: walk.file, text: walk.text, tabs: [], corners: [], skin: null };
      return [{ walk, findings: judged(asRun, opened) }];
    }),
  );
  return outcomeOf(
    walks.map(({ walk }) => inMinutes(walk)),
    walks.flatMap(({ findings }) => findings),
  );
}

/**
 * For each sheet a program that spots the places of screws in waste, drilled by the first cutter of its first setup
 * or the one named. Proved with all that is cut afterwards: no part is touched.
 */
export function spotsOf(folder: readonly OutFile[], cutterId: string | null): Beforehand {
  const opened = openFolder(folder);
  if ("outcome" in opened) return { ...opened, programs: [] };
  const { road, shop } = opened;
  const ids = shop.cutters.map(({ id }) => id);
  if (cutterId !== null && !ids.includes(cutterId))
    return { outcome: "unreadable", programs: [], findings: [noCutter(cutterId, ids)] };
  const spotted = road.layout.sheets.flatMap((sheet) => {
    const first = road.programs.find((one) => one.sheet === sheet.id && one.setup === "A");
    const cutter = cutterId ?? first?.cutters[0]?.id;
    if (cutter === undefined) return [];
    const job = {
      name: titleOf(opened),
      parts: road.assembly.parts,
      sheets: road.layout.sheets,
      flips: road.flips,
      plans: [],
      machine: shop.machine,
      cutters: shop.cutters,
      wood: "plywood" as const,
    };
    return [spottingProgram(job, sheet.id, cutter)];
  });
  const programs = spotted.flatMap(({ program }) => program ?? []);
  const told = spotted.flatMap(({ findings }) => findings).map(shop.placed);
  if (hasErrors(told) || programs.length === 0) return { outcome: "cannot", programs: [], findings: told };
  const proof = proveCuts(toProve({ ...road, programs: [...programs, ...road.programs] }, shop));
  const touched = proof.perPart.filter(({ gouge, uncut }) => Math.max(gouge, uncut) > CUT_MM);
  const findings = [...told, ...proof.findings.map(shop.placed)];
  if (touched.length > 0) return { outcome: "disproved", programs: [], findings };
  return outcomeOf(programs, findings);
}

function titleOf({ road, shop, manifest }: Opened): string {
  return titled(road.assembly.name, revisionOf(shop, manifest.tool.version));
}

/** An error about a name or a file that the maker gave. */
export function nameError(code: string, path: string, message: string, wayOut: string): PlacedFinding {
  return { code, severity: "error", path, message, numbers: {}, wayOut, at: null };
}

function outcomeOf(programs: Beforehand["programs"], findings: readonly PlacedFinding[]): Beforehand {
  if (hasErrors(findings)) return { outcome: "disproved", programs: [], findings };
  return {
    outcome: "made",
    programs: programs.map(({ file, text, minutes }) => ({ file, text, minutes })),
    findings,
  };
}

function inMinutes({ file, text, seconds }: AirProgram): Beforehand["programs"][number] {
  return { file, text, minutes: seconds / 60 };
}

/** Whether a program moves in the air only, and the machine can do what it says. */
function judged(program: WrittenProgram, { road, shop }: Opened): readonly PlacedFinding[] {
  const sheet = road.layout.sheets.find(({ id }) => id === program.sheet)!;
  const { thickness } = road.assembly.parts.find(({ id }) => id === sheet.parts[0]?.part)!;
  const machine = machineFacts(shop.machine);
  const [asProved] = toProve({ ...road, programs: [program] }, shop).programs;
  const { read, findings } = checkProgram(asProved!, { sheet, thickness, machine });
  const face = program.zZero === "bed" ? thickness.max : thickness.max - thickness.mean;
  const wrong = read.motions.find(
    ({ from, to, spindle }) => spindle !== "off" || Math.min(from.z, to.z) < face,
  );
  return [...findings, ...(wrong === undefined ? [] : [notInAir(program.file, wrong)])].map(shop.placed);
}

function notInAir(file: string, { line, from, to, spindle }: Motion): Finding {
  const z = Math.min(from.z, to.z);
  const what =
    spindle === "off" ? `goes down to Z ${z}, below the sheet's face` : "moves with the spindle on";
  return {
    code: "not_in_the_air",
    severity: "error",
    path: `${file}:${line}`,
    message: `Line ${line} ${what}.`,
    numbers: { line, z },
  };
}

function noCutter(asked: string, ids: readonly string[]): PlacedFinding {
  return nameError(
    "no_such_cutter",
    asked,
    `The folder's cutter file holds no cutter ${asked}.`,
    `Its cutters: ${ids.join(", ")}.`,
  );
}
