import { together } from "@dryfit/joinery";
import { loadSolidKernel, type SolidKernel } from "@dryfit/verify";
import { z } from "zod";
import { withClamps } from "../clamps.ts";
import { FOLDER_NAMES } from "../describe.ts";
import { readInput } from "../input.ts";
import type { PlacedFinding } from "../job.ts";
import {
  absentFrom,
  asWritten,
  changedIn,
  fileOf,
  MANIFEST,
  notOurs,
  notThere,
  readManifest,
  strangersIn,
  textOf,
} from "../manifest.ts";
import type { OutFile } from "../outfile.ts";
import { hasErrors, type OnStage } from "../road.ts";
import type { BatchMade } from "./batch-job.ts";
import { caseOf, stocksOfAll, toldOf } from "./make-batch.ts";
import { provedBatch } from "./prove-batch.ts";

/** Proves the folder of a batch again from the files as they stand in it, case by case. */
export async function checkBatch(
  folder: readonly OutFile[],
  onStage: OnStage = () => {},
  kernel?: SolidKernel,
): Promise<BatchMade> {
  onStage("reading the folder");
  const needed = ["batch.yaml", FOLDER_NAMES.machine, FOLDER_NAMES.cutters, MANIFEST];
  const missing = needed.filter((name) => textOf(folder, name) === undefined);
  if (missing.length > 0) return nothing("unreadable", missing.map(notThere));
  const manifest = readManifest(textOf(folder, MANIFEST)!);
  const listed = casesShape.safeParse(manifest);
  if (manifest === null || !listed.success) return nothing("unreadable", [notOurs]);
  const absent = [
    ...absentFrom(manifest, folder),
    ...listed.data.cases
      .filter(({ design }) => textOf(folder, design.file) === undefined)
      .map(({ design }) => notThere(design.file)),
  ];
  if (absent.length > 0) return nothing("unreadable", absent);
  const shops = listed.data.cases.map(({ id, design }) => ({
    id,
    shop: readInput({
      design: fileOf(folder, design.file),
      machine: fileOf(folder, FOLDER_NAMES.machine),
      cutters: fileOf(folder, FOLDER_NAMES.cutters),
      prices: textOf(folder, FOLDER_NAMES.prices) === undefined ? null : fileOf(folder, FOLDER_NAMES.prices),
      drawings: folder.flatMap(({ file, text }) =>
        file.startsWith(`cases/${id}/`) ? [{ file: file.slice(`cases/${id}/`.length), text }] : [],
      ),
      version: manifest.tool.version,
    }),
  }));
  const problems = shops.flatMap(({ shop }) => ("design" in shop ? [] : shop));
  if (problems.length > 0) return nothing("unreadable", problems);

  onStage("working out the parts");
  const cases = shops.flatMap(({ id, shop }) => ("design" in shop ? [caseOf(id, shop)] : []));
  const told = toldOf(cases);
  if (hasErrors(told)) return nothing("cannot", told);
  const all = together(
    manifest.name,
    cases.map(({ assembly }) => assembly),
  );
  const { machine, cutters } = cases[0]!.shop;
  const parts = all.parts.map(({ id }) => id);
  const strangers = strangersIn(manifest, parts, cutters);
  if (strangers.length > 0) return nothing("unreadable", strangers);
  const stocks = withClamps(stocksOfAll(cases.map(({ shop }) => shop.design)), machine, all.parts);
  const road = asWritten(manifest, { assembly: { ...all, findings: [] }, stocks, cutters }, folder);
  const cut = folder.filter(({ file }) => /^(dxf|gcode)\//.test(file));
  const batch = fileOf(folder, "batch.yaml");
  const checked = await provedBatch(
    { version: manifest.tool.version, batch, cases, road, cut, told },
    onStage,
    kernel ?? (await loadSolidKernel()),
  );
  return { ...checked, findings: [...changedIn(manifest, folder), ...checked.findings] };
}

const casesShape = z.looseObject({
  kind: z.literal("batch"),
  cases: z.array(z.looseObject({ id: z.string(), design: z.looseObject({ file: z.string() }) })).min(1),
});

function nothing(outcome: "cannot" | "unreadable", findings: readonly PlacedFinding[]): BatchMade {
  return { outcome, files: [], job: null, findings };
}
