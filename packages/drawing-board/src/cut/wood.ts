import type { CutBefore, CutProgram } from "./cut-program.ts";
import { createRaster, type Raster } from "./raster.ts";
import { createReplay, cut, type Replay } from "./replay.ts";
import type { Timeline } from "./timeline.ts";

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
