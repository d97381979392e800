import { rgb } from "../page-colours.ts";
import type { Scene } from "./scene.ts";
import { type Patch, type Picture, patchOf, type Shading, shade } from "./shade.ts";

export function shadingOf({ wood, colours }: Scene): Shading {
  const { corner, thickness, grain, face } = wood.program;
  const inks = {
    paper: rgb(colours.paper),
    ink: rgb(colours.ink),
    hatch: rgb(face === "A" ? colours.recess : colours.faceB),
  };
  return { raster: wood.replay.raster, under: wood.under, corner, thickness, grain, face, inks };
}

export function paintAll(
  context: CanvasRenderingContext2D,
  image: ImageData,
  picture: Picture,
  shading: Shading,
): void {
  const { width, height } = picture;
  shade(picture, shading, { x: 0, y: 0, width, height });
  shading.raster.dirty.fill(0);
  context.putImageData(image, 0, 0);
}

/** Shades the dirty tiles from one on, for some time at most. Null where all is done, else the tile to go on with. */
export function paintChanged(
  context: CanvasRenderingContext2D,
  image: ImageData,
  picture: Picture,
  shading: Shading,
  { from, most }: { readonly from: number; readonly most: number },
): number | null {
  const { tiles, dirty } = shading.raster;
  const started = performance.now();
  let next: number | null = null;
  let whole: Patch | null = null;
  for (let i = 0; i < tiles.length; i++) {
    const tile = (from + i) % tiles.length;
    if (dirty[tile] === 0) continue;
    if (performance.now() - started > most) {
      next = tile;
      break;
    }
    dirty[tile] = 0;
    const patch = patchOf(picture, shading, tile);
    if (patch === null) continue;
    shade(picture, shading, patch);
    whole = whole ? around(whole, patch) : patch;
  }
  // One piece: many small ones take longer than the pixels between them.
  if (whole) context.putImageData(image, 0, 0, whole.x, whole.y, whole.width, whole.height);
  return next;
}

function around(a: Patch, b: Patch): Patch {
  const [x, y] = [Math.min(a.x, b.x), Math.min(a.y, b.y)];
  return {
    x,
    y,
    width: Math.max(a.x + a.width, b.x + b.width) - x,
    height: Math.max(a.y + a.height, b.y + b.height) - y,
  };
}
