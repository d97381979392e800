import Drawing from "dxf-writer";
import Handle from "dxf-writer/src/Handle.js";
import { extents, printed, printedVertices } from "./figures.ts";
import type { Mark } from "./marks.ts";
import { colourOf, layersOf } from "./style.ts";

/** The marks as an R2000 file (AC1015) in millimetres: LWPOLYLINE with bulges, CIRCLE, TEXT. */
export function r2000(marks: readonly Mark[], note: string): string {
  // The library counts handles over all drawings; each of ours starts again, so the bytes repeat.
  Handle.seed = 0;
  const drawing = new Drawing() as unknown as Writer;
  const { min, max } = extents(marks);
  drawing
    .header("ACADVER", [[1, "AC1015"]])
    .header("INSUNITS", [[70, 4]])
    .header("MEASUREMENT", [[70, 1]])
    .header("EXTMIN", corner(min.x, min.y))
    .header("EXTMAX", corner(max.x, max.y));
  for (const layer of layersOf(marks)) drawing.addLayer(layer, colourOf(layer), "CONTINUOUS");
  for (const mark of marks) draw(drawing, mark);
  return `999\n${note}\n${drawing.toDxfString()}\n`;
}

/** The part of the library that we use, with the argument types that it takes in fact. */
interface Writer {
  header(variable: string, values: readonly (readonly [number, number | string])[]): Writer;
  addLayer(name: string, colour: number, lineType: string): Writer;
  setActiveLayer(name: string): Writer;
  drawCircle(x: number, y: number, radius: number): Writer;
  drawPolyline(points: readonly (readonly number[])[], closed: boolean): Writer;
  drawText(
    x: number,
    y: number,
    height: number,
    rotationDeg: number,
    text: string,
    across: "center",
    up: "middle",
  ): Writer;
  toDxfString(): string;
}

function draw(drawing: Writer, mark: Mark): void {
  drawing.setActiveLayer(mark.layer);
  switch (mark.kind) {
    case "circle":
      drawing.drawCircle(printed(mark.centre.x), printed(mark.centre.y), printed(mark.radius));
      break;
    case "text":
      drawing.drawText(
        printed(mark.at.x),
        printed(mark.at.y),
        printed(mark.height),
        mark.turned ? 90 : 0,
        mark.text,
        "center",
        "middle",
      );
      break;
    case "loop":
      drawing.drawPolyline(
        printedVertices(mark.loop).map(({ x, y, bulge }) => (bulge === 0 ? [x, y] : [x, y, bulge])),
        true,
      );
  }
}

function corner(x: number, y: number): readonly (readonly [number, number])[] {
  return [
    [10, printed(x)],
    [20, printed(y)],
    [30, 0],
  ];
}
