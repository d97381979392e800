import { type Budget, stepBudget, timeBudget } from "@dryfit/nest";
import { Failure } from "./failure.ts";

export interface WaitingOptions {
  readonly seconds?: string;
  readonly steps?: string;
}

/** What `--seconds` and `--steps` let a search spend; nothing where neither is given. */
export function waiting(options: WaitingOptions): { readonly budget?: Budget } {
  const seconds = amount("seconds", options.seconds, 3600);
  const steps = amount("steps", options.steps, 1e9);
  if (seconds !== null) return { budget: timeBudget(seconds, () => performance.now() / 1000) };
  return steps === null ? {} : { budget: stepBudget(Math.ceil(steps)) };
}

/** A number above 0 from the command line; null where the flag is not there. */
export function amount(flag: string, text: string | undefined, most: number): number | null {
  if (text === undefined) return null;
  const value = Number(text.replace(",", "."));
  if (text.trim() !== "" && value > 0 && value <= most) return value;
  throw new Failure(`--${flag}: found "${text}"; allowed: a number above 0, at most ${most}.`);
}
