import { type DxfOptions, partDxf, partDxfR12, sheetDxf, sheetDxfR12, withKerf } from "@dryfit/dxf";
import { boundsOf } from "@dryfit/geometry";
import type { Design, Part } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import { layerNames } from "./layers.ts";
import { fileName, nameOfGroup } from "./names.ts";
import type { Service } from "./service.ts";

/** One file to cut by, and what it holds. */
export interface Drawing {
  readonly file: string;
  readonly text: string;
  /** How often it is to be cut. */
  readonly count: number;
  /** Part ids: all on a nested sheet, or all that are cut by this one contour. */
  readonly parts: readonly string[];
  /** Null where the file holds one part in its own frame. */
  readonly sheet: Sheet | null;
}

export interface OrderedDrawings {
  readonly design: Design;
  readonly service: Service;
  readonly revision: string;
  readonly parts: readonly Part[];
  /** Empty where every part has a file of its own. */
  readonly sheets: readonly Sheet[];
}

/** The DXF files of an order: kerf drawn in or not, layers named, in the release and by the names that the service wants. */
export function orderDrawings(order: OrderedDrawings): readonly Drawing[] {
  const { design, service, parts, revision } = order;
  const kerf = drawnKerf(service);
  const drawn = parts.map((part) => withKerf(part, kerf));
  const { layers, release, layout } = service.files;
  const options: DxfOptions = {
    runOut: design.cutter / 2,
    sheetEdge: layers.sheetEdge !== null,
    labels: layers.label !== null,
    layerNames: layerNames(drawn, layers),
    note: `Units: millimetres. ${kerfWords(service)} Revision ${revision}.`,
  };
  const named = (part: string, count: number): string => {
    const words = {
      case: design.name,
      part,
      material: design.sheet.name,
      thickness: String(Number(design.sheet.thickness.mean.toFixed(2))),
      count: String(count),
      revision,
    };
    return `dxf/${fileName(service.files.name, words)}.dxf`;
  };
  if (layout === "nested") {
    const print = release === "R12" ? sheetDxfR12 : sheetDxf;
    return order.sheets.map((sheet) => ({
      file: named(sheet.id, 1),
      text: print(sheet, drawn, options),
      count: 1,
      parts: sheet.parts.map(({ part }) => part),
      sheet,
    }));
  }
  const print = release === "R12" ? partDxfR12 : partDxf;
  return alike(drawn, options).map(({ name, group }) => ({
    file: named(name, group.length),
    text: print({ ...group[0]!, id: group.map(({ id }) => id).join(" ") }, options),
    count: group.length,
    parts: group.map(({ id }) => id),
    sheet: null,
  }));
}

/** What a customer draws in; 0 where the service allows for it. */
export function drawnKerf({ kerf }: Service): number {
  return kerf.allowance === "drawn" ? kerf.width : 0;
}

/** Who allows for kerf, in a sentence that stands on every file and paper. */
export function kerfWords({ kerf }: Service): string {
  const width = `${Number(kerf.width.toFixed(3))} mm`;
  return kerf.allowance === "drawn"
    ? `A kerf of ${width} is drawn in: outlines ${width} larger, cutouts ${width} smaller than finished. Cut on the lines and allow for nothing.`
    : "No kerf is drawn in: all sizes are finished sizes. Whoever cuts allows for the kerf.";
}

/** Parts that one contour cuts, whichever of them it is. */
function alike(
  parts: readonly Part[],
  options: DxfOptions,
): readonly { name: string; group: readonly Part[] }[] {
  const groups = new Map<string, Part[]>();
  for (const part of parts) {
    const { min, max } = boundsOf(part.outline);
    const shape = partDxf({ ...part, id: "part" }, { ...options, labels: false });
    const key = [part.panel, max.x - min.x, max.y - min.y, part.faceNames.A, shape].join("|");
    groups.set(key, [...(groups.get(key) ?? []), part]);
  }
  const ids = new Set(parts.map(({ id }) => id));
  const stems = new Map<string, number>();
  for (const group of groups.values()) {
    const name = nameOfGroup(group, ids);
    stems.set(name, (stems.get(name) ?? 0) + 1);
  }
  return [...groups.values()].map((group) => {
    const name = nameOfGroup(group, ids);
    return { name: stems.get(name) === 1 ? name : group[0]!.id, group };
  });
}
