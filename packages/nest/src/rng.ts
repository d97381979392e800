import { cosine, logarithm } from "@dryfit/geometry";
/** A seeded source of numbers in [0, 1). */
export type Rng = () => number;

/**
 * Small fast counter generator: the same seed gives the same numbers on every machine.
 * Source: sfc32 of the PractRand suite (C. Doty-Humphrey), 32-bit integer arithmetic only.
 */
export function rngFrom(seed: number): Rng {
  let a = seed | 0;
  let b = Math.floor(seed / 2 ** 32) | 0;
  let c = 0x9e3779b9 | 0;
  let counter = 1;
  const next = (): number => {
    const sum = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (c << 21) | (c >>> 11);
    c = (c + sum) | 0;
    return (sum >>> 0) / 2 ** 32;
  };
  // Early values still show the seed.
  for (let i = 0; i < 12; i++) next();
  return next;
}

/** Puts the list in a random order, in place. */
export function shuffle<T>(list: T[] | Int32Array, rng: Rng): void {
  for (let i = list.length - 1; i > 0; i--) {
    const j = Math.floor(rng() * (i + 1));
    const kept = list[i]!;
    (list as T[])[i] = list[j] as T;
    (list as T[])[j] = kept as T;
  }
}

/** Normally distributed about 0 with deviation 1. Source: G. E. P. Box, M. E. Muller 1958. */
export function normal(rng: Rng): number {
  return Math.sqrt(-2 * logarithm(1 - rng())) * cosine(2 * Math.PI * rng());
}
