import { writeFile } from "node:fs/promises";
import { starterDesign } from "@dryfit/joinery";
import { EXIT, type ExitCode, Failure } from "./failure.ts";

/** `dryfit new`: a commented design file; never over one that exists. */
export async function newDesign(file: string): Promise<ExitCode> {
  try {
    await writeFile(file, starterDesign(), { flag: "wx" });
  } catch (error) {
    const exists = (error as NodeJS.ErrnoException).code === "EEXIST";
    throw new Failure(
      exists
        ? `${file} exists already. Name another file.`
        : `Could not write ${file}: ${(error as Error).message}`,
    );
  }
  process.stdout.write(`Wrote ${file}. Change the inside measurements, then: dryfit make ${file}\n`);
  return EXIT.made;
}
