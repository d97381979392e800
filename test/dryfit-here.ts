import { vi } from "vitest";
import { run } from "../packages/cli/src/run.ts";

/** The command in this process, without colours: starting one for each of many calls would take minutes. */
export async function dryfitHere(
  ...args: string[]
): Promise<{ readonly status: number; readonly stdout: string; readonly stderr: string }> {
  const said = { stdout: "", stderr: "" };
  const spies = (["stdout", "stderr"] as const).map((stream) =>
    vi.spyOn(process[stream], "write").mockImplementation((text) => {
      // biome-ignore lint/suspicious/noControlCharactersInRegex: colours begin with one.
      said[stream] += String(text).replace(/\x1b\[\d+m/g, "");
      return true;
    }),
  );
  try {
    return { status: await run(args), ...said };
  } finally {
    for (const spy of spies) spy.mockRestore();
  }
}
