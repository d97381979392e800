import type { CutBefore, CutProgram } from "./cut-program.ts";
import { createRaster, DEPTH_STEP_MM, depthStepsAt, type Raster } from "./raster.ts";
import { createReplay, cut, type Replay } from "./replay.ts";
import type { Timeline } from "./timeline.ts";
import type { Place } from "./window.ts";

/** The wood of one program, from what was there before it to its end. */
export interface Wood {
  readonly program: CutProgram;
  readonly replay: Replay;
  /** What earlier setups took from the face that lies down; null where that is whole. */
  readonly under: Raster | null;
}

/** The sheet as the programs before this one left it, ready to be cut. */
export function woodFor(program: CutProgram, timeline: Timeline): Wood {
  const up = sheetOf(program, "up") ?? createRaster(program.size);
  const { corner, tooling } = program;
  return {
    program,
    under: sheetOf(program, "down"),
    replay: createReplay(up, { ...timeline, motions: shifted(timeline.motions, corner) }, tooling),
  };
}

function sheetOf({ before, size, corner }: CutProgram, side: CutBefore["side"]): Raster | null {
  const here = before.filter((each) => each.side === side);
  if (here.length === 0) return null;
  const raster = createRaster(size);
  for (const { motions, tooling } of here)
    for (const motion of shifted(motions, corner)) cut(raster, motion, 0, 1, tooling);
  return raster;
}

/** Rasters begin at the sheet's corner, wherever the program has its zero. */
function shifted(motions: Timeline["motions"], [x, y]: CutProgram["corner"]): Timeline["motions"] {
  if (x === 0 && y === 0) return motions;
  const moved = <P extends { readonly x: number; readonly y: number }>(p: P): P => ({
    ...p,
    x: p.x - x,
    y: p.y - y,
  });
  return motions.map((motion) => ({
    ...motion,
    from: moved(motion.from),
    to: moved(motion.to),
    arc: motion.arc && { ...motion.arc, centre: moved(motion.arc.centre) },
  }));
}

/** How the wood stands at a place, in words. */
export function woodWords(
  { replay, under, program }: Wood,
  at: Place,
  length: (mm: number) => string,
): string {
  const { raster } = replay;
  const column = Math.floor((at.x - program.corner[0]) / raster.pixel);
  const row = Math.floor((at.y - program.corner[1]) / raster.pixel);
  const place = `At X ${length(at.x)}, Y ${length(at.y)}: `;
  if (column < 0 || row < 0 || column >= raster.columns || row >= raster.rows)
    return `${place}beside the sheet.`;
  const depth = depthStepsAt(raster, column, row) * DEPTH_STEP_MM;
  const below = under ? depthStepsAt(under, column, row) * DEPTH_STEP_MM : 0;
  const left = program.thickness - depth - below;
  if (left < 2 * DEPTH_STEP_MM) return `${place}cut through.`;
  if (depth === 0 && below === 0) return `${place}whole wood.`;
  return `${place}${length(depth)} deep, ${length(left)} left.`;
}
