import { judgeDxf, partDxf, partDxfR12, sheetDxf } from "@dryfit/dxf";
import { rectangle, roundedRectangle } from "@dryfit/geometry";
import { expect, test } from "vitest";
import { everything, panel, recess, sheetOf } from "./parts.ts";

function check(text: string, codes: readonly string[]) {
  expect(judgeDxf(text).map((finding) => finding.code)).toEqual(codes);
}

/** A file in mm with these entities, each one line of `code value` pairs. */
function file(...entities: string[]): string {
  const head = ["0 SECTION", "2 HEADER", "9 $ACADVER", "1 AC1015", "9 $INSUNITS", "70 4", "0 ENDSEC"];
  const body = [
    "0 SECTION",
    "2 ENTITIES",
    ...entities.flatMap((line) => line.split(", ")),
    "0 ENDSEC",
    "0 EOF",
  ];
  return [...head, ...body].map((pair) => pair.replace(" ", "\n")).join("\n");
}

function square(x: number, y: number, side: number, layer = "CUT"): string {
  const corners = `10 ${x}, 20 ${y}, 10 ${x + side}, 20 ${y}, 10 ${x + side}, 20 ${y + side}, 10 ${x}, 20 ${y + side}`;
  return `0 LWPOLYLINE, 8 ${layer}, 90 4, 70 1, ${corners}`;
}

test("a part that we wrote is accepted", () => check(partDxf(everything, { runOut: 3 }), []));
test("an R12 part is accepted, with a note on units", () =>
  check(partDxfR12(everything, { runOut: 3 }), ["dxf_no_units"]));
test("a nested sheet is accepted", () =>
  check(sheetDxf(sheetOf([{ part: "test-panel", x: 10, y: 10 }]), [everything], { runOut: 3 }), []));
test("two squares apart are accepted", () => check(file(square(0, 0, 10), square(20, 0, 10)), []));
test("a square in a square is accepted", () => check(file(square(0, 0, 30), square(10, 10, 10)), []));
test("the same square twice is refused", () =>
  check(file(square(0, 0, 10), square(0, 0, 10)), ["dxf_double_contour"]));
test("the same square on two cut layers is refused", () =>
  check(file(square(0, 0, 10), square(0, 0, 10, "POCKET")), ["dxf_double_contour"]));
test("two squares that share an edge are refused", () =>
  check(file(square(0, 0, 10), square(10, 0, 10)), ["dxf_double_contour"]));
test("two squares that share half an edge are refused", () =>
  check(file(square(0, 0, 10), square(10, 5, 10)), ["dxf_double_contour"]));
test("squares that cross are refused", () =>
  check(file(square(0, 0, 10), square(5, 5, 10)), ["dxf_crossing_contour"]));
test("a pocket may cross an outline: it runs out over the edge", () =>
  check(file(square(0, 0, 10), square(5, 5, 10, "POCKET")), []));
test("a bow tie crosses itself", () =>
  check(file("0 LWPOLYLINE, 8 CUT, 90 4, 70 1, 10 0, 20 0, 10 10, 20 10, 10 10, 20 0, 10 0, 20 10"), [
    "dxf_crossing_contour",
  ]));
test("a bow tie with one big side crosses itself", () =>
  check(file("0 LWPOLYLINE, 8 CUT, 90 4, 70 1, 10 0, 20 0, 10 30, 20 30, 10 30, 20 0, 10 10, 20 15"), [
    "dxf_crossing_contour",
  ]));
test("a loose line is refused", () =>
  check(file(square(0, 0, 10), "0 LINE, 8 CUT, 10 20, 20 0, 11 30, 21 0"), ["dxf_open_contour"]));
test("a loose line on a label layer is let be", () =>
  check(file(square(0, 0, 10), "0 LINE, 8 LABEL, 10 20, 20 0, 11 30, 21 0"), []));
test("text on a cut layer is refused", () =>
  check(file(square(0, 0, 10), "0 TEXT, 8 CUT, 10 2, 20 2, 40 3, 1 hello"), ["dxf_text_on_cut_layer"]));
test("a spline is refused", () =>
  check(file(square(0, 0, 10), "0 SPLINE, 8 CUT, 71 3"), ["dxf_unknown_entity"]));
test("a file with nothing to cut is refused", () => check(file(), ["dxf_nothing_to_cut"]));
test("a contour folded flat is refused", () =>
  check(file(square(0, 0, 10), "0 LWPOLYLINE, 8 CUT, 90 2, 70 1, 10 20, 20 0, 10 30, 20 0"), [
    "dxf_empty_contour",
  ]));
test("a file without units is refused", () =>
  check(file(square(0, 0, 10)).replace("$INSUNITS\n70\n4", "$INSUNITS\n70\n0"), ["dxf_no_units"]));

test("a recess drawn exactly to the edge is not taken for a doubled outline", () => {
  const part = panel("p", rectangle({ x: 0, y: 0 }, { x: 90, y: 60 }), [
    recess("rebate", rectangle({ x: 0, y: 0 }, { x: 10, y: 60 }), 5),
  ]);
  check(partDxf(part, { runOut: 0 }), []);
});

test("a rebate all round, drawn exactly to the edge, doubles the outline", () => {
  const [outline, inner] = [
    rectangle({ x: 0, y: 0 }, { x: 90, y: 60 }),
    rectangle({ x: 9, y: 9 }, { x: 81, y: 51 }),
  ];
  const hole = { ...inner, vertices: [...inner.vertices].reverse() };
  const part = panel("p", outline, [recess("rebate", outline, 5, { holes: [hole] })]);
  check(partDxf(part, { runOut: 0 }), ["dxf_double_contour"]);
  check(partDxf(part, { runOut: 3 }), []);
});

test("recesses of one depth that meet are drawn as one", () => {
  const part = panel("p", roundedRectangle({ x: 0, y: 0 }, { x: 90, y: 60 }, 4), [
    recess("left", rectangle({ x: 10, y: 10 }, { x: 20, y: 50 }), 5),
    recess("low", rectangle({ x: 20, y: 10 }, { x: 60, y: 20 }), 5),
  ]);
  check(partDxf(part, { runOut: 0 }), []);
});

test("a refused contour is named by line, layer and handle", () => {
  const [finding] = judgeDxf(file(square(0, 0, 10), "0 LINE, 5 7A, 8 CUT, 10 20, 20 0, 11 30, 21 0"), {
    file: "order.dxf",
  });
  expect(finding!.path).toMatch(/^order\.dxf:\d+$/);
  expect(finding!.message).toMatch(/layer CUT, handle 7A/);
});
