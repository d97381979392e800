import type { OutFile } from "@dryfit/job";
import { readText } from "./folder.ts";

export interface ShopOptions {
  readonly machine?: string;
  readonly cutters?: string;
  readonly prices?: string;
}

/** The texts of the maker's own shop files; null where the shipped ones serve. */
export async function shopFiles(
  options: ShopOptions,
): Promise<{ machine: OutFile | null; cutters: OutFile | null; prices: OutFile | null }> {
  const read = async (file: string | undefined): Promise<OutFile | null> =>
    file === undefined ? null : { file, text: await readText(file) };
  return {
    machine: await read(options.machine),
    cutters: await read(options.cutters),
    prices: await read(options.prices),
  };
}
