import type { Finding, Part } from "@dryfit/joinery";
import type { CutPart } from "./cut-part.ts";
import { type Reading, readingsOf } from "./dryfit.ts";
import type { JobToProve, PartProof } from "./proof.ts";
import { type CutProof, checkSheet, type PartsJudged, proveCuts } from "./prove-cuts.ts";
import { type PartJudged, provePart } from "./prove-part.ts";
import { cutsOf } from "./sheet-cuts.ts";

/** What the programs make of one part, at every reading that the dry fit looks at. Plain data: it can be posted. */
export interface PartShare {
  readonly part: string;
  readonly proof: PartProof;
  readonly findings: readonly Finding[];
  readonly twice: boolean;
  readonly cut: Readonly<Partial<Record<Reading, CutPart>>>;
}

/** A share of `proveCuts`: some of the parts, judged as it would judge them. */
export function proveShare(job: JobToProve, parts: readonly string[]): readonly PartShare[] {
  const readings = readingsOf(job.assembly);
  return cutsOf(job).sheets.flatMap((cuts) =>
    cuts.placed
      .filter(({ part }) => parts.includes(part.id))
      .map((placed) => {
        const { cut, ...judged } = provePart(placed, cuts);
        return {
          part: placed.part.id,
          ...judged,
          cut: Object.fromEntries(readings.map((reading) => [reading, cut(reading)])),
        };
      }),
  );
}

/** The whole, where somebody else judges `others` meanwhile. */
export async function proveCutsWith(
  job: JobToProve,
  own: readonly string[],
  others: Promise<readonly PartShare[]>,
): Promise<CutProof> {
  const mine = proveShare(job, own);
  for (const cuts of cutsOf(job).sheets) checkSheet(cuts);
  return proveCuts(job, judgedIn([...mine, ...(await others)]));
}

function judgedIn(shares: readonly PartShare[]): PartsJudged {
  return new Map(shares.map(({ part, cut, ...judged }) => [part, { ...judged, cut: cutAt(part, cut) }]));
}

function cutAt(part: string, cut: PartShare["cut"]): PartJudged["cut"] {
  return (reading) => {
    const found = cut[reading];
    if (found === undefined) throw new RangeError(`${part} was not cut at the ${reading} thickness`);
    return found;
  };
}

/**
 * The job's placed parts in two heaps, so that judging the second takes as long as judging the first and the sheets
 * together: a part with more to cut takes longer.
 */
export function sharesOf({ assembly, sheets }: JobToProve): {
  readonly own: readonly string[];
  readonly others: readonly string[];
} {
  const here = new Set(sheets.flatMap((sheet) => sheet.parts.map(({ part }) => part)));
  const placed = assembly.parts
    .filter(({ id }) => here.has(id))
    .map((part) => ({ id: part.id, work: workOn(part) }))
    .sort((a, b) => b.work - a.work);
  const all = placed.reduce((sum, { work }) => sum + work, 0);
  const own: string[] = [];
  const others: string[] = [];
  let [done, given] = [SHEETS * all, 0];
  for (const { id, work } of placed) {
    if (given <= done) {
      others.push(id);
      given += work;
    } else {
      own.push(id);
      done += work;
    }
  }
  return { own, others };
}

/** About how long a part takes to judge: corners of its outline, and most of all openings, whose every pass goes through. */
function workOn({ outline, features }: Part): number {
  return 6 + outline.vertices.length + 60 * features.filter(({ kind }) => kind === "opening").length;
}

/** Looking at the sheets takes about so much of the time of judging all parts on them. */
const SHEETS = 0.1;
