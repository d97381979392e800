import { placement } from "@dryfit/geometry";
import type { SolidKernel } from "@dryfit/verify";
import { z } from "zod";
import type { PlacedFinding } from "../job.ts";
import { absentFrom, changedIn, MANIFEST, notOurs, notThere } from "../manifest.ts";
import type { OutFile } from "../outfile.ts";
import { hasErrors, type OnStage } from "../road.ts";
import { stocksOf } from "../stocks.ts";
import type { Drawing } from "./drawn.ts";
import { ORDER_NAMES, type OrderMade, orderRevision, provedOrder, readOrder } from "./make-order.ts";

/**
 * Proves a folder for a service again from the files as they stand in it: the parts from its design, where they lie
 * from its job.json, what is cut from its DXF files. Nothing is laid out or drawn anew.
 */
export async function checkOrder(
  folder: readonly OutFile[],
  onStage: OnStage = () => {},
  kernel?: SolidKernel,
): Promise<OrderMade> {
  onStage("reading the folder");
  const textOf = (name: string): string | undefined => folder.find(({ file }) => file === name)?.text;
  const needed = [MANIFEST, ORDER_NAMES.design, ORDER_NAMES.service];
  const missing = needed.filter((name) => textOf(name) === undefined);
  if (missing.length > 0) return unread(missing.map(notThere));
  const manifest = readManifest(textOf(MANIFEST)!);
  if (manifest === null) return unread([notOurs]);
  const absent = absentFrom(manifest, folder);
  if (absent.length > 0) return unread(absent);
  const input = {
    design: { file: ORDER_NAMES.design, text: textOf(ORDER_NAMES.design)! },
    service: { file: ORDER_NAMES.service, text: textOf(ORDER_NAMES.service)! },
    drawings: folder,
    prices: folder.find(({ file }) => file === ORDER_NAMES.prices) ?? null,
    version: manifest.tool.version,
  };
  const order = readOrder(input);
  if (!("assembly" in order)) return unread(order);
  const { assembly, design, placed } = order;
  if (hasErrors(assembly.findings))
    return { outcome: "cannot", files: [], job: null, findings: assembly.findings.map(placed) };
  const [stock] = stocksOf(design);
  const drawings = manifest.drawings.map(({ file, count, parts, sheet }): Drawing => {
    const layout = sheet && {
      id: sheet.id,
      stock: { ...stock!, size: sheet.size },
      parts: sheet.placed.map(({ part, turnDeg, shift: [x, y] }) => {
        const quarters = Math.floor(turnDeg / 90);
        const angle = ((turnDeg - quarters * 90) * Math.PI) / 180;
        const turned = { quarters: (quarters % 4) as 0 | 1 | 2 | 3, angle };
        return { part, placement: placement<"sheet", "panel">({ x, y }, turned) };
      }),
    };
    return { file, text: textOf(file) ?? "", count, parts, sheet: layout };
  });
  const findings = assembly.findings;
  const checked = await provedOrder(
    input,
    order,
    { drawings, findings, revision: orderRevision(input, order.drawings) },
    onStage,
    kernel,
  );
  return { ...checked, findings: [...changedIn(manifest, folder), ...checked.findings] };
}

/** As much of job.json as a check leans on. */
const manifestShape = z.looseObject({
  kind: z.literal("order"),
  tool: z.looseObject({ name: z.literal("dryfit"), version: z.string() }),
  files: z.array(z.object({ file: z.string(), sha256: z.string() })),
  drawings: z.array(
    z.object({
      file: z.string(),
      count: z.number(),
      parts: z.array(z.string()),
      sheet: z
        .object({
          id: z.string(),
          size: z.tuple([z.number(), z.number()]),
          placed: z.array(
            z.object({ part: z.string(), turnDeg: z.number(), shift: z.tuple([z.number(), z.number()]) }),
          ),
        })
        .nullable(),
    }),
  ),
});

function readManifest(text: string): z.infer<typeof manifestShape> | null {
  try {
    const read = manifestShape.safeParse(JSON.parse(text));
    return read.success ? read.data : null;
  } catch {
    return null;
  }
}

function unread(findings: readonly PlacedFinding[]): OrderMade {
  return { outcome: "unreadable", files: [], job: null, findings };
}
