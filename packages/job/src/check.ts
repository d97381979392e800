import type { Cutter } from "@dryfit/gcode";
import { placement } from "@dryfit/geometry";
import type { Sheet, Stock } from "@dryfit/nest";
import type { SolidKernel } from "@dryfit/verify";
import { z } from "zod";
import { withClamps } from "./clamps.ts";
import { FOLDER_NAMES } from "./describe.ts";
import { readInput, type Shop } from "./input.ts";
import type { PlacedFinding } from "./job.ts";
import { type Made, proved } from "./make.ts";
import { type OutFile, sha256Of } from "./outfile.ts";
import { hasErrors, type OnStage, type Road, type WrittenProgram } from "./road.ts";
import { assemblyOf, stocksFor } from "./work.ts";

/**
 * Proves a folder again from the files as they stand in it: the parts from its design, where they lie and what was
 * declared from its job.json, the cuts from its programs and DXF files. Nothing is planned anew.
 */
export async function checkJob(
  folder: readonly OutFile[],
  onStage: OnStage = () => {},
  kernel?: SolidKernel,
): Promise<Made> {
  onStage("reading the folder");
  const missing = [FOLDER_NAMES.design, FOLDER_NAMES.machine, FOLDER_NAMES.cutters, MANIFEST].filter(
    (name) => !textOf(folder, name),
  );
  if (missing.length > 0) return unreadable(missing.map(notThere));
  const manifest = readManifest(textOf(folder, MANIFEST)!);
  if (manifest === null) return unreadable([notOurs]);
  const shop = readInput({
    design: fileOf(folder, FOLDER_NAMES.design),
    machine: fileOf(folder, FOLDER_NAMES.machine),
    cutters: fileOf(folder, FOLDER_NAMES.cutters),
    version: manifest.tool.version,
  });
  if (!("design" in shop)) return unreadable(shop);
  const cutFiles = folder.filter(({ file }) => /^(dxf|gcode)\//.test(file));
  const absent = manifest.files.filter(({ file }) => !textOf(folder, file)).map(({ file }) => notThere(file));
  if (absent.length > 0) return unreadable(absent);
  const changed = manifest.files.filter(({ file, sha256 }) => sha256Of(textOf(folder, file)!) !== sha256);

  onStage("working out the parts");
  const assembly = assemblyOf(manifest.kind, shop.design);
  if (hasErrors(assembly.findings))
    return {
      outcome: "cannot",
      files: [],
      job: null,
      findings: assembly.findings.map(shop.placed),
      shown: null,
    };
  const strangers = strangersIn(
    manifest,
    assembly.parts.map(({ id }) => id),
    shop.cutters,
  );
  if (strangers.length > 0) return unreadable(strangers);
  const road = asWritten(manifest, shop, assembly, folder);
  const checked = await proved(manifest.tool.version, shop, road, cutFiles, onStage, kernel, manifest.kind);
  return { ...checked, findings: [...changed.map(({ file }) => wasChanged(file)), ...checked.findings] };
}

const MANIFEST = "job.json";

/** As much of job.json as a check leans on; whatever else it holds stays. */
const manifestShape = z.looseObject({
  kind: z.enum(["case", "coupon"]),
  tool: z.looseObject({ name: z.literal("dryfit"), version: z.string() }),
  files: z.array(z.object({ file: z.string(), sha256: z.string() })),
  parts: z.array(
    z.looseObject({
      id: z.string(),
      sheet: z.string(),
      placed: z.object({ turnDeg: z.number(), shift: z.tuple([z.number(), z.number()]) }),
    }),
  ),
  sheets: z.array(
    z.looseObject({
      id: z.string(),
      stock: z.string(),
      parts: z.array(z.string()),
      flip: z.object({ axis: z.enum(["x", "y"]), at: z.number() }).nullable(),
      programs: z.array(
        z.looseObject({
          file: z.string(),
          setup: z.enum(["A", "B"]),
          zZero: z.enum(["bed", "top"]),
          cutter: z.looseObject({ id: z.string() }).optional(),
          cutters: z.array(z.looseObject({ id: z.string() })).optional(),
          minutes: z.number(),
          tabs: z.array(
            z.object({
              part: z.string(),
              at: z.tuple([z.number(), z.number()]),
              length: z.number(),
              height: z.number(),
            }),
          ),
          corners: z.array(
            z.object({ part: z.string(), at: z.tuple([z.number(), z.number()]), radius: z.number() }),
          ),
          skin: z.number().nullable(),
        }),
      ),
    }),
  ),
});

type Manifest = z.infer<typeof manifestShape>;

function readManifest(text: string): Manifest | null {
  try {
    const read = manifestShape.safeParse(JSON.parse(text));
    return read.success ? read.data : null;
  } catch {
    return null;
  }
}

/** The road as the folder tells it. */
function asWritten(
  manifest: Manifest,
  shop: Shop,
  assembly: Road["assembly"],
  folder: readonly OutFile[],
): Road {
  const stocks = withClamps(stocksFor(manifest.kind, shop.design, assembly), shop.machine, assembly.parts);
  const sheets = manifest.sheets.map((sheet): Sheet => {
    const parts = manifest.parts.filter((part) => part.sheet === sheet.id);
    return {
      id: sheet.id,
      stock: stocks.find(({ id }) => id === sheet.stock) ?? (stocks[0] as Stock),
      parts: parts.map(({ id, placed }) => ({ part: id, placement: placementOf(placed) })),
    };
  });
  const flips = Object.fromEntries(manifest.sheets.flatMap(({ id, flip }) => (flip ? [[id, flip]] : [])));
  const programs = manifest.sheets.flatMap((sheet) =>
    sheet.programs.map((program) => programOf(program, sheet.id, shop, folder)),
  );
  const layout = { sheets, unplaced: [], findings: [] };
  return { assembly, layout, flips, plans: [], programs, findings: assembly.findings };
}

function placementOf({ turnDeg, shift: [x, y] }: Manifest["parts"][number]["placed"]) {
  const quarters = Math.floor(turnDeg / 90);
  const angle = ((turnDeg - quarters * 90) * Math.PI) / 180;
  return placement<"sheet", "panel">({ x, y }, { quarters: (quarters % 4) as 0 | 1 | 2 | 3, angle });
}

function programOf(
  program: Manifest["sheets"][number]["programs"][number],
  sheet: string,
  shop: Shop,
  folder: readonly OutFile[],
): WrittenProgram {
  const { file, setup, zZero, minutes, tabs, corners, skin } = program;
  const ids = cutterIds(program);
  return {
    file: file.replace(/^gcode\//, ""),
    text: textOf(folder, file)!,
    sheet,
    setup,
    zZero,
    minutes,
    cutters: ids.flatMap((id) => shop.cutters.find((cutter) => cutter.id === id) ?? []),
    tabs,
    corners,
    skin,
  };
}

function cutterIds({ cutter, cutters }: Manifest["sheets"][number]["programs"][number]): string[] {
  return (cutter ? [cutter] : (cutters ?? [])).map(({ id }) => id);
}

/** Names that job.json uses and the design, the cutter file or the manifest itself does not know. */
function strangersIn(
  manifest: Manifest,
  parts: readonly string[],
  cutters: readonly Cutter[],
): readonly PlacedFinding[] {
  const sheets = manifest.sheets.map(({ id }) => id);
  const known = {
    part: new Set(parts),
    sheet: new Set(sheets),
    cutter: new Set(cutters.map(({ id }) => id)),
    file: new Set(manifest.files.map(({ file }) => file)),
  };
  const programs = manifest.sheets.flatMap((sheet) => sheet.programs);
  const used: readonly (readonly [keyof typeof known, string])[] = [
    ...manifest.parts.flatMap(({ id, sheet }) => [["part", id] as const, ["sheet", sheet] as const]),
    ...programs.flatMap((program) => [
      ["file", program.file] as const,
      ...cutterIds(program).map((id) => ["cutter", id] as const),
    ]),
  ];
  return used.filter(([kind, name]) => !known[kind].has(name)).map(([kind, name]) => unknownName(kind, name));
}

function unreadable(findings: readonly PlacedFinding[]): Made {
  return { outcome: "unreadable", files: [], job: null, findings, shown: null };
}

function textOf(folder: readonly OutFile[], name: string): string | undefined {
  return folder.find(({ file }) => file === name)?.text;
}

function fileOf(folder: readonly OutFile[], name: string): OutFile {
  return { file: name, text: textOf(folder, name)! };
}

const notOurs: PlacedFinding = {
  code: "not_our_job",
  severity: "error",
  path: MANIFEST,
  message: "This job.json is not one that dryfit wrote.",
  numbers: {},
  wayOut: "Make the folder again with dryfit make.",
  at: null,
};

function notThere(file: string): PlacedFinding {
  return {
    code: "file_missing",
    severity: "error",
    path: file,
    message: `${file} is not in the folder.`,
    numbers: {},
    wayOut: "Make the folder again with dryfit make.",
    at: null,
  };
}

function unknownName(kind: string, name: string): PlacedFinding {
  return {
    code: "unknown_name",
    severity: "error",
    path: MANIFEST,
    message: `job.json speaks of the ${kind} ${name}, which the folder's other files do not know.`,
    numbers: {},
    wayOut: "Make the folder again with dryfit make.",
    at: null,
  };
}

function wasChanged(file: string): PlacedFinding {
  return {
    code: "file_changed",
    severity: "warning",
    path: file,
    message: `${file} was changed since it was made.`,
    numbers: {},
    wayOut: "What follows is proved of the file as it is now.",
    at: null,
  };
}
