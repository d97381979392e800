import { mmPerInch, type Units } from "@dryfit/joinery";

/** A gap in a joint: hundredths of a millimetre, or ten-thousandths of an inch; no −0. */
export function gapText(mm: number, units: Units): string {
  return units === "mm"
    ? (hundredths(mm) + 0).toFixed(2)
    : (Math.round((mm / mmPerInch) * 1e4) / 1e4 + 0).toFixed(4);
}

/** "0.10 to 0.42", or one figure where both are the same. */
export function spanText(span: { readonly min: number; readonly max: number }, units: Units): string {
  const [least, most] = [gapText(span.min, units), gapText(span.max, units)];
  return least === most ? least : `${least} to ${most}`;
}

/** Wood in wood. */
export function volumeText(mm3: number, units: Units): string {
  if (units === "mm") return `${mm3.toFixed(1)} mm³`;
  return `${(mm3 / mmPerInch ** 3).toFixed(5)} in³`;
}

export function unitWord(units: Units): string {
  return units === "mm" ? "mm" : "in";
}

function hundredths(mm: number): number {
  return Math.round(mm * 100) / 100;
}
