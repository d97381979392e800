import { execFileSync } from "node:child_process";
import { flatten, type Region } from "@dryfit/geometry";
import type { Assembly } from "@dryfit/joinery";
import { type CutPart, dryFit, type JointProof, type SolidKernel } from "@dryfit/verify";
import { expect } from "vitest";

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
  const script = new URL("joints.py", import.meta.url).pathname;
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

/** Every joint, as the dry fit measures it and as shapely measures sections of it. */
export function expectSameAir(kernel: SolidKernel, assembly: Assembly, cuts: readonly CutPart[]) {
  const outside = sections(assembly, cuts);
  const { joints } = dryFit(kernel, evenly(assembly), () => cuts);
  expect(joints.length).toBeGreaterThan(7);
  for (const proof of joints) expectSame(proof, outside.get(proof.id)!);
}

/** The same case of sheets that are as thick all over as their mean: one reading, for one section. */
function evenly(assembly: Assembly): Assembly {
  const parts = assembly.parts.map((part) => {
    const { mean } = part.thickness;
    return { ...part, thickness: { min: mean, mean, max: mean } };
  });
  return { ...assembly, parts };
}
