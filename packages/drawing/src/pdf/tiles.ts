import { type Box, distance, type Point } from "@dryfit/geometry";
import { joins } from "./joins.ts";
import { grey, type PdfMark, type PdfPage } from "./mark.ts";
import { MARGIN, type PaperName, papers } from "./paper.ts";
import { LEFT_STRIP, LOWER_STRIP, strips } from "./strips.ts";
import { line } from "./write.ts";

/** A drawing larger than a sheet of paper, to be printed 1:1 on several. */
export interface TiledDrawing {
  readonly title: string;
  /** Lines that stand on every sheet: part and face, bush, cutter. */
  readonly facts: readonly string[];
  readonly marks: readonly PdfMark[];
  /** The box whose diagonals are measured once the sheets are joined. */
  readonly frame: Box;
  /** Told on every sheet, so that papers of two designs do not meet. */
  readonly revision: string;
}

export interface TileOptions {
  readonly paper: PaperName;
  /** What the 100 mm checks of an earlier print measured, mm; 100 where the printer is true. */
  readonly measured: Point;
}

/** One sheet: `page = shift + scale · drawing`, and the part of the drawing that it shows. */
export interface Tile {
  /** Row and column: "A1" is the upper left. */
  readonly name: string;
  readonly window: Box;
  readonly scale: Point;
  readonly shift: Point;
}

export interface Tiling {
  readonly pages: readonly PdfPage[];
  readonly tiles: readonly Tile[];
  /** Corner to corner of the frame, mm. */
  readonly diagonal: number;
}

/** How much of the drawing two neighbours both show, mm. */
const OVERLAP = 12;

/** White kept round the frame, mm. */
const ROUND_FRAME = 5;

/**
 * The drawing on as few sheets as it needs, upright or across.
 *
 * A measured print corrects each axis by itself: drawing and checks alike grow by 100 / measured.
 */
export function tiled(drawing: TiledDrawing, options: TileOptions): Tiling {
  const [short, long] = papers[options.paper];
  const scale = { x: 100 / options.measured.x, y: 100 / options.measured.y };
  const upright = grid(drawing.frame, [short, long], scale);
  const across = grid(drawing.frame, [long, short], scale);
  const chosen = across.columns * across.rows < upright.columns * upright.rows ? across : upright;
  const diagonal = distance(drawing.frame.min, drawing.frame.max);
  const tiles = tilesOf(chosen, scale);
  const pages = tiles.map((tile, i): PdfPage => {
    const inStrips = {
      drawing,
      diagonal,
      scale,
      tile: tile.name,
      row: Math.floor(i / chosen.columns),
      column: i % chosen.columns,
    };
    return {
      size: chosen.size,
      marks: [
        ...strips({ ...inStrips, ...chosen }),
        {
          kind: "group",
          clip: pageWindow(chosen.size),
          scale,
          shift: tile.shift,
          marks: [...diagonalMarks(drawing.frame, diagonal), ...drawing.marks, ...joins(tiles, tile)],
        },
        frameOf(chosen.size),
      ],
    };
  });
  return { pages, tiles, diagonal };
}

interface Grid {
  readonly size: readonly [number, number];
  readonly columns: number;
  readonly rows: number;
  /** Width and height of a sheet's window, and from one to the next, in the drawing. */
  readonly window: Point;
  readonly pitch: Point;
  /** The drawing's point at the whole grid's lower left. */
  readonly origin: Point;
}

function grid({ min, max }: Box, size: readonly [number, number], scale: Point): Grid {
  const page = pageWindow(size);
  const axis = (which: "x" | "y") => {
    const window = (page.max[which] - page.min[which]) / scale[which];
    const pitch = window - OVERLAP;
    const need = max[which] - min[which] + 2 * ROUND_FRAME;
    const count = Math.max(1, Math.ceil((need - OVERLAP) / pitch));
    const origin = (min[which] + max[which] - count * pitch - OVERLAP) / 2;
    return { window, pitch, count, origin };
  };
  const [x, y] = [axis("x"), axis("y")];
  return {
    size,
    columns: x.count,
    rows: y.count,
    window: { x: x.window, y: y.window },
    pitch: { x: x.pitch, y: y.pitch },
    origin: { x: x.origin, y: y.origin },
  };
}

/** Row by row from the top, as one reads. */
function tilesOf({ size, columns, rows, window, pitch, origin }: Grid, scale: Point): readonly Tile[] {
  const page = pageWindow(size);
  return Array.from({ length: rows * columns }, (_, i) => {
    const [row, column] = [Math.floor(i / columns), i % columns];
    const min = { x: origin.x + column * pitch.x, y: origin.y + (rows - 1 - row) * pitch.y };
    return {
      name: `${String.fromCharCode(65 + row)}${column + 1}`,
      window: { min, max: { x: min.x + window.x, y: min.y + window.y } },
      scale,
      shift: { x: page.min.x - scale.x * min.x, y: page.min.y - scale.y * min.y },
    };
  });
}

/** The part of the page on which the drawing is seen. */
function pageWindow([width, height]: readonly [number, number]): Box {
  return {
    min: { x: MARGIN + LEFT_STRIP, y: MARGIN + LOWER_STRIP },
    max: { x: width - MARGIN, y: height - MARGIN },
  };
}

function frameOf(size: readonly [number, number]): PdfMark {
  const { min, max } = pageWindow(size);
  const vertices = [min, { x: max.x, y: min.y }, max, { x: min.x, y: max.y }];
  return {
    kind: "stroke",
    curves: [{ closed: true, vertices: vertices.map((p) => ({ ...p, bulge: 0 })) }],
    style: { width: 0.13 },
  };
}

/** Corner to corner, with its length under the frame: measured over the joined sheets. */
function diagonalMarks({ min, max }: Box, diagonal: number): readonly PdfMark[] {
  const style = { width: 0.13, dash: [8, 1.5, 1, 1.5], colour: grey(0.35) };
  const corners = [min, max, { x: min.x, y: max.y }, { x: max.x, y: min.y }];
  const text = `diagonal ${diagonal.toFixed(1)} mm, from cross to cross`;
  const at = { x: min.x + 6, y: min.y - 4 };
  return [
    line(min.x, min.y, max.x, max.y, style),
    ...corners.flatMap(({ x, y }) => [
      line(x - 3, y, x + 3, y, { width: 0.18 }),
      line(x, y - 3, x, y + 3, { width: 0.18 }),
    ]),
    { kind: "text", text, at, size: 2.6 },
  ];
}
