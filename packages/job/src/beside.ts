import { buildSheetFile } from "@dryfit/drawing";
import { rehearse } from "@dryfit/gcode";
import { proveShare } from "@dryfit/verify";
import { drawn } from "./pictures.ts";

/** Work on the way from a design to a folder that somebody else may do meanwhile: plain data in, plain data out. */
interface Shares {
  readonly rehearse: typeof rehearse;
  readonly draw: typeof drawn;
  readonly prove: typeof proveShare;
  readonly print: typeof buildSheetFile;
}

const SHARES: Shares = {
  rehearse,
  draw: drawn,
  prove: proveShare,
  print: buildSheetFile,
};

/** Has a share done: here and now, or by another worker, which comes to the same. */
export type Beside = <Name extends keyof Shares>(
  name: Name,
  ...input: Parameters<Shares[Name]>
) => Promise<ReturnType<Shares[Name]>>;

/** A share that was asked for, as it is posted. */
export interface Share {
  readonly name: keyof Shares;
  readonly input: readonly unknown[];
}

/** Does a share that came from another worker of the same page: what it was asked for is what `Beside` let through. */
export function shareDone({ name, input }: Share): unknown {
  return (SHARES[name] as (...input: readonly unknown[]) => unknown)(...input);
}

/** For whom nobody stands beside. */
export const alone: Beside = async (name, ...input) =>
  shareDone({ name, input }) as ReturnType<Shares[typeof name]>;

/** Not every share is waited for: its run may have ended first. */
export function begun<T>(share: Promise<T>): Promise<T> {
  share.catch(() => {});
  return share;
}
