import { type DxfReading, type LayerMeaning, readLayerName } from "@dryfit/dxf";
import { type BareSheet, judgeDrawing, judgeProgram, type OutFile } from "@dryfit/job";
import type { Finding } from "@dryfit/joinery";
import { type ReadProgram, readProgram } from "@dryfit/verify";
import { bareSheetFor } from "./bare-sheet.ts";

/** A file from anywhere as it was read and judged. */
export type Judged =
  | {
      readonly kind: "program";
      readonly read: ReadProgram;
      readonly findings: readonly Finding[];
      /** The sheet and the cutter that it was judged on. */
      readonly sheet: BareSheet;
    }
  | {
      readonly kind: "drawing";
      readonly reading: DxfReading;
      readonly findings: readonly Finding[];
      readonly meanings: Meanings;
    };

/** What the layers of a drawing mean; null for those that are not named as dryfit names them. */
export type Meanings = Readonly<Record<string, LayerMeaning | null>>;

/** Reads and judges a dropped file as dryfit's own are; `sheet` null: it is guessed. */
export function judgeFile(file: OutFile, sheet: BareSheet | null): Judged {
  if (isDrawing(file.file)) {
    const judged = judgeDrawing(file);
    const meanings = Object.fromEntries(
      judged.reading.layers.map((layer) => [layer, readLayerName(layer)] as const),
    );
    return { kind: "drawing", ...judged, meanings };
  }
  const on = sheet ?? bareSheetFor(file.text, readProgram(file.text));
  return { kind: "program", ...judgeProgram(file, on), sheet: on };
}

function isDrawing(file: string): boolean {
  return /\.dxf$/i.test(file);
}
