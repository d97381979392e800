import { writeFile } from "node:fs/promises";
import { SHIPPED_SERVICES } from "@dryfit/job";
import { starterDesign } from "@dryfit/joinery";
import { EXIT, type ExitCode, Failure } from "./failure.ts";

/** `dryfit new`: a commented design or service file; never over one that exists. */
export async function newFile(file: string, options: { readonly service?: string }): Promise<ExitCode> {
  const { text, next } = starter(file, options.service);
  await writeNewFile(file, text);
  process.stdout.write(`Wrote ${file}. ${next}\n`);
  return EXIT.made;
}

/** Never over one that exists. */
export async function writeNewFile(file: string, text: string): Promise<void> {
  try {
    await writeFile(file, text, { flag: "wx" });
  } catch (error) {
    const exists = (error as NodeJS.ErrnoException).code === "EEXIST";
    throw new Failure(
      exists
        ? `${file} exists already. Name another file.`
        : `Could not write ${file}: ${(error as Error).message}`,
    );
  }
}

function starter(
  file: string,
  service: string | undefined,
): { readonly text: string; readonly next: string } {
  if (service === undefined) {
    return { text: starterDesign(), next: `Change the inside measurements, then: dryfit make ${file}` };
  }
  if (!Object.hasOwn(SHIPPED_SERVICES, service))
    throw new Failure(
      `There is no service "${service}"; there are ${Object.keys(SHIPPED_SERVICES).join(", ")}.`,
    );
  const { text } = SHIPPED_SERVICES[service as keyof typeof SHIPPED_SERVICES];
  return { text, next: `Put your service's figures in, then: dryfit order case.yaml --service ${file}` };
}
