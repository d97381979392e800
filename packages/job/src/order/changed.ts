import {
  asLayered,
  type Design,
  type DesignEdit,
  type Finding,
  readDesign,
  recipe,
  withItem,
  without,
  withValue,
} from "@dryfit/joinery";
import type { OutFile } from "../outfile.ts";
import { hasErrors } from "../road.ts";
import { checkAble, overhangFor } from "./able.ts";
import type { Service } from "./service.ts";

/** A design file changed towards what a service can make. */
export interface ChangedDesign {
  readonly text: string;
  /** What the service still cannot make of it: only the maker can say what to do. */
  readonly left: readonly Finding[];
}

/**
 * The design file changed as far as is known so that the service can make it, all else in it as it stood, comments
 * too. Null where no change is known or the changed case could not be made: what is returned was worked out.
 */
export function changedFor(
  { file, text }: OutFile,
  design: Design,
  service: Service,
  blocked: readonly Finding[],
): ChangedDesign | null {
  const codes = new Set(blocked.filter(({ severity }) => severity === "error").map(({ code }) => code));
  const edits = [...codes].flatMap((code) => editsFor(code, design, service));
  const [x, y] = service.sheet.largest;
  const sized = codes.has("service_sheet_large")
    ? withItem(text, "sheet.sizes", [`${x} mm`, `${y} mm`])
    : text;
  const changed = edits.reduce<string | null>((now, edit) => now && edited(now, edit), sized);
  if (changed === null || changed === text) return null;
  const read = readDesign(changed, file);
  if (!read.ok) return null;
  const assembly = recipe(read.value);
  if (hasErrors(assembly.findings)) return null;
  return { text: changed, left: checkAble(read.value, assembly, service) };
}

function editsFor(code: string, design: Design, service: Service): readonly DesignEdit[] {
  if (code === "service_no_recesses") return asLayered(design).edits;
  if (code === "service_one_face") {
    const { front, back } = design.cheek.overhang;
    const least = overhangFor(design);
    return [
      { path: "joint.rails", value: "full" },
      { path: "cheek.overhang.front", value: `${Math.max(front, least)} mm` },
      { path: "cheek.overhang.back", value: `${Math.max(back, least)} mm` },
    ];
  }
  if (code === "service_corner_tight") {
    const kerf = service.kerf.allowance === "drawn" ? service.kerf.width / 2 : 0;
    const radius = Math.max(service.smallest.insideRadius, kerf);
    return [{ path: "cutter", value: `${Number((2 * radius).toFixed(2))} mm` }];
  }
  return [];
}

function edited(text: string, { path, value }: DesignEdit): string | null {
  return value === null ? (without(text, path) ?? text) : withValue(text, path, value);
}
