import type { SolidKernel } from "@dryfit/verify";
import { withClamps } from "./clamps.ts";
import { FOLDER_NAMES } from "./describe.ts";
import { readInput } from "./input.ts";
import type { PlacedFinding } from "./job.ts";
import { type Made, proved } from "./make.ts";
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
} from "./manifest.ts";
import type { OutFile } from "./outfile.ts";
import { hasErrors, type OnStage } from "./road.ts";
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
  if (manifest === null || manifest.kind === "batch") return unreadable([notOurs]);
  const shop = readInput({
    design: fileOf(folder, FOLDER_NAMES.design),
    machine: fileOf(folder, FOLDER_NAMES.machine),
    cutters: fileOf(folder, FOLDER_NAMES.cutters),
    drawings: folder,
    version: manifest.tool.version,
  });
  if (!("design" in shop)) return unreadable(shop);
  const cutFiles = folder.filter(({ file }) => /^(dxf|gcode)\//.test(file));
  const absent = absentFrom(manifest, folder);
  if (absent.length > 0) return unreadable(absent);

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
  const stocks = withClamps(stocksFor(manifest.kind, shop.design, assembly), shop.machine, assembly.parts);
  const road = asWritten(manifest, { assembly, stocks, cutters: shop.cutters }, folder);
  const checked = await proved(manifest.tool.version, shop, road, cutFiles, onStage, kernel, manifest.kind);
  return { ...checked, findings: [...changedIn(manifest, folder), ...checked.findings] };
}

function unreadable(findings: readonly PlacedFinding[]): Made {
  return { outcome: "unreadable", files: [], job: null, findings, shown: null };
}
