import { boundsOf, lengthOf } from "@dryfit/geometry";
import { describe, expect, test } from "vitest";
import { printed } from "../src/pdf/from-svg.ts";
import type { PdfMark } from "../src/pdf/mark.ts";

function marksOf(inside: string): readonly PdfMark[] {
  return printed(`<svg class="drawing" viewBox="0 0 100 50">${inside}</svg>`).marks;
}

function onlyStroke(inside: string): Extract<PdfMark, { kind: "stroke" }> {
  const [mark] = marksOf(inside).filter(({ kind }) => kind === "stroke");
  return mark as Extract<PdfMark, { kind: "stroke" }>;
}

test("a line drawn from the upper left stands at the upper left of the page, which counts from below", () => {
  const { curves } = onlyStroke(`<path class="outline" d="M0 0L10 0"/>`);
  expect(curves[0]!.vertices.map(({ x, y }) => [x, y])).toEqual([
    [0, 50],
    [10, 50],
  ]);
});

test("lines are as heavy and as broken as the sheet's style has them", () => {
  expect(onlyStroke(`<path class="outline" d="M0 0L10 0"/>`).style).toMatchObject({ width: 0.5, dash: [] });
  expect(onlyStroke(`<path class="hidden-edge" d="M0 0L10 0"/>`).style).toMatchObject({
    width: 0.18,
    dash: [2, 1],
  });
});

describe("arcs stay arcs", () => {
  // A quarter of a circle of radius 10 is 15.708 long, three quarters 47.124.
  test.each([
    ["M0 10A10 10 0 0 1 10 0", 15.708],
    ["M0 10A10 10 0 0 0 10 0", 15.708],
    ["M0 10A10 10 0 1 1 10 0", 47.124],
    ["M0 10a10 10 0 0 1 10 -10", 15.708],
  ])("%s is %f long", (d, length) =>
    expect(lengthOf(onlyStroke(`<path class="outline" d="${d}"/>`).curves[0]!)).toBeCloseTo(length, 3),
  );

  test("and bulge to the side that they were drawn to", () => {
    const { min } = boundsOf(onlyStroke(`<path class="outline" d="M10 20A10 10 0 0 1 30 20"/>`).curves);
    // From left to right the positive sense goes over the top of the page: y from 30 up to 40.
    expect(min.y).toBeCloseTo(30, 9);
  });
});

test("words turned on the drawing are turned on the page, about the same place", () => {
  const [mark] = marksOf(`<text x="10" y="20" transform="rotate(-90 10 20)" font-size="3">540</text>`);
  expect(mark).toMatchObject({ kind: "text", text: "540", size: 3 });
  const { at, angle } = mark as Extract<PdfMark, { kind: "text" }>;
  expect(at.x).toBeCloseTo(10, 9);
  expect(at.y).toBeCloseTo(30, 9);
  expect(angle).toBeCloseTo(Math.PI / 2, 9);
});

test("a hatch is parallel lines, seen only within its outline", () => {
  const pattern = `<defs><pattern id="h" width="4" height="4" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line class="hatch" x1="2" y1="0" x2="2" y2="4"/></pattern></defs>`;
  const [mark] = marksOf(`${pattern}<rect x="10" y="10" width="40" height="20" fill="url(#h)"/>`);
  expect(mark?.kind).toBe("within");
  const { marks } = mark as Extract<PdfMark, { kind: "within" }>;
  expect(marks.length).toBeGreaterThanOrEqual(10);
  for (const each of marks) {
    const [a, b] = (each as Extract<PdfMark, { kind: "stroke" }>).curves[0]!.vertices;
    expect(b!.y - a!.y).toBeCloseTo(b!.x - a!.x, 6);
  }
});

test("what lies outside a clip is not seen", () => {
  const clip = `<clipPath id="c"><rect x="0" y="0" width="10" height="10"/></clipPath>`;
  const [mark] = marksOf(`${clip}<g clip-path="url(#c)"><path class="outline" d="M0 0L90 40"/></g>`);
  expect(mark).toMatchObject({ kind: "within" });
});

test("thin ink becomes the tint that it makes on white paper", () => {
  const [mark] = marksOf(`<rect class="waste" x="0" y="0" width="10" height="10"/>`);
  const { colour } = mark as Extract<PdfMark, { kind: "fill" }>;
  for (const channel of colour) expect(channel).toBeGreaterThan(0.9);
});

test.each(["<image/>", `<g transform="skewX(3)"><path d="M0 0L1 1"/></g>`])("%s is none of ours", (markup) =>
  expect(() => marksOf(markup)).toThrow(RangeError),
);
