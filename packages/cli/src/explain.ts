import { type Explained, explainJob } from "@dryfit/job";
import { explanationText, waitingHours } from "@dryfit/joinery";
import { designFile } from "./design-file.ts";
import { EXIT, type ExitCode } from "./failure.ts";
import { report } from "./report.ts";
import { type ShopOptions, shopFiles } from "./shop-files.ts";
import { VERSION } from "./version.ts";

/** `dryfit explain`: the design with its defaults, every derived number as a sum, the sums behind the feeds. */
export async function explain(
  file: string,
  options: ShopOptions & { readonly json?: boolean },
): Promise<ExitCode> {
  const given = await designFile(file);
  const explained = explainJob({ ...given, ...(await shopFiles(options)), version: VERSION });
  if (!explained.ok) {
    if (options.json) printJson({ outcome: "unreadable", findings: explained.findings });
    else process.stderr.write(`${report(explained.findings)}\n`);
    return EXIT.unreadable;
  }
  if (options.json) {
    const { design, numbers, cutting, clearing, finish } = explained;
    printJson({ design, numbers, cutting, clearing, finish });
    return EXIT.made;
  }
  const lines = [
    `${explained.design.name}: the design with every default, mm`,
    ...listed(explained.design, ""),
    "",
    "Derived",
    ...explained.numbers.map((number) => `  ${explanationText(number)}`),
    "",
    "Speeds and feeds in a full slot",
    ...explained.cutting.flatMap(({ cutter, data }) => [
      `  ${cutter.id}, ${cutter.diameter} mm ${cutter.kind}`,
      ...data.steps.map((step) => `    ${step}`),
    ]),
    "",
    "How recesses are cleared",
    ...explained.clearing.map(
      ({ part, feature, method, engagementDeg, limitDeg, minutes }) =>
        `  ${part}/${feature}: ${method}, at most ${engagementDeg}° of the rim at once${
          limitDeg === null ? "" : ` (${limitDeg}° allowed)`
        }, ${minutes.toFixed(1)} minutes`,
    ),
    "",
    "Finish",
    ...finishLines(explained.finish),
  ];
  process.stdout.write(`${lines.join("\n")}\n`);
  return EXIT.made;
}

/** Coats, areas, litres and waiting times as sums. */
function finishLines({ isCommon, faces, edges, lines }: Explained["finish"]): string[] {
  return [
    ...lines.map(
      (line) =>
        `  ${line.what}: ${line.coats} × ${faces} m² of faces + ${line.edgeCoats} × ${edges} m² of edges = ${line.area} m², at ${line.squareMetresPerLitre} m² a litre ${line.litres} l; ${line.hours} h after each of ${Math.max(line.coats, line.edgeCoats)} coats, ${waitingHours([line])} h`,
    ),
    `  Coats wait ${waitingHours(lines)} h in all. ${
      isCommon
        ? "Common practice, no source: finish: in a price file (--prices) says what you use."
        : "As your price file says."
    }`,
  ];
}

/** "  joint.tongue.length: 6.8", one line a value, with the keys of the design file. */
function listed(value: unknown, path: string): string[] {
  if (Array.isArray(value))
    return value.every((item) => typeof item !== "object")
      ? [`  ${path}: ${value.length > 0 ? value.join(", ") : "none"}`]
      : value.flatMap((item, i) => listed(item, `${path}[${i}]`));
  if (typeof value === "object" && value !== null)
    return Object.entries(value).flatMap(([key, inner]) =>
      listed(inner, path === "" ? key : `${path}.${key}`),
    );
  return [`  ${path}: ${value === null ? "none" : value}`];
}

function printJson(value: unknown): void {
  process.stdout.write(`${JSON.stringify(value, null, 2)}\n`);
}
