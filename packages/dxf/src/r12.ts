import { extents, printed, printedBulge, printedVertices, real } from "./figures.ts";
import type { Mark } from "./marks.ts";
import { colourOf, layersOf } from "./style.ts";

/**
 * The marks as an R12 file (AC1009): POLYLINE with bulges, CIRCLE, TEXT.
 *
 * R12 has no variable for units, so the note says them in a comment.
 */
export function r12(marks: readonly Mark[], note: string): string {
  const { min, max } = extents(marks);
  return groups([
    [999, note],
    ...section("HEADER", [
      [9, "$ACADVER"],
      [1, "AC1009"],
      [9, "$EXTMIN"],
      ...at(min.x, min.y),
      [9, "$EXTMAX"],
      ...at(max.x, max.y),
    ]),
    ...section("TABLES", [...lineTypes, ...layerTable(layersOf(marks))]),
    ...section("ENTITIES", marks.flatMap(entity)),
    [0, "EOF"],
  ]);
}

type Group = readonly [code: number, value: string];

function groups(all: readonly Group[]): string {
  return `${all.map(([code, value]) => `${String(code).padStart(3)}\n${value}`).join("\n")}\n`;
}

function section(name: string, content: readonly Group[]): readonly Group[] {
  return [[0, "SECTION"], [2, name], ...content, [0, "ENDSEC"]];
}

const lineTypes: readonly Group[] = [
  [0, "TABLE"],
  [2, "LTYPE"],
  [70, "1"],
  [0, "LTYPE"],
  [2, "CONTINUOUS"],
  [70, "64"],
  [3, "Solid line"],
  [72, "65"],
  [73, "0"],
  [40, "0.0"],
  [0, "ENDTAB"],
];

function layerTable(names: readonly string[]): readonly Group[] {
  const entries = ["0", ...names].flatMap((name): Group[] => [
    [0, "LAYER"],
    [2, name],
    [70, "0"],
    [62, String(colourOf(name))],
    [6, "CONTINUOUS"],
  ]);
  return [[0, "TABLE"], [2, "LAYER"], [70, String(names.length + 1)], ...entries, [0, "ENDTAB"]];
}

function entity(mark: Mark): readonly Group[] {
  const layer: Group = [8, mark.layer];
  switch (mark.kind) {
    case "circle":
      return [[0, "CIRCLE"], layer, ...at(mark.centre.x, mark.centre.y), [40, real(printed(mark.radius))]];
    case "text":
      return [
        [0, "TEXT"],
        layer,
        ...at(mark.at.x, mark.at.y),
        [40, real(printed(mark.height))],
        [1, mark.text],
        [50, mark.turned ? "90.0" : "0.0"],
        [72, "1"],
        [73, "2"],
        [11, real(printed(mark.at.x))],
        [21, real(printed(mark.at.y))],
        [31, "0.0"],
      ];
    case "loop":
      return [
        [0, "POLYLINE"],
        layer,
        [66, "1"],
        ...at(0, 0),
        [70, "1"],
        ...printedVertices(mark.loop).flatMap((v): Group[] => [
          [0, "VERTEX"],
          layer,
          ...at(v.x, v.y),
          ...(v.bulge === 0 ? [] : [[42, real(printedBulge(v.bulge))] as const]),
        ]),
        [0, "SEQEND"],
        layer,
      ];
  }
}

function at(x: number, y: number): readonly Group[] {
  return [
    [10, real(printed(x))],
    [20, real(printed(y))],
    [30, "0.0"],
  ];
}
