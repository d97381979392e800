import { readFileSync } from "node:fs";
import { makeBatch, type OutFile } from "@dryfit/job";

/** Twenty cases in one job are to take no longer, s, on two cores. */
const BOUND = 60;

/** Two widths and two depths, with a tier of three slats, of two or none, sharp edges or round, with an opening or none. */
export const TWENTY: readonly OutFile[] = (() => {
  const text = readFileSync(new URL("../../samples/tidepool.yaml", import.meta.url), "utf8");
  const kinds: readonly ((design: string) => string)[] = [
    (design) => design,
    (design) => without(design, "tier"),
    (design) => without(design, "edges"),
    (design) => without(design, "openings"),
    (design) => design.replace("slats: 3", "slats: 2"),
  ];
  return [540, 430].flatMap((width) =>
    [336, 352].flatMap((depth) =>
      kinds.map((kind, i) => {
        const name = `case-${width}-${depth}-${i + 1}`;
        const sized = text
          .replace("name: tidepool", `name: ${name}`)
          .replace("width: 540", `width: ${width}`)
          .replace("depth: 336", `depth: ${depth}`);
        return { file: `${name}.yaml`, text: kind(sized) };
      }),
    ),
  );
})();

/** A design without one of its sections. */
function without(design: string, section: string): string {
  return design.replace(new RegExp(`^${section}:\\n(?:[ #].*\\n|\\n)*`, "m"), "");
}

/** What a batch of twenty mixed cases takes: seconds by the clock and of processor time, peak memory, and its sheets. */
export async function benchTwenty(): Promise<readonly string[]> {
  const cases = TWENTY.map(({ file }) => `  - { design: ${file} }\n`).join("");
  const start = performance.now();
  const cpu = process.cpuUsage();
  const made = await makeBatch({
    batch: { file: "twenty.yaml", text: `batch: 1\nname: twenty\ncases:\n${cases}` },
    designs: TWENTY.map((design) => ({ design, drawings: [] })),
    machine: null,
    cutters: null,
    version: "bench",
  });
  const seconds = (performance.now() - start) / 1000;
  const { user, system } = process.cpuUsage(cpu);
  if (made.outcome !== "made") throw new Error(JSON.stringify(made.findings));
  const { parts, sheets } = made.job!;
  return [
    "",
    `twenty mixed cases in one batch: ${parts.length} parts on ${sheets.length} sheets in ${seconds.toFixed(1)} s (asked: ${BOUND}), ` +
      `${((user + system) / 1e6).toFixed(1)} s of processor time, ${(process.resourceUsage().maxRSS / 2 ** 10).toFixed(0)} MB at most`,
  ];
}
