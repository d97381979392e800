import { boundsOf, CUT_MM, inverse } from "@dryfit/geometry";
import type { Finding, Part, Thickness } from "@dryfit/joinery";
import { allowancesFor, stepsOf } from "./cut/allowed.ts";
import { asCut } from "./cut/as-cut.ts";
import { type Bench, benchOf } from "./cut/bench.ts";
import { designed } from "./cut/designed.ts";
import { checkEdges, type EdgeBench } from "./cut/edges.ts";
import { gougesOf } from "./cut/gouge.ts";
import { boxOfSegment, grown, touch } from "./cut/grid.ts";
import { placeSegment, type Stroke } from "./cut/stroke.ts";
import { uncutOf } from "./cut/uncut.ts";
import { gougeFinding, uncutFindings } from "./cut-findings.ts";
import type { CutPart } from "./cut-part.ts";
import type { PartProof } from "./proof.ts";
import type { SheetCuts } from "./sheet-cuts.ts";

/** A part and where it lies. */
export interface Placed {
  readonly part: Part;
  readonly placement: Bench["sheetFromPanel"];
}

/** What the programs make of one part. */
export interface PartJudged {
  readonly proof: PartProof;
  readonly findings: readonly Finding[];
  /** Whether both setups cut it. */
  readonly twice: boolean;
  /** As cut from a sheet of its least, mean or greatest thickness. */
  readonly cut: (reading: keyof Thickness) => CutPart;
}

/** Judges one part of a sheet by all that is cut there. */
export function provePart(
  { part, placement }: Placed,
  { sheet, strokes, shaped, files }: SheetCuts,
): PartJudged {
  const bench = benchOf(part, { sheet, sheetFromPanel: placement }, strokes);
  const edges = shapedNear(part, placement, shaped);
  const { mean, max } = part.thickness;
  const allowed = allowancesFor(bench, files);
  const storeys = designed(part, stepsOf(allowed, mean));
  const gouges = gougesOf(bench, storeys, mean);
  const uncuts = uncutOf(bench, storeys, allowed, mean);
  const last = storeys.at(-1);
  // A cut that goes through the mean thickness may not go through the greatest.
  const short =
    max > mean && last !== undefined
      ? uncutOf(bench, [{ ...last, from: last.from + max - mean, to: max }], allowed, max)
      : [];
  const wrong = uncuts.filter(tooWide);
  const gouge = worst(gouges);
  const uncut = worst(uncuts);
  const proof: PartProof = {
    part: part.id,
    gouge: gouge?.width ?? 0,
    gougeAt: gouge?.at ?? null,
    uncut: uncut?.width ?? 0,
    uncutAt: uncut?.atSheet ?? null,
  };
  const cutFrom = asCut(bench, allowed);
  return {
    twice: new Set(bench.strokes.map(({ program }) => program.setup)).size === 2,
    cut: (reading: keyof Thickness) => cutFrom(part.thickness[reading]),
    proof,
    findings: [
      ...gouges.filter(tooWide).map((each) => gougeFinding(bench, each)),
      ...uncutFindings(bench, wrong, allowed, mean),
      ...checkEdges(edges, storeys, files),
      ...(wrong.length > 0 ? [] : uncutFindings(bench, short.filter(tooWide), allowed, max)),
    ],
  };
}

interface Wide {
  readonly width: number;
}

const tooWide = ({ width }: Wide): boolean => width > CUT_MM;

function worst<T extends Wide>(list: readonly T[]): T | null {
  return list.reduce<T | null>((a, b) => (a === null || b.width > a.width ? b : a), null);
}

function shapedNear(
  part: Part,
  sheetFromPanel: Bench["sheetFromPanel"],
  strokes: readonly Stroke[],
): EdgeBench {
  const panelFromSheet = inverse(sheetFromPanel);
  const box = boundsOf(part.outline);
  const near = strokes.flatMap((stroke) => {
    const path = placeSegment(panelFromSheet, stroke.path);
    return touch(grown(boxOfSegment(path), stroke.radius), box) ? [{ ...stroke, path }] : [];
  });
  return { part, sheetFromPanel, strokes: near };
}
