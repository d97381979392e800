/** How many of each piece a block holds, packed so that two blocks are compared in a few additions. */
export interface Demand {
  /** One of piece `k`. */
  one(k: number): Int32Array;
  sum(a: Int32Array, b: Int32Array): Int32Array;
  /** Do both together stay within what is asked of every piece? */
  allows(a: Int32Array, b: Int32Array): boolean;
}

/** Bits of a word that are used: sums must not reach the sign. */
const WORD = 30;

/**
 * Every piece has a counter a few bits wide, and a guard bit above it. A bias lets the guard bit be set by exactly
 * those sums that are too many.
 */
export function demandOf(most: readonly number[]): Demand {
  const place: { word: number; shift: number }[] = [];
  const bias: number[] = [0];
  const guard: number[] = [0];
  let used = 0;
  for (const count of most) {
    // Two blocks of at most `count` each, and the bias, must stay below twice the guard.
    const bits = Math.max(1, Math.ceil(Math.log2(count + 1)));
    if (used + bits + 1 > WORD) {
      bias.push(0);
      guard.push(0);
      used = 0;
    }
    const word = bias.length - 1;
    place.push({ word, shift: used });
    bias[word]! += (2 ** bits - 1 - count) * 2 ** used;
    guard[word]! += 2 ** (used + bits);
    used += bits + 1;
  }
  const words = bias.length;
  return {
    one: (k) => {
      const out = new Int32Array(words);
      out[place[k]!.word] = 1 << place[k]!.shift;
      return out;
    },
    sum: (a, b) => {
      const out = new Int32Array(words);
      for (let w = 0; w < words; w++) out[w] = a[w]! + b[w]!;
      return out;
    },
    allows: (a, b) => {
      for (let w = 0; w < words; w++) if (((a[w]! + b[w]! + bias[w]!) & guard[w]!) !== 0) return false;
      return true;
    },
  };
}
