import type { SolidKernel } from "@dryfit/verify";
import { judged } from "./drawings.ts";
import { type Made, proved, type Written } from "./make.ts";
import { changedIn } from "./manifest.ts";
import { openFolder } from "./opened.ts";
import type { OutFile } from "./outfile.ts";
import type { Title } from "./papers.ts";
import { picturesOf } from "./pictures.ts";
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
  const written = async (title: Title): Promise<Written> => {
    const drawings = cutFiles.filter(({ file }) => file.endsWith(".dxf"));
    return {
      cut: cutFiles,
      objections: judged(drawings),
      pictures: () => picturesOf(road, drawings, shop.machine.controller, title),
    };
  };
  const { version } = manifest.tool;
  const checked = await proved(version, shop, road, written, onStage, kernel, kind);
  return { ...checked, findings: [...changedIn(manifest, folder), ...checked.findings] };
}
