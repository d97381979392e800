/** Decimals of a printed length: a tenth of a micrometre, far below what paper holds. */
const DECIMALS = 4;

/** A number as it stands in the file. Errors: RangeError where it is not finite. */
export function figure(value: number, decimals: number = DECIMALS): string {
  if (!Number.isFinite(value)) throw new RangeError(`a length on a page is ${value}`);
  return String(Number(value.toFixed(decimals)) + 0);
}
