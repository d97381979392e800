import type { SolidKernel } from "@dryfit/verify";
import { judged } from "./drawings.ts";
import { type Made, proved } from "./make.ts";
import { changedIn } from "./manifest.ts";
import { openFolder } from "./opened.ts";
import type { OutFile } from "./outfile.ts";
import type { OnStage } from "./road.ts";

/**
 * Proves a folder again from the files as they stand in it: the parts from its design, where they lie and what was
 * declared from its job.json, the cuts from its programs and DXF files. Nothing is planned anew.
 */
export async function checkJob(
  folder: readonly OutFile[],
  onStage: OnStage = () => {},
  kernel?: SolidKernel,
): Promise<Made> {
  onStage("reading the folder");
  const opened = openFolder(folder);
  if ("outcome" in opened) return { ...opened, files: [], job: null, shown: null };
  const { kind, manifest, shop, road } = opened;
  const cutFiles = folder.filter(({ file }) => /^(dxf|gcode)\//.test(file));
  const objections = judged(cutFiles.filter(({ file }) => file.endsWith(".dxf")));
  const { version } = manifest.tool;
  const checked = await proved(version, shop, road, cutFiles, objections, onStage, kernel, kind);
  return { ...checked, findings: [...changedIn(manifest, folder), ...checked.findings] };
}
