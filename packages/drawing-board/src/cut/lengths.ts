import { mmPerInch, type Units } from "@dryfit/joinery";

/** A length as a machine shows it: hundredths of a millimetre, or thousandths of an inch. */
export function machineText(mm: number, units: Units): string {
  const value = units === "mm" ? mm.toFixed(2) : (mm / mmPerInch).toFixed(3);
  return /^-0\.?0*$/.test(value) ? value.slice(1) : value;
}

/** The same with its unit, for sentences. */
export function lengthWords(mm: number, units: Units): string {
  return `${machineText(mm, units).replace(/\.?0+$/, "")} ${units}`;
}

export function minuteWords(minutes: number): string {
  return minutes < 9.95 ? `${minutes.toFixed(1)} min` : `${Math.round(minutes)} min`;
}
