import { cosine, sine, tangentOf } from "@dryfit/geometry";
import { type Affine, after, IDENTITY } from "./piece.ts";

/** An element's transform list as one move; null where it cannot be read. Source: SVG 1.1, 7.6. */
export function transformOf(text: string): Affine | null {
  const calls = [...text.matchAll(/([a-zA-Z]+)\s*\(([^)]*)\)/g)];
  if (text.replace(/[a-zA-Z]+\s*\([^)]*\)/g, "").replace(/[\s,]/g, "") !== "") return null;
  let all: Affine = IDENTITY;
  for (const [, name, inside] of calls) {
    const numbers = inside!
      .trim()
      .split(/[\s,]+/)
      .map(Number);
    const one = numbers.every(Number.isFinite) ? single(name!, numbers) : null;
    if (one === null) return null;
    all = after(all, one);
  }
  return all;
}

function single(name: string, n: readonly number[]): Affine | null {
  const radians = ((n[0] ?? 0) * Math.PI) / 180;
  switch (name) {
    case "matrix":
      return n.length === 6 ? (n as unknown as Affine) : null;
    case "translate":
      return [1, 0, 0, 1, n[0] ?? 0, n[1] ?? 0];
    case "scale":
      return [n[0] ?? 1, 0, 0, n[1] ?? n[0] ?? 1, 0, 0];
    case "rotate": {
      const [cos, sin] = [cosine(radians), sine(radians)];
      const [x, y] = [n[1] ?? 0, n[2] ?? 0];
      return after(after([1, 0, 0, 1, x, y], [cos, sin, -sin, cos, 0, 0]), [1, 0, 0, 1, -x, -y]);
    }
    case "skewX":
      return [1, 0, tangentOf(radians), 1, 0, 0];
    case "skewY":
      return [1, tangentOf(radians), 0, 1, 0, 0];
    default:
      return null;
  }
}
