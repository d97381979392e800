/**
 * How deep the wood is cut away from the face that is up, pixel by pixel.
 *
 * It lies in tiles. A snapshot shares them, and a tile that a snapshot knows is copied before it is cut: so the
 * wood of a hundred moments costs little more than that of one.
 *
 * Shape: tile (column, row) holds TILE × TILE depths in steps of DEPTH_STEP_MM, row by row from its lower left.
 * It is the one thing of this view that changes in place: a cut is a story.
 */
export interface Raster {
  /** mm. */
  readonly pixel: number;
  readonly columns: number;
  readonly rows: number;
  readonly tilesAcross: number;
  readonly tiles: Uint16Array[];
  /** Tiles that no snapshot knows. */
  readonly own: Uint8Array;
  /** Tiles that were changed since they were last drawn. */
  readonly dirty: Uint8Array;
}

export type Snapshot = readonly Uint16Array[];

export const TILE = 64;
export const DEPTH_STEP_MM = 0.002;

/** A round cutter's way in plan, in a straight line, and how deep its tip is at both ends, mm. */
export interface Capsule {
  readonly x0: number;
  readonly y0: number;
  readonly depth0: number;
  readonly x1: number;
  readonly y1: number;
  readonly depth1: number;
  readonly radius: number;
}

/** Whole wood; pixels as fine as memory allows, and never coarser than half a millimetre. */
export function createRaster([width, height]: readonly [number, number]): Raster {
  const pixel = width * height > FINE_MAX_MM2 ? 0.5 : 0.25;
  const [columns, rows] = [Math.ceil(width / pixel), Math.ceil(height / pixel)];
  const [tilesAcross, tilesUp] = [Math.ceil(columns / TILE), Math.ceil(rows / TILE)];
  const count = tilesAcross * tilesUp;
  return {
    pixel,
    columns,
    rows,
    tilesAcross,
    tiles: Array.from({ length: count }, () => WHOLE),
    own: new Uint8Array(count),
    dirty: new Uint8Array(count).fill(1),
  };
}

/** A square metre: 32 MB of quarter-millimetre pixels. */
const FINE_MAX_MM2 = 1e6;

/** All tiles that nothing has cut yet. */
const WHOLE: Uint16Array = new Uint16Array(TILE * TILE);

export function snapshotOf(raster: Raster): Snapshot {
  raster.own.fill(0);
  return [...raster.tiles];
}

export function restore(raster: Raster, snapshot: Snapshot): void {
  for (let i = 0; i < snapshot.length; i++) {
    if (raster.tiles[i] === snapshot[i]) continue;
    raster.tiles[i] = snapshot[i]!;
    raster.own[i] = 0;
    raster.dirty[i] = 1;
  }
}

/** Steps of depth at a pixel; 0 outside. */
export function depthStepsAt(raster: Raster, column: number, row: number): number {
  if (column < 0 || row < 0 || column >= raster.columns || row >= raster.rows) return 0;
  const tile = raster.tiles[Math.floor(row / TILE) * raster.tilesAcross + Math.floor(column / TILE)]!;
  return tile[(row % TILE) * TILE + (column % TILE)]!;
}

/** Takes away what a cutter takes along its way: every pixel whose centre it covers, as deep as it goes there. */
export function stamp(raster: Raster, capsule: Capsule): void {
  const { x0, y0, x1, y1, depth0, depth1, radius } = capsule;
  if (depth0 <= 0 && depth1 <= 0) return;
  const { pixel, columns, rows } = raster;
  const first = Math.max(0, Math.ceil((Math.min(y0, y1) - radius) / pixel - 0.5));
  const last = Math.min(rows - 1, Math.floor((Math.max(y0, y1) + radius) / pixel - 0.5));
  const length = Math.hypot(x1 - x0, y1 - y0);
  const [ux, uy] = length > 0 ? [(x1 - x0) / length, (y1 - y0) / length] : [1, 0];
  for (let row = first; row <= last; row++) {
    // Between which x the capsule lies at this height: two discs, and the strip between them.
    const y = (row + 0.5) * pixel;
    let [from, to] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    const [off0, off1] = [y - y0, y - y1];
    if (Math.abs(off0) <= radius) {
      const half = Math.sqrt(radius * radius - off0 * off0);
      from = x0 - half;
      to = x0 + half;
    }
    if (Math.abs(off1) <= radius) {
      const half = Math.sqrt(radius * radius - off1 * off1);
      from = Math.min(from, x1 - half);
      to = Math.max(to, x1 + half);
    }
    if (length > 0) {
      // Along the way between 0 and its length, across it at most the radius: both are linear in x.
      let [low, high] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
      if (ux !== 0) {
        const [a, b] = [(-uy * off0) / ux, (length - uy * off0) / ux];
        low = Math.min(a, b);
        high = Math.max(a, b);
      } else if (uy * off0 < 0 || uy * off0 > length) high = Number.NEGATIVE_INFINITY;
      if (uy !== 0) {
        const [a, b] = [(ux * off0 - radius) / uy, (ux * off0 + radius) / uy];
        low = Math.max(low, Math.min(a, b));
        high = Math.min(high, Math.max(a, b));
      } else if (Math.abs(off0) > radius) high = Number.NEGATIVE_INFINITY;
      if (low <= high) {
        from = Math.min(from, x0 + low);
        to = Math.max(to, x0 + high);
      }
    }
    const start = Math.max(0, Math.ceil(from / pixel - 0.5));
    const end = Math.min(columns - 1, Math.floor(to / pixel - 0.5));
    if (start <= end) cutRow(raster, capsule, row, start, end);
  }
}

function cutRow(raster: Raster, capsule: Capsule, row: number, start: number, end: number): void {
  const { depth0, depth1 } = capsule;
  const { pixel, tilesAcross } = raster;
  const isLevel = Math.abs(depth1 - depth0) < DEPTH_STEP_MM / 2;
  const steps = stepsOf(Math.max(depth0, depth1));
  const tileRow = Math.floor(row / TILE) * tilesAcross;
  const inTile = (row % TILE) * TILE;
  for (let column = start; column <= end; ) {
    const stop = Math.min(end, column - (column % TILE) + TILE - 1);
    const tile = ownTile(raster, tileRow + Math.floor(column / TILE));
    for (let at = inTile + (column % TILE); column <= stop; column++, at++) {
      const here = isLevel ? steps : deepestAt(capsule, (column + 0.5) * pixel, (row + 0.5) * pixel);
      if (tile[at]! < here) tile[at] = here;
    }
  }
}

function ownTile(raster: Raster, index: number): Uint16Array {
  raster.dirty[index] = 1;
  if (raster.own[index] === 0) {
    raster.tiles[index] = raster.tiles[index]!.slice();
    raster.own[index] = 1;
  }
  return raster.tiles[index]!;
}

function stepsOf(depth: number): number {
  return Math.min(65_535, Math.max(0, Math.round(depth / DEPTH_STEP_MM)));
}

/** How deep a sloped way cuts at a point within its plan: the disc that covers it and is deepest. */
function deepestAt({ x0, y0, x1, y1, depth0, depth1, radius }: Capsule, x: number, y: number): number {
  const length = Math.hypot(x1 - x0, y1 - y0);
  if (length === 0) return stepsOf(Math.max(depth0, depth1));
  const [ux, uy] = [(x1 - x0) / length, (y1 - y0) / length];
  const along = ux * (x - x0) + uy * (y - y0);
  const across = ux * (y - y0) - uy * (x - x0);
  const half = Math.sqrt(Math.max(0, radius * radius - across * across));
  const at = depth1 > depth0 ? Math.min(length, along + half) : Math.max(0, along - half);
  return stepsOf(depth0 + (depth1 - depth0) * Math.min(1, Math.max(0, at / length)));
}
