import { cosine, sine } from "./sine.ts";
/**
 * Elliptic integrals by Carlson's symmetric forms; `m` is the parameter (modulus squared), 0 ≤ m < 1.
 * Source: B. C. Carlson, Numerical computation of real or complex elliptic integrals (1995).
 */

/** ∫ dφ / √(1 − m sin² φ) from 0 to φ. Any φ. */
export function ellipticF(phi: number, m: number): number {
  const half = Math.round(phi / Math.PI);
  const [s, c] = [sine(phi - half * Math.PI), cosine(phi - half * Math.PI)];
  const rest = s * carlsonF(c * c, 1 - m * s * s, 1);
  return half === 0 ? rest : rest + 2 * half * carlsonF(0, 1 - m, 1);
}

/** ∫ √(1 − m sin² φ) dφ from 0 to φ. Any φ. */
export function ellipticE(phi: number, m: number): number {
  const half = Math.round(phi / Math.PI);
  const [s, c] = [sine(phi - half * Math.PI), cosine(phi - half * Math.PI)];
  const part = (s1: number, c2: number): number =>
    s1 * carlsonF(c2, 1 - m * s1 * s1, 1) - ((m * s1 * s1 * s1) / 3) * carlsonD(c2, 1 - m * s1 * s1, 1);
  const rest = part(s, c * c);
  return half === 0 ? rest : rest + 2 * half * part(1, 0);
}

function carlsonF(x0: number, y0: number, z0: number): number {
  let [x, y, z] = [x0, y0, z0];
  for (;;) {
    const mean = (x + y + z) / 3;
    const [dx, dy, dz] = [1 - x / mean, 1 - y / mean, 1 - z / mean];
    if (Math.max(Math.abs(dx), Math.abs(dy), Math.abs(dz)) < 1e-3) {
      const e2 = dx * dy - dz * dz;
      const e3 = dx * dy * dz;
      return (1 - e2 / 10 + e3 / 14 + (e2 * e2) / 24 - (3 * e2 * e3) / 44) / Math.sqrt(mean);
    }
    const shift = Math.sqrt(x * y) + Math.sqrt(y * z) + Math.sqrt(z * x);
    [x, y, z] = [(x + shift) / 4, (y + shift) / 4, (z + shift) / 4];
  }
}

function carlsonD(x0: number, y0: number, z0: number): number {
  let [x, y, z] = [x0, y0, z0];
  let [sum, weight] = [0, 1];
  for (;;) {
    const mean = (x + y + 3 * z) / 5;
    const [dx, dy, dz] = [1 - x / mean, 1 - y / mean, 1 - z / mean];
    if (Math.max(Math.abs(dx), Math.abs(dy), Math.abs(dz)) < 1e-3) {
      const a = dx * dy;
      const b = dz * dz;
      const [c, d] = [a - b, a - 6 * b];
      const e = d + c + c;
      const series =
        1 +
        d * (-3 / 14 + (9 / 88) * d - (9 / 52) * dz * e) +
        dz * (e / 6 + dz * ((-9 / 22) * c + dz * (3 / 26) * a));
      return 3 * sum + (weight * series) / (mean * Math.sqrt(mean));
    }
    const root = Math.sqrt(z);
    const shift = Math.sqrt(x * y) + Math.sqrt(y) * root + root * Math.sqrt(x);
    sum += weight / (root * (z + shift));
    weight /= 4;
    [x, y, z] = [(x + shift) / 4, (y + shift) / 4, (z + shift) / 4];
  }
}
