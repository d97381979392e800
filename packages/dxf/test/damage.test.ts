import { judgeDxf, partDxf, partDxfR12, readDxf } from "@dryfit/dxf";
import fc from "fast-check";
import { expect, test } from "vitest";
import { everything } from "./parts.ts";

const whole = [partDxf(everything, { runOut: 3 }), partDxfR12(everything, { runOut: 3 })].map((text) =>
  text.split("\n"),
);

/** What a bad copy, a half upload or a careless hand does to a line. */
const anyDamage = fc.record({
  file: fc.integer({ min: 0, max: 1 }),
  at: fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true }),
  how: fc.constantFrom("drop", "double", "dropPair", "doublePair", "cut", "word", "huge", "negative"),
});

function damaged(lines: readonly string[], at: number, how: string): string {
  // Pairs are a code and its value; the first line of the file is a code.
  const i = how.endsWith("Pair") ? 2 * Math.floor((at * lines.length) / 2) : Math.floor(at * lines.length);
  const line = lines[i] ?? "";
  const value = lines[i + 1] ?? "";
  const instead: Readonly<Record<string, readonly string[]>> = {
    drop: [],
    double: [line, line],
    dropPair: [],
    doublePair: [line, value, line, value],
    word: ["seven"],
    huge: ["1e300"],
    negative: [`-${line}`],
  };
  if (how === "cut") return lines.slice(0, i).join("\n");
  return [...lines.slice(0, i), ...instead[how]!, ...lines.slice(i + (how.endsWith("Pair") ? 2 : 1))].join(
    "\n",
  );
}

test("a damaged file is read or refused, never thrown: 400 kinds of damage", () => {
  fc.assert(
    fc.property(fc.array(anyDamage, { minLength: 1, maxLength: 3 }), (all) => {
      const first = all[0]!;
      const text = all
        .reduce((lines, { at, how }) => damaged(lines, at, how).split("\n"), whole[first.file]!)
        .join("\n");
      const reading = readDxf(text);
      for (const { loop } of reading.loops)
        for (const v of loop.vertices) expect(Number.isFinite(v.x + v.y + v.bulge)).toBe(true);
      expect(judgeDxf(text)).toBeInstanceOf(Array);
    }),
    { numRuns: 400, seed: 11 },
  );
});

test("any text at all is read or refused", () => {
  fc.assert(
    fc.property(fc.string({ maxLength: 300 }), (text) => {
      expect(readDxf(text).findings.length).toBeGreaterThan(0);
    }),
    { numRuns: 200, seed: 12 },
  );
});

test("a panel thousands of kilometres long is said to be off, not judged", () => {
  const text = partDxf(everything, { runOut: 3 }).replaceAll("\n400\n", "\n4e9\n");
  expect(judgeDxf(text).map((finding) => finding.code)).toContain("dxf_unknown_entity");
});
