import { placeRegion, type Region } from "@dryfit/geometry";
import type { Shown } from "@dryfit/job";
import type { CutProgram } from "../../packages/drawing-board/src/cut/cut-program.ts";
import { DEPTH_STEP_MM, depthStepsAt } from "../../packages/drawing-board/src/cut/raster.ts";
import { timelineOf } from "../../packages/drawing-board/src/cut/timeline.ts";
import { type Wood, woodFor } from "../../packages/drawing-board/src/cut/wood.ts";
import { inProgram } from "../../packages/drawing-board/src/cut/worst.ts";
import { clear, type Grid, type Mask, maskOf } from "./mask.ts";

/** The parts of a sheet as the proof found them cut, seen in one of its programs. */
export interface Proved {
  /** The thickest skin that any program of the sheet leaves: it is sanded off. 0 where none does. */
  readonly skin: number;
  /** Depths from face A, each in the middle of a stretch where nothing changes. */
  readonly depths: readonly number[];
  readonly solidAt: (grid: Grid, depth: number) => Mask;
  /** Leaves out where tabs hang: the proof counts them as sanded off. */
  readonly withoutTabs: (mask: Mask, grid: Grid) => void;
}

export function provedIn(shown: Shown, file: string): Proved {
  const program = shown.programs.find((each) => each.file === file)!;
  const sheet = shown.layout.sheets.find(({ id }) => id === program.sheet)!;
  const flip = program.setup === "B" ? shown.flips[sheet.id] : undefined;
  const parts = sheet.parts.map(({ part, placement }) => ({
    cut: shown.proof!.cutParts.find((each) => each.part === part)!,
    placement,
  }));
  const floors = [
    ...new Set(parts.flatMap(({ cut }) => cut.layers.flatMap(({ from, to }) => [from, to]))),
  ].sort((a, b) => a - b);
  const depths = floors
    .slice(1)
    .flatMap((to, i) => (to - floors[i]! > THIN_MM ? [(floors[i]! + to) / 2] : []));
  const solid = (depth: number): Region<"sheet">[] =>
    parts.flatMap(({ cut, placement }) => {
      const layer = cut.layers.find(({ from, to }) => from <= depth && depth < to);
      return (layer?.solid ?? []).map((region) => placeRegion(placement, region));
    });
  const toGrid = (p: { x: number; y: number }) => inProgram(p, flip);
  const onSheet = shown.programs.filter((each) => each.sheet === sheet.id);
  const tabs = onSheet.flatMap((each) =>
    each.tabs.map(({ at: [x, y], length }) => ({ ...toGrid({ x, y }), radius: length + 4 })),
  );
  return {
    skin: Math.max(...onSheet.map((each) => each.skin ?? 0)),
    depths,
    solidAt: (grid, depth) => maskOf(grid, solid(depth), toGrid),
    withoutTabs: (mask, grid) => clear(mask, grid, tabs),
  };
}

/** Floors that lie closer are one, but for what rounding leaves. */
const THIN_MM = 0.02;

/** The program that cuts a sheet last. */
export function lastOn(shown: Shown, sheet: string): string {
  return shown.programs.findLast((program) => program.sheet === sheet)!.file;
}

export function cutToTheEnd(program: CutProgram): Wood {
  const timeline = timelineOf(program.read.motions);
  const wood = woodFor(program, timeline);
  wood.replay.seek(timeline.seconds);
  return wood;
}

/** How deep the wood is taken away from both faces, pixel by pixel, mm. */
export interface Taken {
  readonly thickness: number;
  readonly fromA: Float32Array;
  readonly fromB: Float32Array;
}

export function takenOn({ replay: { raster }, under, program }: Wood, grid: Grid): Taken {
  const { left, low, pixel, columns, rows } = grid;
  const { corner, face, thickness } = program;
  const [up, down] = [new Float32Array(columns * rows), new Float32Array(columns * rows)];
  for (let at = 0; at < up.length; at++) {
    const column = Math.floor((left + ((at % columns) + 0.5) * pixel - corner[0]) / raster.pixel);
    const row = Math.floor((low + (Math.floor(at / columns) + 0.5) * pixel - corner[1]) / raster.pixel);
    up[at] = depthStepsAt(raster, column, row) * DEPTH_STEP_MM;
    if (under) down[at] = depthStepsAt(under, column, row) * DEPTH_STEP_MM;
  }
  return face === "A" ? { thickness, fromA: up, fromB: down } : { thickness, fromA: down, fromB: up };
}

/** Where wood is left at a depth from face A, but for the skin. */
export function woodAt({ thickness, fromA, fromB }: Taken, depth: number, skin: number): Mask {
  const mask = new Uint8Array(fromA.length);
  for (let at = 0; at < mask.length; at++) {
    const [a, b] = [fromA[at]!, fromB[at]!];
    if (a < depth && b < thickness - depth && thickness - a - b >= skin + THIN_MM) mask[at] = 1;
  }
  return mask;
}

/** Where a skin is all that is left. */
export function skinOn({ thickness, fromA, fromB }: Taken, skin: number): Mask {
  return Uint8Array.from(fromA, (a, at) => (thickness - a - fromB[at]! < skin + THIN_MM ? 1 : 0));
}
