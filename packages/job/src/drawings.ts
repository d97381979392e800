import { judgeDxf, partDxf, sheetDxf, sheetDxfR12 } from "@dryfit/dxf";
import type { Design, Finding } from "@dryfit/joinery";
import type { OutFile } from "./outfile.ts";
import type { Road } from "./road.ts";

/** The DXF files of a job: each sheet in both releases, each part alone. */
export function drawings(
  road: Pick<Road, "assembly" | "layout">,
  design: Pick<Design, "cutter">,
  revision: string,
): readonly OutFile[] {
  const { parts } = road.assembly;
  const options = { runOut: design.cutter / 2, note: nominalNote(revision) };
  return [
    ...road.layout.sheets.flatMap((sheet) => [
      { file: `dxf/${sheet.id}.dxf`, text: sheetDxf(sheet, parts, options) },
      { file: `dxf/${sheet.id}-r12.dxf`, text: sheetDxfR12(sheet, parts, options) },
    ]),
    ...parts.map((part) => ({ file: `dxf/parts/${part.id}.dxf`, text: partDxf(part, options) })),
  ];
}

/** What a drawing says of itself. */
export function nominalNote(revision: string): string {
  return `Units: millimetres. Finished sizes, no kerf drawn in. Revision ${revision}.`;
}

/** What a service would send back of the files as written; R12's silence about units is no news. */
export function judged(files: readonly OutFile[]): readonly Finding[] {
  return files.flatMap(({ file, text }) =>
    judgeDxf(text, { file }).filter(({ severity }) => severity === "error"),
  );
}
