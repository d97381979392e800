import { CUT_MM, contains, differenceFlat, distanceTo, type Point, type Region } from "@dryfit/geometry";
import type { Assembly, Face, Finding, Part } from "@dryfit/joinery";
import { designed } from "./cut/designed.ts";
import { farthest } from "./cut/farthest.ts";
import type { CutLayer, CutPart } from "./cut-part.ts";
import { dryFit, type Reading } from "./dryfit.ts";
import type { PartProof, Proof } from "./proof.ts";
import { loadSolidKernel, type SolidKernel } from "./solids.ts";

/** A part as somebody else's machine will cut it by a drawing: read from the drawing's text, kerf taken off. */
export interface DrawnPart {
  readonly part: string;
  /** The file it was read from. */
  readonly file: string;
  /** What is left once everything is cut through, in the panel frame. */
  readonly wood: readonly Region<"panel">[];
  readonly pockets: readonly DrawnPocket[];
}

/** A pocket's floor lies `depth` under its face; `fromBed`: what is left under it is kept instead, whatever the sheet. */
export interface DrawnPocket {
  readonly face: Face;
  readonly depth: number;
  readonly fromBed: boolean;
  readonly region: Region<"panel">;
}

export interface DrawingsToProve {
  readonly assembly: Assembly;
  readonly drawn: readonly DrawnPart[];
  /** kg/m³ by material; absent: not known. */
  readonly densities?: Readonly<Record<string, number>>;
}

/**
 * The proof of an order, where no program is at hand: the drawings' contours cut the designed parts, and what
 * they cut goes together. Judged as programs are, by the same measure and the same dry fit.
 */
export async function proveDrawings(
  job: DrawingsToProve,
  kernel?: SolidKernel,
): Promise<Omit<Proof, "programs">> {
  const parts = new Map(job.assembly.parts.map((part) => [part.id, part]));
  const known = job.drawn.filter(({ part }) => parts.has(part));
  const judged = known.map((drawn) => ({ drawn, proof: judge(parts.get(drawn.part)!, drawn) }));
  const perPart = judged.map(({ proof }) => proof);
  const cutPartsAt = (reading: Reading): readonly CutPart[] =>
    known.map((drawn) => asDrawn(parts.get(drawn.part)!, drawn, reading));
  const densityOf = (material: string) => job.densities?.[material] ?? null;
  const fit = dryFit(kernel ?? (await loadSolidKernel()), job.assembly, cutPartsAt, densityOf);
  const drawnIds = new Set(known.map(({ part }) => part));
  const findings: readonly Finding[] = [
    ...job.assembly.parts.filter(({ id }) => !drawnIds.has(id)).map(notDrawn),
    ...judged.flatMap(({ drawn, proof }) => deviations(drawn, proof)),
    ...fit.findings,
  ];
  const gouge = Math.max(0, ...perPart.map((part) => part.gouge));
  const uncut = Math.max(0, ...perPart.map((part) => part.uncut));
  return {
    pass: findings.every(({ severity }) => severity !== "error"),
    gouge,
    uncut,
    perPart,
    joints: fit.joints,
    order: fit.order,
    ways: fit.ways,
    measures: fit.measures,
    swing: fit.swing,
    overlaps: fit.overlaps,
    cutParts: cutPartsAt("mean"),
    findings,
  };
}

/** Storey by storey: where wood is taken that should stay, where it is left that should go, each at its widest. */
function judge(part: Part, drawn: DrawnPart): PartProof {
  const t = part.thickness.mean;
  const storeys = designed(part, floorsOf(drawn, part, "mean"));
  const seen = storeys.map(({ from, to, kept }) => {
    const cut = woodAt(drawn, part, "mean", (from + to) / 2);
    // A pocket a hair too deep is off by that, not by its width.
    const tall = to - from;
    const off = (lost: readonly Region<"panel">[], other: readonly Region<"panel">[]) => {
      const widest = widestOf(lost, other);
      return widest && { width: Math.min(widest.value, tall < t ? tall : widest.value), at: widest.at };
    };
    return {
      gouge: off(differenceFlat(kept, cut), cut),
      uncut: off(differenceFlat(cut, kept), kept),
    };
  });
  const worst = (key: "gouge" | "uncut") =>
    seen.reduce<{ width: number; at: Point<"panel"> } | null>((most, one) => {
      const found = one[key];
      return found && found.width > (most?.width ?? 0) ? found : most;
    }, null);
  const [gouge, uncut] = [worst("gouge"), worst("uncut")];
  // A drawing has no sheet of its own: places are the panel's.
  const onSheet = (at: Point<"panel"> | undefined): Point<"sheet"> | null =>
    at ? { x: at.x, y: at.y } : null;
  return {
    part: part.id,
    gouge: gouge?.width ?? 0,
    gougeAt: onSheet(gouge?.at),
    uncut: uncut?.width ?? 0,
    uncutAt: onSheet(uncut?.at),
  };
}

/** Corners first: where one of them is too far off already, how much more the edges between are is not worth a search. */
function widestOf(
  lost: readonly Region<"panel">[],
  other: readonly Region<"panel">[],
): { readonly value: number; readonly at: Point<"panel"> } | null {
  let best: { value: number; at: Point<"panel"> } | null = null;
  for (const { outer, holes } of lost)
    for (const { vertices } of [outer, ...holes])
      for (const { x, y } of vertices) {
        const value = awayFrom(other, { x, y });
        if (value > (best?.value ?? 0)) best = { value, at: { x, y } };
      }
  if (best !== null && best.value > CUT_MM) return best;
  return farthest(
    lost,
    (p) => awayFrom(other, p),
    () => true,
  );
}

function awayFrom(regions: readonly Region<"panel">[], p: Point<"panel">): number {
  if (regions.some((region) => contains(region, p) !== "outside")) return 0;
  const loops = regions.flatMap(({ outer, holes }) => [outer, ...holes]);
  return loops.length === 0 ? FAR_MM : Math.min(...loops.map((loop) => distanceTo(loop, p)));
}

/** Nothing is left at all. */
const FAR_MM = 1e3;

/** The part in a sheet of some reading, layer on layer from face A. */
function asDrawn(part: Part, drawn: DrawnPart, reading: Reading): CutPart {
  const t = part.thickness[reading];
  const floors = [0, t, ...floorsOf(drawn, part, reading)]
    .filter((d) => d >= 0 && d <= t)
    .sort((a, b) => a - b);
  const steps = floors.filter((depth, i) => i === 0 || depth - floors[i - 1]! > SAME_DEPTH_MM);
  steps[steps.length - 1] = t;
  const layers = steps.slice(1).map((to, i): CutLayer => {
    const from = steps[i]!;
    return { from, to, solid: woodAt(drawn, part, reading, (from + to) / 2) };
  });
  return { part: part.id, thickness: t, layers };
}

/** Floors closer than this are one: float noise of adding depths, mm. */
const SAME_DEPTH_MM = 1e-6;

function floorsOf({ pockets }: DrawnPart, part: Part, reading: Reading): readonly number[] {
  return pockets.map((pocket) => spanOf(pocket, part, reading)).flatMap(({ from, to }) => [from, to]);
}

function spanOf({ face, depth, fromBed }: DrawnPocket, part: Part, reading: Reading) {
  const t = part.thickness[reading];
  const deep = Math.max(0, Math.min(t, fromBed ? depth + t - part.thickness.mean : depth));
  return face === "A" ? { from: 0, to: deep } : { from: t - deep, to: t };
}

function woodAt(drawn: DrawnPart, part: Part, reading: Reading, depth: number): readonly Region<"panel">[] {
  const open = drawn.pockets.filter((pocket) => {
    const { from, to } = spanOf(pocket, part, reading);
    return from < depth && depth < to;
  });
  return differenceFlat(
    drawn.wood,
    open.map(({ region }) => region),
  );
}

function deviations(
  { file, part }: DrawnPart,
  { gouge, gougeAt, uncut, uncutAt }: PartProof,
): readonly Finding[] {
  const told = (code: string, what: string, width: number, at: Point | null): readonly Finding[] =>
    width <= CUT_MM
      ? []
      : [
          {
            code,
            severity: "error",
            path: file,
            message: `${part}, cut by ${file}, ${what}: ${width.toFixed(3)} mm at x ${at?.x.toFixed(1)}, y ${at?.y.toFixed(1)}.`,
            numbers: { width, x: at?.x ?? 0, y: at?.y ?? 0 },
          },
        ];
  return [
    ...told("gouge", "loses wood that should stay", gouge, gougeAt),
    ...told("uncut", "keeps wood that should go", uncut, uncutAt),
  ];
}

function notDrawn({ id, title }: Part): Finding {
  return {
    code: "part_not_placed",
    severity: "error",
    path: id,
    message: `${title} is in no drawing: nothing cuts it.`,
    numbers: {},
  };
}
