import type { Cutter } from "./cutter.ts";
import { mm } from "./sum.ts";

/** "cutter 1 (6 mm up-cut, 2 flutes)", as a person looks for it in a drawer. */
export function cutterText({ number, diameter, kind, flutes }: Cutter): string {
  return `cutter ${number}, ${mm(diameter)} ${kind}, ${flutes} ${flutes === 1 ? "flute" : "flutes"}`;
}
