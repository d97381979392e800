import type { Finding } from "@dryfit/joinery";
import type { Motion } from "./program/motion.ts";
import type { ReadProgram } from "./program/read-program.ts";
import type { CutterFacts, ProgramFile } from "./proof.ts";

export interface MountedCutters {
  readonly cutterOf: (motion: Motion) => CutterFacts;
  readonly findings: readonly Finding[];
}

/**
 * Which declared cutter is in the spindle at each motion. A program that never names one runs with the first
 * declared; one that declares several must name each where it goes in.
 */
export function mountedCutters({ file, cutters }: ProgramFile, read: ReadProgram): MountedCutters {
  const byNumber = new Map(cutters.map((cutter) => [cutter.number, cutter]));
  const first = cutters[0] ?? NO_CUTTER;
  const used = new Map<number, number>();
  for (const { cutter, line } of read.motions) if (!used.has(cutter)) used.set(cutter, line);
  const strangers = [...used].filter(([number]) => number !== 0 && !byNumber.has(number));
  const never = cutters.slice(1).filter(({ number }) => !used.has(number));
  const mismatch = (line: number, message: string, number: number): Finding => ({
    code: "cutter_mismatch",
    severity: "error",
    path: `${file}:${line}`,
    message,
    numbers: { line, cutter: number },
  });
  return {
    cutterOf: ({ cutter }) => byNumber.get(cutter) ?? first,
    findings: [
      ...(cutters.length === 0 ? [mismatch(1, "The program declares no cutter.", 0)] : []),
      ...strangers.map(([number, line]) =>
        mismatch(line, `Cutter ${number} goes in, but the program does not declare it.`, number),
      ),
      ...never.map(({ number, id }) =>
        mismatch(1, `The program declares cutter ${number} (${id}) and never puts it in.`, number),
      ),
    ],
  };
}

/** Cuts nothing. */
const NO_CUTTER: CutterFacts = {
  number: 0,
  id: "none",
  kind: "straight",
  diameter: 0,
  fluteLength: 0,
  shankDiameter: 0,
  maxRpm: 0,
};
