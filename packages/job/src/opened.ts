import { withClamps } from "./clamps.ts";
import { FOLDER_NAMES } from "./describe.ts";
import { readInput, type Shop } from "./input.ts";
import type { PlacedFinding } from "./job.ts";
import {
  absentFrom,
  asWritten,
  fileOf,
  MANIFEST,
  type Manifest,
  notOurs,
  notThere,
  readManifest,
  strangersIn,
  textOf,
} from "./manifest.ts";
import type { OutFile } from "./outfile.ts";
import { hasErrors, type Road } from "./road.ts";
import { assemblyOf, stocksFor, type Work } from "./work.ts";

/** A folder that dryfit made, read: its inputs, and the road as its job.json tells it. */
export interface Opened {
  readonly kind: Work;
  readonly manifest: Manifest;
  readonly shop: Shop;
  readonly road: Road;
}

/** Why a folder cannot be opened. */
export interface Closed {
  readonly outcome: "cannot" | "unreadable";
  readonly findings: readonly PlacedFinding[];
}

/** Reads a folder without proving it. Nothing is planned anew. */
export function openFolder(folder: readonly OutFile[]): Opened | Closed {
  const missing = [FOLDER_NAMES.design, FOLDER_NAMES.machine, FOLDER_NAMES.cutters, MANIFEST].filter(
    (name) => !textOf(folder, name),
  );
  if (missing.length > 0) return unreadable(missing.map(notThere));
  const manifest = readManifest(textOf(folder, MANIFEST)!);
  if (manifest === null || manifest.kind === "batch") return unreadable([notOurs]);
  const { kind } = manifest;
  const shop = readInput({
    design: fileOf(folder, FOLDER_NAMES.design),
    machine: fileOf(folder, FOLDER_NAMES.machine),
    cutters: fileOf(folder, FOLDER_NAMES.cutters),
    prices: textOf(folder, FOLDER_NAMES.prices) === undefined ? null : fileOf(folder, FOLDER_NAMES.prices),
    drawings: folder,
    version: manifest.tool.version,
  });
  if (!("design" in shop)) return unreadable(shop);
  const absent = absentFrom(manifest, folder);
  if (absent.length > 0) return unreadable(absent);
  const assembly = assemblyOf(kind, shop.design);
  if (hasErrors(assembly.findings))
    return { outcome: "cannot", findings: assembly.findings.map(shop.placed) };
  const strangers = strangersIn(
    manifest,
    assembly.parts.map(({ id }) => id),
    shop.cutters,
  );
  if (strangers.length > 0) return unreadable(strangers);
  const stocks = withClamps(stocksFor(kind, shop.design, assembly), shop.machine, assembly.parts);
  const road = asWritten(manifest, { assembly, stocks, cutters: shop.cutters }, folder);
  return { kind, manifest, shop, road };
}

function unreadable(findings: readonly PlacedFinding[]): Closed {
  return { outcome: "unreadable", findings };
}
