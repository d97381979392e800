import type { Units } from "./design.ts";

export const mmPerInch = 25.4;

const unitNames: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 10,
  in: mmPerInch,
  inch: mmPerInch,
  inches: mmPerInch,
  '"': mmPerInch,
  "″": mmPerInch,
};

/**
 * A length as people write it, in mm: `12`, `12.7 mm`, `1/2 in`, `1 3/8"`, `-3mm`. A bare number is in `units`.
 * Null where it is none: no number, a unit that we do not know, a fraction over nothing.
 */
export function parseLength(text: string, units: Units): number | null {
  const match = /^\s*([+-])?\s*(?:(\d+)[\s-]+)?(\d+)\s*\/\s*(\d+)\s*([a-z"″]*)\s*$/i.exec(text);
  if (match) {
    const [, sign, whole, over, under, unit] = match;
    if (Number(under) === 0) return null;
    return scaled(
      (sign === "-" ? -1 : 1) * (Number(whole ?? 0) + Number(over) / Number(under)),
      unit!,
      units,
    );
  }
  const plain = /^\s*([+-]?(?:\d+\.?\d*|\.\d+))\s*([a-z"″]*)\s*$/i.exec(text);
  return plain ? scaled(Number(plain[1]), plain[2]!, units) : null;
}

/** A length of a file, in mm: a bare number is in `units`. */
export function lengthInMm(value: number | string, units: Units): number | null {
  return typeof value === "number" ? scaled(value, "", units) : parseLength(value, units);
}

/** The length in the reader's units: mm to a hundredth, inches to the nearest 1/32 where that is what it is. */
export function formatLength(mm: number, units: Units): string {
  if (units === "mm") return `${trimmed(mm, 2)} mm`;
  const inches = mm / mmPerInch;
  const parts = Math.round(inches * 32);
  if (Math.abs(parts / 32 - inches) > 5e-5) return `${trimmed(inches, 4)} in`;
  const [whole, rest] = [Math.trunc(parts / 32), Math.abs(parts % 32)];
  if (rest === 0) return `${whole} in`;
  const shared = rest & -rest;
  const sign = parts < 0 && whole === 0 ? "-" : "";
  return `${sign}${whole === 0 ? "" : `${whole} `}${rest / shared}/${32 / shared} in`;
}

/** A number to at most so many decimals, without trailing zeros. */
export function trimmed(value: number, decimals: number): string {
  return String(Number(value.toFixed(decimals)) + 0);
}

function scaled(value: number, unit: string, units: Units): number | null {
  const factor = unitNames[unit === "" ? units : unit.toLowerCase()];
  const mm = factor === undefined ? Number.NaN : value * factor;
  // 48 × 25.4 is 1219.2, not 1219.1999999999998.
  return Number.isFinite(mm) ? Number(mm.toFixed(7)) : null;
}
