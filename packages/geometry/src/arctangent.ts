/**
 * The angle of the direction (x, y) from the x axis, −π to π: like the engine's own `atan2`, signed zeros included, but
 * the same to the last digit on every engine; `sine.ts` says why.
 *
 * Within two units in the last place. Source: the addition theorem, atan t = atan c + atan((t − c) / (1 + c t)), with
 * c in quarters, then Gregory's series.
 */
export function arctangent(y: number, x: number): number {
  const [high, wide] = [Math.abs(y), Math.abs(x)];
  const isSteep = high > wide;
  const flat = wide === high ? (high === 0 ? 0 : 1) : isSteep ? wide / high : high / wide;
  const low = ofSlope(flat);
  const first = isSteep ? Math.PI / 2 - low : low;
  const isBackwards = x < 0 || Object.is(x, -0);
  const size = isBackwards ? Math.PI - first : first;
  return y < 0 || Object.is(y, -0) ? -size : size;
}

/** Errors: NaN beyond −1 to 1, as the engine's own. */
export function arcsine(height: number): number {
  return arctangent(height, Math.sqrt((1 - height) * (1 + height)));
}

/** Errors: NaN beyond −1 to 1, as the engine's own. */
export function arccosine(width: number): number {
  return arctangent(Math.sqrt((1 - width) * (1 + width)), width);
}

/** The arctangents of 0, 1/4, 1/2, 3/4 and 1. Source: Gregory's series, to more digits than a number holds. */
const QUARTERS = [0, 0.24497866312686414, 0.4636476090008061, 0.6435011087932844, Math.PI / 4] as const;

/** Of a slope from 0 to 1. */
function ofSlope(slope: number): number {
  const nearest = Math.round(slope * 4);
  const c = nearest / 4;
  const t = (slope - c) / (1 + c * slope);
  const z = t * t;
  const high = 1 / 11 - z * (1 / 13 - z * (1 / 15 - z * (1 / 17 - z / 19)));
  const rest = z * t * (1 / 3 - z * (1 / 5 - z * (1 / 7 - z * (1 / 9 - z * high))));
  return (QUARTERS[nearest] ?? Number.NaN) + (t - rest);
}
