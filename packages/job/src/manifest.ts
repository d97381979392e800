import type { Cutter } from "@dryfit/gcode";
import { placement } from "@dryfit/geometry";
import type { Assembly } from "@dryfit/joinery";
import type { Sheet, Stock } from "@dryfit/nest";
import { z } from "zod";
import type { Job, JobPart, JobProgram, JobSheet, PlacedFinding } from "./job.ts";
import { type OutFile, sha256Of } from "./outfile.ts";
import type { Road, WrittenProgram } from "./road.ts";
import type { Work } from "./work.ts";

export const MANIFEST = "job.json";

const AGAIN = "Make the folder again with the command that made it.";

/** As much of job.json as a check leans on; whatever else it holds stays. */
export interface Manifest extends Pick<Job, "name" | "tool" | "files"> {
  readonly verification: { readonly pass: boolean };
  readonly kind: Work | "batch";
  readonly parts: readonly Pick<JobPart, "id" | "sheet" | "placed">[];
  readonly sheets: readonly (Pick<JobSheet, "id" | "stock" | "parts" | "flip"> & {
    readonly pins: Pick<NonNullable<JobSheet["pins"]>, "diameter" | "depth" | "at"> | null;
    readonly programs: readonly ManifestProgram[];
  })[];
}

interface ManifestProgram
  extends Pick<
    JobProgram,
    "file" | "setup" | "zZero" | "minutes" | "tabs" | "corners" | "edges" | "cleared" | "skin"
  > {
  readonly cutter?: { readonly id: string } | undefined;
  readonly cutters?: readonly { readonly id: string }[] | undefined;
}

const manifestShape = z.looseObject({
  name: z.string(),
  kind: z.enum(["case", "coupon", "batch"]),
  verification: z.looseObject({ pass: z.boolean() }),
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
      pins: z
        .object({
          diameter: z.number(),
          depth: z.number(),
          at: z.array(z.tuple([z.number(), z.number()])),
        })
        .nullable(),
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
          edges: z.array(
            z.object({
              part: z.string(),
              edge: z.string(),
              face: z.enum(["A", "B"]),
              left: z.tuple([z.number(), z.number()]),
            }),
          ),
          cleared: z.array(
            z.object({
              part: z.string(),
              feature: z.string(),
              method: z.enum(["contour", "raster", "engagement", "line", "rest"]),
              engagementDeg: z.number(),
              limitDeg: z.number().nullable(),
              highestDeg: z.number().nullable(),
              minutes: z.number(),
            }),
          ),
          skin: z.number().nullable(),
        }),
      ),
    }),
  ),
});

export function readManifest(text: string): Manifest | null {
  try {
    const read = manifestShape.safeParse(JSON.parse(text));
    return read.success ? read.data : null;
  } catch {
    return null;
  }
}

/** What follows from the folder's design and shop files. */
interface Known {
  readonly assembly: Assembly;
  readonly stocks: readonly Stock[];
  readonly cutters: readonly Cutter[];
}

/** The road as the folder tells it. */
export function asWritten(
  manifest: Manifest,
  { assembly, stocks, cutters }: Known,
  folder: readonly OutFile[],
): Road {
  const sheets = manifest.sheets.map((sheet): Sheet => {
    const parts = manifest.parts.filter((part) => part.sheet === sheet.id);
    return {
      id: sheet.id,
      stock: stocks.find(({ id }) => id === sheet.stock) ?? (stocks[0] as Stock),
      parts: parts.map(({ id, placed }) => ({ part: id, placement: placementOf(placed) })),
    };
  });
  const flips = Object.fromEntries(
    manifest.sheets.flatMap(({ id, flip, pins }) =>
      flip ? [[id, { ...flip, ...(pins ? { pins } : {}) }]] : [],
    ),
  );
  const programs = manifest.sheets.flatMap((sheet) =>
    sheet.programs.map((program) => programOf(program, sheet.id, cutters, folder)),
  );
  const layout = { sheets, unplaced: [], findings: [] };
  return { assembly, layout, steps: 0, flips, plans: [], programs, findings: assembly.findings };
}

function placementOf({ turnDeg, shift: [x, y] }: Manifest["parts"][number]["placed"]) {
  const quarters = Math.floor(turnDeg / 90);
  const angle = ((turnDeg - quarters * 90) * Math.PI) / 180;
  return placement<"sheet", "panel">({ x, y }, { quarters: (quarters % 4) as 0 | 1 | 2 | 3, angle });
}

function programOf(
  program: ManifestProgram,
  sheet: string,
  cutters: readonly Cutter[],
  folder: readonly OutFile[],
): WrittenProgram {
  const { file, setup, zZero, minutes, tabs, corners, edges, cleared, skin } = program;
  const ids = cutterIds(program);
  return {
    file: file.replace(/^gcode\//, ""),
    text: textOf(folder, file)!,
    sheet,
    setup,
    zZero,
    minutes,
    cutters: ids.flatMap((id) => cutters.find((cutter) => cutter.id === id) ?? []),
    tabs,
    corners,
    edges,
    cleared: cleared.map(({ part, feature, method, engagementDeg, limitDeg, minutes: own }) => ({
      part,
      feature,
      method,
      engagement: radians(engagementDeg),
      limit: limitDeg === null ? null : radians(limitDeg),
      minutes: own,
    })),
    skin,
  };
}

const radians = (deg: number): number => (deg * Math.PI) / 180;

function cutterIds({ cutter, cutters }: ManifestProgram): string[] {
  return (cutter ? [cutter] : (cutters ?? [])).map(({ id }) => id);
}

/** Names that job.json uses and the design, the cutter file or the manifest itself does not know. */
export function strangersIn(
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

export function textOf(folder: readonly OutFile[], name: string): string | undefined {
  return folder.find(({ file }) => file === name)?.text;
}

export function fileOf(folder: readonly OutFile[], name: string): OutFile {
  return { file: name, text: textOf(folder, name)! };
}

export const notOurs: PlacedFinding = {
  code: "not_our_job",
  severity: "error",
  path: MANIFEST,
  message: "This job.json is not one that dryfit wrote.",
  numbers: {},
  wayOut: AGAIN,
  at: null,
};

export function notThere(file: string): PlacedFinding {
  return {
    code: "file_missing",
    severity: "error",
    path: file,
    message: `${file} is not in the folder.`,
    numbers: {},
    wayOut: AGAIN,
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
    wayOut: AGAIN,
    at: null,
  };
}

/** Files that are not as they were made. */
export function changedIn(
  { files }: Pick<Manifest, "files">,
  folder: readonly OutFile[],
): readonly PlacedFinding[] {
  return files
    .filter(({ file, sha256 }) => sha256Of(textOf(folder, file)!) !== sha256)
    .map(({ file }) => wasChanged(file));
}

/** Files that should be there and are not. */
export function absentFrom(
  { files }: Pick<Manifest, "files">,
  folder: readonly OutFile[],
): readonly PlacedFinding[] {
  return files.filter(({ file }) => textOf(folder, file) === undefined).map(({ file }) => notThere(file));
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
