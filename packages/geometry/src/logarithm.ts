/**
 * The natural logarithm, the same to the last digit on every engine; `sine.ts` says why.
 *
 * Source: log x = k log 2 + 2 artanh((m − 1) / (m + 1)) for x = 2ᵏ m, m near 1. Errors: NaN below 0.
 */
export function logarithm(x: number): number {
  if (!(x > 0) || x === Number.POSITIVE_INFINITY) return Math.log(x);
  let [k, m] = [0, x];
  for (; m > Math.SQRT2; k++) m /= 2;
  for (; m < Math.SQRT1_2; k--) m *= 2;
  const t = (m - 1) / (m + 1);
  const z = t * t;
  let sum = 0;
  for (let n = 21; n >= 3; n -= 2) sum = (sum + 1 / n) * z;
  return k * Math.LN2 + 2 * (t + t * sum);
}
