import type { Cutter } from "./cutter.ts";

/** A sum that keeps a line for each of its steps. */
export interface Sum {
  readonly steps: readonly string[];
  readonly say: (line: string) => void;
  readonly isByHand: (key: keyof Cutter["set"]) => boolean;
  /** The value set by hand under `key`, else `value`; either way its line is kept. */
  readonly pick: (
    key: keyof Cutter["set"],
    print: (value: number) => string,
    value: number,
    reason: string,
    title?: string,
  ) => number;
}

export function sumOf(set: Cutter["set"]): Sum {
  const steps: string[] = [];
  return {
    steps,
    say: (line) => {
      steps.push(line);
    },
    isByHand: (key) => set[key] !== null,
    pick: (key, print, value, reason, title = TITLES[key]) => {
      const byHand = set[key];
      steps.push(
        byHand === null
          ? `${title}: ${print(value)}: ${reason}`
          : `${title}: ${print(byHand)}, set by hand (the sum gives ${print(value)})`,
      );
      return byHand ?? value;
    },
  };
}

const TITLES: Readonly<Record<keyof Cutter["set"], string>> = {
  rpm: "speed",
  feedMmPerMin: "feed",
  plungeMmPerMin: "plunge",
  depthPerPass: "depth of a pass",
  stepover: "stepover",
};

/** To 3 decimals at most, as a person would write it. */
export function mm(value: number): string {
  return `${Number(value.toFixed(3))} mm`;
}

export function percent(share: number): string {
  return `${Number((share * 100).toFixed(1))} %`;
}

/** The greatest multiple of `step` that is not above `value`. */
export function roundedDown(value: number, step: number): number {
  // A hair is added so that 0.3 / 0.1 counts as 3; the product is cleaned of float dust.
  return Number((Math.floor(value / step + 1e-9) * step).toFixed(6));
}
