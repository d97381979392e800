import { readDxf, regionsOnLayer } from "@dryfit/dxf";
import { areaOf, boundsOf, lengthOf, pointAt, type Segment, segments } from "@dryfit/geometry";
import { describe, expect, test } from "vitest";

/** A whole file around the entities, each entity one line of `code value` pairs. */
function fileOf(entities: readonly string[], header: readonly string[] = ["9 $INSUNITS", "70 4"]): string {
  const pairs = [
    "0 SECTION",
    "2 HEADER",
    "9 $ACADVER",
    "1 AC1015",
    ...header,
    "0 ENDSEC",
    "0 SECTION",
    "2 ENTITIES",
    ...entities.flatMap((line) => line.split(", ")),
    "0 ENDSEC",
    "0 EOF",
  ];
  return pairs.map((pair) => pair.replace(" ", "\n")).join("\n");
}

function only(entity: string): Segment {
  const { loops, paths } = readDxf(fileOf([entity]));
  const curve = loops[0]?.loop ?? paths[0]?.path;
  return segments(curve!)[0]!;
}

/** Source of the expected values: derived, centre = midpoint + n c (1 − b²) / (4 b), length = r · 4 atan b. */
function checkArc(
  entity: string,
  expected: { radius: number; centre: [number, number]; apex: [number, number]; length: number },
) {
  const arc = only(entity);
  if (arc.kind !== "arc") throw new Error("not an arc");
  expect(arc.radius).toBeCloseTo(expected.radius, 6);
  expect([arc.centre.x, arc.centre.y]).toEqual(expected.centre.map((v) => expect.closeTo(v, 6)));
  const path = readDxf(fileOf([entity])).paths[0]!.path;
  const apex = pointAt(path, lengthOf(path) / 2);
  expect([apex.x, apex.y]).toEqual(expected.apex.map((v) => expect.closeTo(v, 6)));
  expect(lengthOf(path)).toBeCloseTo(expected.length, 6);
}

describe("arcs said by a bulge", () => {
  test("a bulge of 0.5 over 10 mm has a radius of 6.25 mm", () =>
    checkArc("0 LWPOLYLINE, 8 0, 90 2, 70 0, 10 0, 20 0, 42 0.5, 10 10, 20 0", {
      radius: 6.25,
      centre: [5, 3.75],
      apex: [5, -2.5],
      length: 11.59119,
    }));
  test("a bulge of -1 is a half turn clockwise", () =>
    checkArc("0 LWPOLYLINE, 8 0, 90 2, 70 0, 10 0, 20 0, 42 -1, 10 10, 20 0", {
      radius: 5,
      centre: [5, 0],
      apex: [5, 5],
      length: 15.707963,
    }));
  test("a quarter turn going up bulges to the right", () =>
    checkArc("0 LWPOLYLINE, 8 0, 90 2, 70 0, 10 100, 20 0, 42 0.41421356237, 10 100, 20 50", {
      radius: 35.355339,
      centre: [75, 25],
      apex: [110.355339, 25],
      length: (35.355339 * Math.PI) / 2,
    }));
  test("an ARC runs counter-clockwise past 0 degrees", () =>
    checkArc("0 ARC, 8 0, 10 0, 20 0, 40 10, 50 315, 51 45", {
      radius: 10,
      centre: [0, 0],
      apex: [10, 0],
      length: 5 * Math.PI,
    }));
  test("an ARC seen from behind is mirrored", () =>
    checkArc("0 ARC, 8 0, 10 0, 20 0, 40 10, 50 315, 51 45, 210 0, 220 0, 230 -1", {
      radius: 10,
      centre: [0, 0],
      apex: [-10, 0],
      length: 5 * Math.PI,
    }));
});

test("an arc of more than half a turn keeps its length", () => {
  const { paths } = readDxf(
    fileOf(["0 LWPOLYLINE, 8 0, 90 2, 70 0, 10 0, 20 0, 42 2.414213562, 10 10, 20 0"]),
  );
  // derived: 270 degrees over a chord of 10 mm, r = 10 / (2 sin 135°)
  expect(lengthOf(paths[0]!.path)).toBeCloseTo((5 / Math.SQRT1_2) * ((3 * Math.PI) / 2), 6);
});

const roundedPlate = [
  "10 10, 20 0",
  "10 90, 20 0, 42 0.414213562",
  "10 100, 20 10",
  "10 100, 20 40, 42 0.414213562",
  "10 90, 20 50",
  "10 10, 20 50, 42 0.414213562",
  "10 0, 20 40",
  "10 0, 20 10, 42 0.414213562",
];

test("a plate of 100 by 50 with round corners has its area and its edge's length", () => {
  const reading = readDxf(fileOf([`0 LWPOLYLINE, 8 PLATE, 90 8, 70 1, ${roundedPlate.join(", ")}`]));
  // derived: 5000 − (4 − π) 100 and 2 (80 + 30) + 20 π
  expect(areaOf(regionsOnLayer(reading, "PLATE"))).toBeCloseTo(4914.159265, 5);
  expect(lengthOf(reading.loops[0]!.loop)).toBeCloseTo(282.831853, 5);
});

test("an old polyline reads as the same plate", () => {
  const vertices = roundedPlate.map((v) => `0 VERTEX, 8 PLATE, ${v}`);
  const reading = readDxf(fileOf([`0 POLYLINE, 8 PLATE, 66 1, 70 1`, ...vertices, "0 SEQEND"]));
  expect(areaOf(regionsOnLayer(reading, "PLATE"))).toBeCloseTo(4914.159265, 5);
});

test("a file in inches comes out in millimetres", () => {
  const reading = readDxf(fileOf(["0 CIRCLE, 8 0, 10 1, 20 2, 40 0.5"], ["9 $INSUNITS", "70 1"]));
  const { min, max } = boundsOf(reading.loops[0]!.loop);
  expect([min.x, min.y, max.x, max.y]).toEqual([12.7, 38.1, 38.1, 63.5].map((v) => expect.closeTo(v, 9)));
  expect(reading.mmPerUnit).toBe(25.4);
});

test("a file without units is taken as millimetres, and says so", () => {
  const reading = readDxf(fileOf(["0 CIRCLE, 8 0, 10 1, 20 2, 40 0.5"], []));
  expect(reading.unitCode).toBeNull();
  expect(reading.mmPerUnit).toBe(1);
});

test("a contour that returns to its first point is closed without being marked so", () => {
  const reading = readDxf(
    fileOf(["0 LWPOLYLINE, 8 0, 90 4, 70 0, 10 0, 20 0, 10 9, 20 0, 10 9, 20 9, 10 0, 20 0"]),
  );
  expect(reading.loops[0]!.loop.vertices).toHaveLength(3);
});

test("loose lines stay loose, each with its layer and its place", () => {
  const reading = readDxf(fileOf(["0 LINE, 5 2F, 8 CUT, 10 0, 20 0, 11 5, 21 0"]));
  expect(reading.paths).toMatchObject([{ layer: "CUT", handle: "2F" }]);
  expect(reading.loops).toEqual([]);
});

test("a spline is named as not read", () => {
  const reading = readDxf(fileOf(["0 SPLINE, 5 30, 8 CUT, 71 3"]));
  expect(reading.unread).toMatchObject([{ type: "SPLINE", layer: "CUT", handle: "30" }]);
});

test("a coordinate that is no number is named with its line", () => {
  const reading = readDxf(fileOf(["0 CIRCLE, 8 CUT, 10 nan, 20 0, 40 5"]));
  expect(reading.loops).toEqual([]);
  expect(reading.unread[0]!.reason).toBe('"nan" on line 24 is no number');
});

function checkUnreadable(text: string, message: RegExp) {
  const { findings } = readDxf(text, "gear.dxf");
  expect(findings).toMatchObject([{ code: "dxf_unreadable", severity: "error" }]);
  expect(`${findings[0]!.path} ${findings[0]!.message}`).toMatch(message);
}
test("an empty file is no drawing", () => checkUnreadable("", /gear\.dxf:\d+ .*EOF/));
test("a letter is no drawing", () =>
  checkUnreadable("Dear maker,\nhere is the file", /gear\.dxf:1 .*group code/));
test("half a file is told from a whole one", () =>
  checkUnreadable(fileOf([]).slice(0, -20), /is not whole|has no value/));
test("a binary file is told from text", () => checkUnreadable("DXF\r\n\u001a\u0000", /binary/));

test("files with old line ends read the same", () => {
  const text = fileOf(["0 CIRCLE, 8 0, 10 1, 20 2, 40 0.5"]);
  expect(readDxf(text.replaceAll("\n", "\r\n"))).toEqual(readDxf(text));
});
