/**
 * Where `f` crosses zero between `low` and `high`, to float accuracy. Its signs there must differ.
 *
 * Regula falsi, the end that stays put halved in weight (Illinois); falls back to halving where that stalls.
 */
export function rootBetween(f: (x: number) => number, low: number, high: number): number {
  let [a, b] = [low, high];
  let [fa, fb] = [f(a), f(b)];
  if (fa === 0) return a;
  if (fb === 0) return b;
  if (fa > 0 === fb > 0) throw new RangeError(`no change of sign between ${low} and ${high}`);
  for (let i = 0; i < 200; i++) {
    const guess = i % 4 === 3 ? (a + b) / 2 : (a * fb - b * fa) / (fb - fa);
    if (guess === a || guess === b || Math.abs(b - a) <= 1e-15 * Math.max(Math.abs(a), Math.abs(b))) break;
    const value = f(guess);
    if (value === 0) return guess;
    if (value > 0 === fb > 0) fa /= 2;
    else [a, fa] = [b, fb];
    [b, fb] = [guess, value];
  }
  return b;
}
