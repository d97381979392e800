import { execFileSync } from "node:child_process";
import { programUntil, resumedProgram, resumePoints } from "@dryfit/gcode";
import { expect, test } from "vitest";
import { SAMPLES, sample } from "./sample.ts";

/** Of all places where a program can be taken up: shares of the way through it. */
const PLACES = [0.3, 0.8];

interface Verdict {
  readonly level: number;
  readonly whole: number;
  readonly left: number;
  readonly resumed: number;
  readonly missing: number;
  readonly extra: number;
}

test.each(SAMPLES)("the programs of %s, taken up again, remove just the wood that was left", (name) => {
  const { road } = made(name);
  const cases = road.programs.flatMap(({ file, text, zZero, cutters }) => {
    const points = resumePoints(text);
    const { thickness } = road.assembly.parts[0]!;
    return PLACES.map((share) => {
      const { block } = points[Math.floor(share * points.length)]!;
      return {
        file,
        block,
        whole: text,
        until: programUntil(text, block)!,
        resumed: resumedProgram(text, block)!,
        zero: zZero,
        thickness: thickness.mean,
        diameters: Object.fromEntries(cutters.map(({ number, diameter }) => [number, diameter])),
        // Just under the face, and where only through cuts go.
        levels: [0.5, thickness.mean - 0.1],
      };
    });
  });
  const verdicts = judged(cases);
  cases.forEach(({ file, block }, i) => {
    for (const { level, left, resumed, missing, extra } of verdicts[i]!) {
      const place = `${file} at block ${block}, ${level} deep`;
      // The resumed program says its coordinates anew, rounded as before: nothing at all may differ.
      expect(missing, place).toBeLessThanOrEqual(0.001);
      expect(extra, place).toBeLessThanOrEqual(0.001);
      expect(Math.abs(left - resumed), place).toBeLessThanOrEqual(0.01 + 1e-6 * left);
    }
    const deepest = verdicts[i]!.at(-1)!;
    expect(deepest.left).toBeLessThanOrEqual(deepest.whole);
    expect(
      Math.max(...verdicts[i]!.map(({ left }) => left)),
      `${file} at ${block} has wood left`,
    ).toBeGreaterThan(1);
  });
});

test("a program taken up one block too late is caught", () => {
  const { road } = made("skiff");
  const { text, zZero, cutters } = road.programs[0]!;
  const [, second, third] = resumePoints(text);
  const { thickness } = road.assembly.parts[0]!;
  const [[verdict]] = judged([
    {
      whole: text,
      until: programUntil(text, second!.block)!,
      resumed: resumedProgram(text, third!.block)!,
      zero: zZero,
      thickness: thickness.mean,
      diameters: Object.fromEntries(cutters.map(({ number, diameter }) => [number, diameter])),
      levels: [1],
    },
  ]) as [[Verdict]];
  expect(verdict.missing).toBeGreaterThan(1);
});

const shelf = new Map<string, ReturnType<typeof sample>>();

function made(name: (typeof SAMPLES)[number]): ReturnType<typeof sample> {
  const found = shelf.get(name) ?? sample(name);
  shelf.set(name, found);
  return found;
}

function judged(cases: readonly object[]): Verdict[][] {
  const script = new URL("outside/resumed.py", import.meta.url).pathname;
  const input = JSON.stringify(cases);
  const out = execFileSync("/usr/bin/python3", [script], { input, encoding: "utf8", maxBuffer: 1e8 });
  return JSON.parse(out) as Verdict[][];
}
