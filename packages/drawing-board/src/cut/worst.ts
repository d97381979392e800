import type { Shown } from "@dryfit/job";
import type { Place } from "./window.ts";

/** Where the cut wood differs most from the design. */
export interface WorstPlace {
  readonly words: string;
  /** The program that shows it, and the place in that program's frame, mm. */
  readonly file: string;
  readonly at: Place;
}

/** The worst place that the proof found on any sheet, seen in `preferred` where that cuts the same sheet. */
export function worstPlace(shown: Shown, preferred: string): WorstPlace | null {
  const measured = shown.proof?.perPart.flatMap(({ part, gouge, gougeAt, uncut, uncutAt }) => [
    ...(gougeAt ? [{ part, mm: gouge, at: gougeAt, what: "too much taken from" }] : []),
    ...(uncutAt ? [{ part, mm: uncut, at: uncutAt, what: "left on" }] : []),
  ]);
  const worst = measured?.reduce<(typeof measured)[number] | null>(
    (a, b) => (a === null || b.mm > a.mm ? b : a),
    null,
  );
  if (!worst) return null;
  const sheet = shown.layout.sheets.find(({ parts }) => parts.some(({ part }) => part === worst.part))?.id;
  const programs = shown.programs.filter((program) => program.sheet === sheet);
  const program = programs.find(({ file }) => file === preferred) ?? programs.at(-1);
  if (!sheet || !program) return null;
  const title = shown.assembly.parts.find(({ id }) => id === worst.part)?.title ?? worst.part;
  return {
    words: `${worst.mm.toFixed(3)} mm ${worst.what} ${title}`,
    file: program.file,
    at: inProgram(worst.at, program.setup === "B" ? shown.flips[sheet] : undefined),
  };
}

/** Turned over like a page: left and right change places, or near and far. */
export function inProgram<P extends Place>(p: P, flip: Shown["flips"][string] | undefined): P {
  if (!flip) return p;
  return flip.axis === "y" ? { ...p, x: 2 * flip.at - p.x } : { ...p, y: 2 * flip.at - p.y };
}
