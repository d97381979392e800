import { hatchSpacing } from "@dryfit/drawing";
import { DEPTH_STEP_MM, depthStepsAt, type Raster, TILE } from "./raster.ts";
import type { Window } from "./window.ts";

/** Colours as red, green, blue. */
export type Rgb = readonly [number, number, number];

interface Inks {
  readonly paper: Rgb;
  readonly ink: Rgb;
  readonly hatch: Rgb;
}

/** What is shaded: the wood from above, where it lies in the window, and how it is drawn. */
export interface Shading {
  readonly raster: Raster;
  readonly under: Raster | null;
  readonly corner: readonly [number, number];
  readonly thickness: number;
  readonly grain: "x" | "y";
  /** Face B is hatched the other way. */
  readonly face: "A" | "B";
  readonly inks: Inks;
}

/** The picture of a window, in device pixels. */
export interface Picture {
  readonly window: Window;
  /** Device pixels to a pixel of the window. */
  readonly ratio: number;
  readonly width: number;
  readonly height: number;
  readonly pixels: Uint32Array;
}

export interface Patch {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/**
 * Shades a patch of the picture: darker with depth, hatched the closer the deeper, edges inked. Cut through is
 * darkest. Each pixel looks at four places within it, and at two beyond it for the edges.
 */
export function shade(picture: Picture, shading: Shading, patch: Patch): void {
  const { corner, thickness, grain, face, inks } = shading;
  const { window, ratio, width, height, pixels } = picture;
  const scale = window.scale * ratio;
  const through = throughSteps(thickness);
  const readRow = rowReader(picture, shading, patch, through);
  const tone = toneOf(through);
  const ink = mixer(inks);
  const right = Math.round((corner[0] - window.left) * scale);
  const up = Math.round((window.bottom - corner[1]) * scale) + height;
  const sense = face === "A" ? 1 : -1;
  const [hatchWidth, grainStep] = [0.75 * ratio * Math.SQRT2, GRAIN_PX * ratio];
  let [spaced, spacing] = [0, 1];
  let [top, middle, low] = [readRow(0), readRow(1), readRow(2)];
  for (let y = 0; y < patch.height; y++) {
    const start = (patch.y + y) * width + patch.x;
    const fromBelow = patch.y + y - up;
    for (let x = 0, i = 0; x < patch.width; x++, i += 2) {
      const [here, beside, next] = [top[i]!, top[i + 1]!, top[i + 2]!];
      const [below, across, over] = [middle[i]!, middle[i + 1]!, low[i]!];
      if (here === OUTSIDE) {
        pixels[start + x] = 0;
        continue;
      }
      const isEven = here === beside && here === below && here === across;
      let dark = isEven ? tone(here) : (tone(here) + tone(beside) + tone(below) + tone(across)) / 4;
      if (!isEven || next !== here || over !== here) {
        const most = Math.max(here, beside, below, across, next, over);
        const least = Math.min(here, beside, below, across, next, over);
        if (most - least > EDGE_STEPS && least !== OUTSIDE && dark < EDGE) dark = EDGE;
      }
      let hatch = 0;
      if (here === 0) {
        dark += GRAIN * line(grain === "x" ? fromBelow : patch.x + x - right, grainStep, 0.5 * ratio);
      } else if (here < through) {
        if (here !== spaced) {
          spaced = here;
          spacing = hatchSpacing(here * DEPTH_STEP_MM) * HATCH_PX_PER_MM * ratio * Math.SQRT2;
        }
        hatch = line(patch.x + x - right - sense * fromBelow, spacing, hatchWidth);
      }
      pixels[start + x] = ink(dark, hatch);
    }
    [top, middle, low] = [low, readRow(2 * y + 3), readRow(2 * y + 4)];
  }
}

/** Steps from which on a sheet counts as cut through: what rounding leaves is no wood. */
function throughSteps(thickness: number): number {
  return Math.round(thickness / DEPTH_STEP_MM) - 2;
}

/** Reads rows of depths at half pixels' distance from a patch's upper left; three are kept at a time. */
function rowReader(
  { window, ratio, height }: Picture,
  { raster, under, corner }: Shading,
  patch: Patch,
  through: number,
): (halves: number) => Int32Array {
  const finest = 1 / (window.scale * ratio * raster.pixel);
  const left = (window.left - corner[0]) / raster.pixel;
  const top = (window.bottom - corner[1]) / raster.pixel + height * finest;
  const count = 2 * patch.width + 1;
  const columns = Int32Array.from({ length: count }, (_, i) => {
    const column = Math.floor(left + (patch.x + 0.25 + i / 2) * finest);
    return column < 0 || column >= raster.columns ? OUTSIDE : column;
  });
  const rows = [new Int32Array(count), new Int32Array(count), new Int32Array(count)] as const;
  return (halves) => {
    const depths = rows[(halves % 3) as 0 | 1 | 2];
    const row = Math.floor(top - (patch.y + 0.25 + halves / 2) * finest);
    if (row < 0 || row >= raster.rows) return depths.fill(OUTSIDE);
    const tileRow = Math.floor(row / TILE) * raster.tilesAcross;
    const inTile = (row % TILE) * TILE;
    // Neighbours mostly look at the same tile, and from near at the same column of it.
    let [lastColumn, lastTile, last] = [OUTSIDE, -1, OUTSIDE];
    let tile = raster.tiles[0]!;
    for (let i = 0; i < count; i++) {
      const column = columns[i]!;
      if (column !== lastColumn) {
        lastColumn = column;
        if (column === OUTSIDE) last = OUTSIDE;
        else {
          const index = tileRow + ((column / TILE) | 0);
          if (index !== lastTile) {
            lastTile = index;
            tile = raster.tiles[index]!;
          }
          last = tile[inTile + (column % TILE)]!;
          const both = under === null ? last : last + depthStepsAt(under, column, row);
          if (both >= through) last = through;
        }
      }
      depths[i] = last;
    }
    return depths;
  };
}

const OUTSIDE = -1;

/** A step in depth that shows as an edge, in steps of depth. */
const EDGE_STEPS = 0.3 / DEPTH_STEP_MM;
/** Shares of ink: whole wood, the shallowest and the deepest floor, cut through, an edge, a line of grain. */
const WHOLE = 0.05;
const SHALLOW = 0.12;
const DEEP = 0.42;
const THROUGH = 0.8;
const EDGE = 0.88;
const GRAIN = 0.07;
const GRAIN_PX = 19;
/** Hatching on a screen is drawn at half the distance that it has on paper: what is cut is narrow. */
const HATCH_PX_PER_MM: number = 96 / 25.4 / 2;

function toneOf(through: number): (depth: number) => number {
  return (depth) => {
    if (depth <= 0) return depth === OUTSIDE ? 0 : WHOLE;
    return depth >= through ? THROUGH : SHALLOW + ((DEEP - SHALLOW) * depth) / through;
  };
}

/** How much of a pixel a line covers that is drawn at every multiple of `spacing`. */
function line(at: number, spacing: number, width: number): number {
  const off = at - spacing * Math.round(at / spacing);
  return Math.min(1, Math.max(0, width / 2 + 0.5 - Math.abs(off)));
}

/**
 * Shares of ink and of the hatch's colour on paper, as a pixel of little-endian RGBA. Neighbours are mostly alike:
 * the last mixture is kept.
 */
function mixer({ paper, ink, hatch }: Inks): (dark: number, hatched: number) => number {
  const [paperRed, paperGreen, paperBlue] = paper;
  const [red, green, blue] = [ink[0] - paperRed, ink[1] - paperGreen, ink[2] - paperBlue];
  const [hatchRed, hatchGreen, hatchBlue] = hatch;
  let [lastDark, lastHatched, last] = [-1, -1, 0];
  return (dark, hatched) => {
    if (dark === lastDark && hatched === lastHatched) return last;
    const share = hatched * HATCH_SHARE;
    const [r, g, b] = [paperRed + red * dark, paperGreen + green * dark, paperBlue + blue * dark];
    [lastDark, lastHatched] = [dark, hatched];
    last =
      ((255 << 24) |
        (Math.round(b + (hatchBlue - b) * share) << 16) |
        (Math.round(g + (hatchGreen - g) * share) << 8) |
        Math.round(r + (hatchRed - r) * share)) >>>
      0;
    return last;
  };
}

const HATCH_SHARE = 0.85;

/** The device pixels whose middle lies in a tile, and a pixel's edge around them; null where the window shows none. */
export function patchOf(
  { window, ratio, width, height }: Picture,
  { raster, corner }: Shading,
  tile: number,
): Patch | null {
  const scale = window.scale * ratio;
  const span = TILE * raster.pixel;
  const left = (corner[0] + (tile % raster.tilesAcross) * span - window.left) * scale;
  const low = height - (corner[1] + Math.floor(tile / raster.tilesAcross) * span - window.bottom) * scale;
  const [x0, x1] = [Math.max(0, Math.floor(left) - 1), Math.min(width, Math.ceil(left + span * scale) + 1)];
  const [y0, y1] = [Math.max(0, Math.floor(low - span * scale) - 1), Math.min(height, Math.ceil(low) + 1)];
  return x0 < x1 && y0 < y1 ? { x: x0, y: y0, width: x1 - x0, height: y1 - y0 } : null;
}
