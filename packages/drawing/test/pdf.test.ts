import { type PdfMark, pdfText, textWidth, tiled } from "@dryfit/drawing";
import { circle, polyline } from "@dryfit/geometry";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { bezierError } from "../src/pdf/curve.ts";
import { pdfString, wrapped } from "../src/pdf/text.ts";

const page = (marks: readonly PdfMark[]) => ({ size: [210, 297] as const, marks });

describe("a page", () => {
  const text = pdfText("a (round) hole", [
    page([{ kind: "stroke", curves: [circle({ x: 50, y: 60 }, 20)], style: { width: 0.5 } }]),
  ]);

  test("is plain ASCII, and the same bytes again", () => {
    expect(text).toMatch(/^[\n\x20-\x7e]*$/);
    expect(pdfText("a", [page([])])).toBe(pdfText("a", [page([])]));
  });

  test("lists each object where it stands (ISO 32000-1, 7.5.4)", () => {
    const entries = [...text.matchAll(/^(\d{10}) 00000 n $/gm)].map(([, offset]) => Number(offset));
    expect(entries.length).toBeGreaterThan(5);
    entries.forEach((offset, i) => {
      expect(text.slice(offset)).toMatch(new RegExp(`^${i + 1} 0 obj\n`));
    });
    const start = Number(/startxref\n(\d+)/.exec(text)![1]);
    expect(text.slice(start)).toMatch(/^xref\n/);
  });

  test("says how long its content is", () => {
    const [, length, content] = /\/Length (\d+) >>\nstream\n([\s\S]*?)\nendstream/.exec(text)!;
    expect(content).toHaveLength(Number(length));
  });

  test("is as large as its paper: A4 is 595.28 by 841.89 points", () => {
    const [, width, height] = /MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(text)!;
    expect(Number(width)).toBeCloseTo((210 / 25.4) * 72, 3);
    expect(Number(height)).toBeCloseTo((297 / 25.4) * 72, 3);
  });

  test("refuses a length that is none", () => {
    const style = { width: 1 };
    const curves = [
      polyline([
        { x: 0, y: Number.NaN },
        { x: 1, y: 1 },
      ]),
    ];
    expect(() => pdfText("a", [page([{ kind: "stroke", curves, style }])])).toThrow(RangeError);
  });
});

describe("a round line", () => {
  test("stands off its arc by 0.000273 of the radius where one curve draws a quarter (derived)", () =>
    expect(bezierError(1, Math.PI / 2)).toBeCloseTo(0.000273, 6));

  test("stays within 0.01 mm of the circle, whatever its radius", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 3000, noNaN: true }), (radius) => {
        const content = pdfText("", [
          page([{ kind: "stroke", curves: [circle({ x: 0, y: 0 }, radius)], style: { width: 1 } }]),
        ]);
        let at = [-radius, 0];
        for (const [, ...numbers] of content.matchAll(/^(\S+) (\S+) (\S+) (\S+) (\S+) (\S+) c$/gm)) {
          const [x1, y1, x2, y2, x3, y3] = numbers.map(Number) as [
            number,
            number,
            number,
            number,
            number,
            number,
          ];
          for (let t = 0; t <= 1; t += 0.1) {
            const s = 1 - t;
            const [a, b, c, d] = [s ** 3, 3 * s * s * t, 3 * s * t * t, t ** 3];
            const away = Math.hypot(
              a * at[0]! + b * x1 + c * x2 + d * x3,
              a * at[1]! + b * y1 + c * y2 + d * y3,
            );
            expect(Math.abs(away - radius)).toBeLessThan(0.01);
          }
          at = [x3, y3];
        }
      }),
      { numRuns: 50 },
    );
  });
});

describe("words", () => {
  test("keep brackets and signs that WinAnsi has", () =>
    expect(pdfString("(7.2 × 45°)")).toBe("(\\(7.2 \\327 45\\260\\))"));
  test("say in letters what it lacks", () => expect(pdfString("≥ 3 → 猫")).toBe("(>= 3 -> ?)"));
  test("take figures of one width: ten of them at 10 mm are 55.6 mm long", () =>
    expect(textWidth("0123456789", 10)).toBeCloseTo(55.6, 9));
  test("break between words", () =>
    expect(wrapped("clamp the fence on the left", 26, 3)).toEqual(["clamp the fence on", "the left"]));
});

describe("a drawing on several sheets", () => {
  const drawing = (width: number, height: number) => ({
    title: "t",
    facts: [],
    marks: [],
    frame: { min: { x: -7, y: 3 }, max: { x: width - 7, y: height + 3 } },
    revision: "0",
  });

  test("is covered whole, and neighbours share at least 12 mm", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 1500, noNaN: true }),
        fc.double({ min: 5, max: 900, noNaN: true }),
        fc.constantFrom("a4", "a3", "letter"),
        fc.double({ min: 97, max: 103, noNaN: true }),
        (width, height, paper, x) => {
          const given = drawing(width, height);
          const { tiles, pages } = tiled(given, { paper: paper as "a4", measured: { x, y: 100 } });
          expect(pages).toHaveLength(tiles.length);
          const low = Math.min(...tiles.map((t) => t.window.min.x));
          const high = Math.max(...tiles.map((t) => t.window.max.x));
          expect(low).toBeLessThan(given.frame.min.x);
          expect(high).toBeGreaterThan(given.frame.max.x);
          const row = tiles.filter(({ name }) => name.startsWith("A"));
          row.slice(1).forEach((tile, i) => {
            expect(row[i]!.window.max.x - tile.window.min.x).toBeCloseTo(12, 6);
          });
          // What is drawn at the window's corner lies at the page's.
          for (const { window, scale, shift } of tiles)
            expect(shift.x + scale.x * window.min.x).toBeCloseTo(18, 6);
        },
      ),
      { numRuns: 40 },
    );
  });

  test("tells its diagonal: 300 by 400 is 500 across", () =>
    expect(tiled(drawing(300, 400), { paper: "a4", measured: { x: 100, y: 100 } }).diagonal).toBeCloseTo(
      500,
      9,
    ));

  test("grows by what a print fell short of: 99.6 where 100 was asked", () => {
    const [tile] = tiled(drawing(50, 50), { paper: "a4", measured: { x: 99.6, y: 100 } }).tiles;
    expect(tile!.scale.x * 99.6).toBeCloseTo(100, 9);
    expect(tile!.scale.y).toBe(1);
  });
});
