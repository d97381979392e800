import { execFileSync } from "node:child_process";
import { type Curve, circle, flatten, placeCurve } from "@dryfit/geometry";
import type { Part } from "@dryfit/joinery";
import type { CutPart, JobToProve } from "@dryfit/verify";

/** How far the wood of one layer is off what shapely leaves, mm. */
export interface LayerVerdict {
  readonly depth: number;
  readonly deviation: number;
  readonly at: readonly [number, number] | null;
  readonly areas: readonly [number, number];
}

export interface PartVerdict {
  readonly id: string;
  readonly moves: number;
  readonly layers: readonly LayerVerdict[];
}

type Sheet = JobToProve["sheets"][number];

/** One sheet, its programs' texts and the parts that the proof found in it, for removed.py. */
function question(job: JobToProve, sheet: Sheet, cuts: readonly CutPart[]): object {
  const flipOf = (setup: "A" | "B") => (setup === "B" ? job.flips[sheet.id] : null);
  const programs = job.programs.filter((program) => program.sheet === sheet.id);
  return {
    thickness: cuts[0]!.thickness,
    programs: programs.map(({ text, zZero, setup, cutters }) => ({
      text,
      zero: zZero,
      flip: flipOf(setup),
      diameters: Object.fromEntries(cutters.map(({ number, diameter }) => [number, diameter])),
    })),
    parts: sheet.parts.map(({ part: id, placement }) => {
      const part = job.assembly.parts.find((each) => each.id === id)!;
      const ring = (loop: Curve<"panel">) => flatten(placeCurve(placement, loop)).map(({ x, y }) => [x, y]);
      const skin = programs.find((program) => program.skin !== null);
      return {
        id,
        outline: ring(part.outline),
        through: throughCuts(part).map(ring),
        tabs: programs.flatMap(({ tabs, setup }) =>
          tabs.filter((tab) => tab.part === id).map((tab) => ({ ...tab, flip: setup === "B" })),
        ),
        skin: skin ? { height: skin.skin, flip: skin.setup === "B" } : null,
        layers: cuts
          .find((cut) => cut.part === id)!
          .layers.map(({ from, to, solid }) => ({
            from,
            to,
            solid: solid.map(({ outer, holes }) => ({ outer: ring(outer), holes: holes.map(ring) })),
          })),
      };
    }),
  };
}

function throughCuts({ features }: Part): Curve<"panel">[] {
  return features.flatMap((feature): Curve<"panel">[] => {
    if (feature.kind === "opening") return [feature.loop];
    return feature.kind === "bore" && feature.depth === null
      ? [circle(feature.at, feature.diameter / 2)]
      : [];
  });
}

/** Part by part, how far the proof's wood is off the wood that shapely leaves. */
export function judgeRemoval(job: JobToProve, sheet: Sheet, cuts: readonly CutPart[]): PartVerdict[] {
  const placed = new Set(sheet.parts.map(({ part }) => part));
  const input = JSON.stringify(
    question(
      job,
      sheet,
      cuts.filter((cut) => placed.has(cut.part)),
    ),
  );
  const script = new URL("removed.py", import.meta.url).pathname;
  const out = execFileSync("/usr/bin/python3", [script], { input, encoding: "utf8", maxBuffer: 1e8 });
  return JSON.parse(out) as PartVerdict[];
}

export function widest(verdicts: readonly PartVerdict[]): number {
  return Math.max(...verdicts.flatMap(({ layers }) => layers.map(({ deviation }) => deviation)));
}
