import { withKerf } from "@dryfit/dxf";
import { boundsOf } from "@dryfit/geometry";
import type { Design, Part } from "@dryfit/joinery";
import { type Drawing, drawnKerf, kerfWords } from "./drawn.ts";
import { layerKinds } from "./layers.ts";
import { isRebate } from "./read-back.ts";
import type { Service } from "./service.ts";

/** What is told with the files, in a letter and on paper alike. */
export interface OrderWords {
  readonly design: Design;
  readonly service: Service;
  readonly revision: string;
  readonly parts: readonly Part[];
  readonly drawings: readonly Drawing[];
}

/** The short text of an order: material, measured thickness, faces, sizes, kerf, counts. Plain ASCII but for names. */
export function orderText(order: OrderWords): string {
  const { design, revision, drawings, parts } = order;
  return `${[
    `Order: ${design.name}, revision ${revision}`,
    "",
    ...orderFacts(order),
    "",
    "Files",
    ...drawings.map(({ file, count, parts: ids }) => `  ${count} x  ${file}  (${ids.join(", ")})`),
    "",
    "Finished sizes, mm, over all; face A is up in the drawings",
    ...parts.map((part) => {
      const { x, y } = boundsOf(part.outline).max;
      return `  ${part.id}: ${mm(x)} x ${mm(y)}, face A: ${part.faceNames.A}`;
    }),
    "",
    "drawing.pdf shows every part with its finished sizes.",
  ].join("\n")}\n`;
}

/** The sentences that stand in the text and on the first page of the drawing alike. */
export function orderFacts({ design, service, parts }: OrderWords): readonly string[] {
  const { min, mean, max } = design.sheet.thickness;
  const spread = min === max ? "" : `, ${mm(min)} to ${mm(max)} by caliper`;
  const pockets = [...new Set(parts.flatMap((part) => Object.values(rebateDepths(part))))];
  return [
    `For: ${service.name}`,
    `Material: ${design.sheet.name}, ${mm(mean)} mm thick as measured${spread}. Fits depend on it: please say so if your sheet differs.`,
    kerfWords(service),
    service.cuts === "through"
      ? "All cuts go right through."
      : "Recesses lie on layers that name their depth and face; a depth is measured from that face.",
    ...(pockets.length > 0
      ? [
          `Rebates leave tongues: for them the depth counts less than the wood that stays (${pockets.join("; ")}). Please set them from the bed.`,
        ]
      : []),
    `Layers: ${layerWords(service, parts)}.`,
    ...(parts.some(({ roundOvers }) => roundOvers.length > 0)
      ? ["Edges are cut square: they are rounded by hand afterwards."]
      : []),
    service.files.release === "R12"
      ? "Files are DXF R12, which cannot state a unit: they are in millimetres."
      : "Files are DXF R2000, in millimetres as their header says.",
  ];
}

/** "leave 7 mm of wood", by the id of each rebate. */
export function rebateDepths(part: Part): Readonly<Record<string, string>> {
  return Object.fromEntries(
    part.features.flatMap((f) =>
      f.kind === "recess" && isRebate(part, f.face, f.depth)
        ? [[f.id, `leave ${mm(part.thickness.mean - f.depth)} mm of wood behind face ${f.face}`]]
        : [],
    ),
  );
}

/** "CUT outlines and cutouts; RECESS_7-20_A recesses": every layer that the files hold. */
function layerWords(service: Service, parts: readonly Part[]): string {
  const { layers, layout } = service.files;
  const drawn = parts.map((part) => withKerf(part, drawnKerf(service)));
  const cut = layerKinds(drawn, layers).map(({ layer, kind }) => [layer, CUT_WORDS[kind]] as const);
  const idle: readonly (readonly [string | null, string])[] = [
    [layers.label, "labels, not to be cut"],
    [layout === "nested" ? layers.sheetEdge : null, "the sheet's edge, not to be cut"],
  ];
  const byName = new Map<string, Set<string>>();
  for (const [name, what] of [...cut, ...idle])
    if (name !== null) byName.set(name, (byName.get(name) ?? new Set()).add(what));
  return [...byName].map(([name, what]) => `${name} ${[...what].join(" and ")}`).join("; ");
}

const CUT_WORDS = { outside: "outlines", inside: "cutouts", bore: "holes", recess: "recesses" } as const;

function mm(length: number): string {
  return String(Number(length.toFixed(2)));
}
