import { type LayerMeaning, readDxf, withKerf, withoutKerf } from "@dryfit/dxf";
import {
  areaOf,
  type Box,
  boundsOf,
  intersectionFlat,
  inverse,
  type Loop,
  type Placement,
  placement,
  placeRegion,
  type Region,
  regionsOf,
} from "@dryfit/geometry";
import type { Finding, Part } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import type { DrawnPart, DrawnPocket } from "@dryfit/verify";
import { drawnKerf } from "./drawn.ts";
import { layerMeanings } from "./layers.ts";
import type { Service } from "./service.ts";

/** A drawing as it lies in a folder. */
export interface FiledDrawing {
  readonly file: string;
  readonly text: string;
  readonly parts: readonly string[];
  readonly sheet: Pick<Sheet, "id" | "parts"> | null;
}

/**
 * What a service will cut by these drawings, read from their texts: contours sorted into wood and holes by how
 * they lie in each other, kerf taken off where it was drawn in, pockets by their layers.
 */
export function readDrawings(
  drawings: readonly FiledDrawing[],
  parts: readonly Part[],
  service: Service,
): { readonly drawn: readonly DrawnPart[]; readonly findings: readonly Finding[] } {
  const kerf = drawnKerf(service);
  const meanings = layerMeanings(
    parts.map((part) => withKerf(part, kerf)),
    service.files.layers,
  );
  const read = drawings.map((drawing) => readOne(drawing, parts, meanings, kerf));
  return {
    drawn: read.flatMap(({ drawn }) => drawn),
    findings: read.flatMap(({ findings }) => findings),
  };
}

function readOne(
  drawing: FiledDrawing,
  parts: readonly Part[],
  meanings: ReadonlyMap<string, LayerMeaning | null>,
  kerf: number,
): { readonly drawn: readonly DrawnPart[]; readonly findings: readonly Finding[] } {
  const reading = readDxf(drawing.text, drawing.file);
  const through: Loop[] = [];
  const pockets: { readonly meaning: Extract<LayerMeaning, { kind: "recess" }>; readonly loop: Loop }[] = [];
  const findings: Finding[] = [];
  for (const { layer, loop, line } of reading.loops) {
    const meaning = meanings.get(layer);
    if (meaning === undefined) findings.push(strange(drawing.file, line, layer));
    else if (meaning?.kind === "recess") pockets.push({ meaning, loop });
    else if (meaning !== null) through.push(loop);
  }
  const wood = regionsOf(through);
  const places = placesOf(drawing, parts);
  const taken = places.map(({ part, panelFromFile }) => {
    const region = matching(wood, boundsOf(part.outline), panelFromFile, kerf);
    return { part, panelFromFile, region };
  });
  const used = new Set(taken.map(({ region }) => region));
  return {
    drawn: taken.flatMap(({ part, panelFromFile, region }) =>
      region === null
        ? []
        : [
            {
              part: part.id,
              file: drawing.file,
              wood: withoutKerf([placeRegion(panelFromFile, region) as Region<"panel">], kerf),
              pockets: pocketsOf(part, pockets, panelFromFile),
            },
          ],
    ),
    findings: [...findings, ...wood.filter((region) => !used.has(region)).map(() => stray(drawing.file))],
  };
}

interface PartPlace {
  readonly part: Part;
  readonly panelFromFile: Placement<"panel", string>;
}

function placesOf({ parts: ids, sheet }: FiledDrawing, parts: readonly Part[]): readonly PartPlace[] {
  const known = (id: string): Part[] => parts.filter((part) => part.id === id);
  if (sheet === null)
    return ids.flatMap((id) => known(id).map((part) => ({ part, panelFromFile: placement({ x: 0, y: 0 }) })));
  return sheet.parts.flatMap(({ part: id, placement: sheetFromPanel }) =>
    known(id).map((part) => ({ part, panelFromFile: inverse(sheetFromPanel) as Placement<"panel", string> })),
  );
}

/** The wood whose box is the part's, kerf and all; null where there is none. */
function matching(
  wood: readonly Region[],
  box: Box,
  panelFromFile: Placement<"panel", string>,
  kerf: number,
): Region | null {
  const off = (region: Region): number => {
    const { min, max } = boundsOf(placeRegion(panelFromFile, region).outer);
    const k = kerf / 2;
    return Math.max(
      Math.abs(min.x + k - box.min.x),
      Math.abs(min.y + k - box.min.y),
      Math.abs(max.x - k - box.max.x),
      Math.abs(max.y - k - box.max.y),
    );
  };
  const [best] = wood.map((region) => ({ region, off: off(region) })).sort((a, b) => a.off - b.off);
  return best !== undefined && best.off < ELSEWHERE_MM ? best.region : null;
}

/** A contour farther from where its part should be is another thing, mm. */
const ELSEWHERE_MM = 2;

function pocketsOf(
  part: Part,
  pockets: readonly { readonly meaning: Extract<LayerMeaning, { kind: "recess" }>; readonly loop: Loop }[],
  panelFromFile: Placement<"panel", string>,
): readonly DrawnPocket[] {
  const byWork = new Map<string, { meaning: Extract<LayerMeaning, { kind: "recess" }>; loops: Loop[] }>();
  for (const { meaning, loop } of pockets) {
    const key = `${meaning.depth}${meaning.face}`;
    const group = byWork.get(key) ?? { meaning, loops: [] };
    group.loops.push(loop);
    byWork.set(key, group);
  }
  return [...byWork.values()].flatMap(({ meaning: { depth, face }, loops }) => {
    const regions = regionsOf(loops).map((region) => placeRegion(panelFromFile, region) as Region<"panel">);
    // As drawn, run out over the part's edge: on the edge itself chords would differ from chords.
    const own = regions.filter(
      (region) => areaOf(intersectionFlat([region], [{ outer: part.outline, holes: [] }])) > NOTHING_MM2,
    );
    return own.map((region): DrawnPocket => ({ face, depth, fromBed: isRebate(part, face, depth), region }));
  });
}

/** Pockets of neighbours touch a part by no more, mm². */
const NOTHING_MM2 = 0.01;

/** Rebates leave a tongue: the papers ask for what stays of the sheet, not for a depth. */
export function isRebate(part: Part, face: "A" | "B", depth: number): boolean {
  const here = part.features.filter(
    (f) => f.kind === "recess" && f.face === face && Math.abs(f.depth - depth) < DEPTH_MM,
  );
  return here.length > 0 && here.every((f) => f.kind === "recess" && f.purpose === "rebate");
}

/** Depths in layer names are written to the hundredth, mm. */
const DEPTH_MM = 0.0051;

function strange(file: string, line: number, layer: string): Finding {
  return {
    code: "strange_layer",
    severity: "error",
    path: `${file}:${line}`,
    message: `The layer ${layer} means nothing to this order.`,
    numbers: { line },
    wayOut: "Make the folder again with dryfit order.",
  };
}

function stray(file: string): Finding {
  return {
    code: "stray_contour",
    severity: "error",
    path: file,
    message: `${file} holds a contour that cuts none of the parts.`,
    numbers: {},
    wayOut: "Make the folder again with dryfit order.",
  };
}
