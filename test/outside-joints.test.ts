import { execFileSync } from "node:child_process";
import { flatten, type Region } from "@dryfit/geometry";
import type { Assembly } from "@dryfit/joinery";
import { type CutPart, dryFit, type JointProof, loadSolidKernel, type SolidKernel } from "@dryfit/verify";
import { beforeAll, describe, expect, test } from "vitest";
import { assemblyOf, cutPartsOf, type HandMade, handMade } from "../packages/verify/test/dryfit-case.ts";

/** A joint cut through by shapely, mm; null where a line meets no wood. */
interface Section {
  readonly sides: readonly [number | null, number | null];
  readonly end: number | null;
  readonly shoulder: number | null;
  readonly overlap: number;
}

/** Both measure the same flattened sections: what is left is float32 and where the lines are laid. */
const AGREED_MM = 0.002;

const SHARES = [0.2, 0.37, 0.5, 0.66, 0.8];

let kernel: SolidKernel;
beforeAll(async () => {
  kernel = await loadSolidKernel();
});

function sections(assembly: Assembly, cuts: readonly CutPart[]): Map<string, readonly (Section | null)[]> {
  const loop = (points: Region["outer"]) => flatten(points).map(({ x, y }) => [x, y]);
  const parts = cuts.map(({ part, thickness, layers }) => [
    part,
    {
      pose: assembly.poses[part],
      thickness,
      layers: layers.map(({ from, to, solid }) => ({
        from,
        to,
        solid: solid.map((region) => ({ outer: loop(region.outer), holes: region.holes.map(loop) })),
      })),
    },
  ]);
  const input = JSON.stringify({ parts: Object.fromEntries(parts), joints: assembly.joints, shares: SHARES });
  const script = new URL("outside/joints.py", import.meta.url).pathname;
  const out = execFileSync("/usr/bin/python3", [script], { input, encoding: "utf8", maxBuffer: 1e8 });
  const verdicts = JSON.parse(out) as { id: string; cuts: (Section | null)[] }[];
  return new Map(verdicts.map(({ id, cuts: found }) => [id, found]));
}

/** The least that any section shows; the shoulder that is pushed home as far as the tongue lets it. */
function expectSame(proof: JointProof, cuts: readonly (Section | null)[]) {
  const found = cuts.filter((cut) => cut !== null);
  expect(found).toHaveLength(SHARES.length);
  const sides = found.flatMap((cut) => cut.sides).filter((side) => side !== null);
  const end = Math.min(...found.map((cut) => cut.end!));
  const shoulder = Math.min(...found.map((cut) => cut.shoulder ?? 0)) + Math.max(0, -end);
  const off = (a: number, b: number) => expect(Math.abs(a - b)).toBeLessThan(AGREED_MM);
  off(proof.sideClearance.min, Math.min(...sides));
  off(proof.sideClearance.max, Math.max(...sides));
  off(proof.endGap, end);
  off(proof.shoulderGap, shoulder);
  expect(Math.max(...found.map((cut) => cut.overlap)) > 0.01).toBe(proof.interference > 0);
}

describe("joints cut through by an outside library have the air that the dry fit measures", () => {
  function check(given: Partial<HandMade>) {
    const numbers = handMade(given);
    const [assembly, cuts] = [assemblyOf(numbers), cutPartsOf(numbers)];
    const outside = sections(assembly, cuts);
    for (const proof of dryFit(kernel, assembly, () => cuts).joints)
      expectSame(proof, outside.get(proof.id)!);
  }
  test("in a case as designed", () => check({}));
  test("with more air", () => check({ side: 0.17, end: 0.63 }));
  test("where the base's tongue is thin from below", () => check({ baseTongueThickness: 6.9 }));
  test("where the base lost wood at its front shoulder", () => check({ baseShoulderCut: 0.3 }));
  test("where the groove is too shallow", () => check({ grooveDepth: 6.5 }));
});
