import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { formatLength, lengthInMm, parseLength } from "../src/length.ts";

function check(text: string, expected: number | null, units: "mm" | "in" = "mm"): void {
  const found = parseLength(text, units);
  if (expected === null) expect(found).toBeNull();
  else expect(found).toBeCloseTo(expected, 9);
}

describe("lengths as people write them", () => {
  test("a bare number is in the file's units", () => check("12.7", 12.7));
  test("a bare number of an inch file is inches", () => check("2", 50.8, "in"));
  test("mm close to the figure", () => check("12mm", 12));
  test("mm after a space", () => check("12.7 mm", 12.7));
  test("centimetres", () => check("1.2 cm", 12));
  test("a fraction of an inch", () => check("1/2 in", 12.7));
  test("a fraction without a unit in an inch file", () => check("7/32", 5.55625, "in"));
  test("whole and fraction with the inch sign", () => check('1 3/8"', 34.925));
  test("whole and fraction joined by a hyphen", () => check("1-3/8 in", 34.925));
  test("a millimetre in an inch file", () => check("6mm", 6, "in"));
  test("a leading point", () => check(".5 in", 12.7));
  test("capital letters", () => check("12 MM", 12));
  test("a minus", () => check("-3 mm", -3));
  test("a minus before a fraction counts for all of it", () => check("-1 1/2 in", -38.1));
});

describe("what is no length", () => {
  for (const text of [
    "",
    "  ",
    "abc",
    "mm",
    "1/0 in",
    "1/2/3",
    "12 furlong",
    "12,7",
    "1e3",
    "NaN",
    "1 2",
    "0x10",
    "∞",
  ]) {
    test(JSON.stringify(text), () => check(text, null));
  }
  test("numbers that are none", () => {
    expect(lengthInMm(Number.NaN, "mm")).toBeNull();
    expect(lengthInMm(Number.POSITIVE_INFINITY, "mm")).toBeNull();
  });
});

describe("lengths as we write them", () => {
  test("mm to a hundredth, without trailing zeros", () => expect(formatLength(6.8, "mm")).toBe("6.8 mm"));
  test("inches as fractions to 1/32", () => expect(formatLength(34.925, "in")).toBe("1 3/8 in"));
  test("whole inches", () => expect(formatLength(50.8, "in")).toBe("2 in"));
  test("other inches as decimals", () => expect(formatLength(1, "in")).toBe("0.0394 in"));
  test("less than one inch, negative", () => expect(formatLength(-12.7, "in")).toBe("-1/2 in"));
  test("what we write can be read again", () => {
    fc.assert(
      fc.property(fc.integer({ min: -64_000, max: 64_000 }), fc.constantFrom("mm", "in"), (n, units) => {
        const mm = units === "mm" ? n / 100 : (n / 32) * 25.4;
        expect(parseLength(formatLength(mm, units), "mm")).toBeCloseTo(mm, 6);
      }),
    );
  });
});
