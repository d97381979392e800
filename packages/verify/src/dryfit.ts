import type { Assembly, Direction, Finding, Joint, Thickness } from "@dryfit/joinery";
import type { CutPart } from "./cut-part.ts";
import { caseFindings, jointFindings, orderFindings, overlapFindings } from "./dryfit-findings.ts";
import { gluedUp, takenApart } from "./dryfit-glued.ts";
import { type JointMeasure, measureJoint, REACH_MM } from "./dryfit-joint.ts";
import { type CaseMeasures, caseMeasures } from "./dryfit-measures.ts";
import { type AssemblyOrder, assemblyOrder } from "./dryfit-order.ts";
import type { JointProof } from "./proof.ts";
import { boxesMeet, type Scope, type SolidKernel, scoped, type Wood, woodOf } from "./solids.ts";
import { widen } from "./solids-axis.ts";
import { meshOf } from "./solids-mesh.ts";
import { type Overlap, overlapIn, overlapOf } from "./solids-overlap.ts";
import { type Swing, swingOf } from "./swing.ts";

/** A caliper reading of the sheet: the thinnest, the mean, the thickest. */
export type Reading = keyof Thickness;

export interface DryFit {
  readonly joints: readonly JointProof[];
  /** Parts in the order in which each can be pushed straight home. */
  readonly order: readonly string[];
  /** The way out of each part but the first, with those before it standing. */
  readonly ways: Readonly<Record<string, Direction>>;
  /** Null where nothing was cut. */
  readonly measures: CaseMeasures | null;
  readonly swing: Swing | null;
  /** Pairs of parts that claim the same wood, each at the reading where it is most. */
  readonly overlaps: readonly PairOverlap[];
  readonly findings: readonly Finding[];
}

/** Two parts that claim the same wood, at the reading where it is most. */
export interface PairOverlap extends Overlap {
  readonly parts: readonly [string, string];
}

/**
 * Stands the parts as cut up in the case, at each reading of the sheet's thickness, and tries every joint,
 * every pair of parts, the order of assembly, the lid's swing and the feet.
 */
export function dryFit(
  kernel: SolidKernel,
  assembly: Assembly,
  cutPartsAt: (reading: Reading) => readonly CutPart[],
  densityOf: (material: string) => number | null = () => null,
): DryFit {
  const fits = readingsOf(assembly).map((reading) => {
    const parts = cutPartsAt(reading);
    return standUp(kernel, assembly, parts, (scope, woods) =>
      fitAt(scope, assembly, woods, reading, densityOf),
    );
  });
  const middle = fits.find((fit) => fit.whole !== null)!;
  const overlaps = worstOverlaps(fits.flatMap((fit) => fit.overlaps));
  const { order, swing, measures, missing } = middle.whole!;
  const tried = assembly.joints.map((joint, i) => ({
    joint,
    at: fits.map((fit) => ({ reading: fit.reading, ...fit.joints[i]! })),
  }));
  return {
    joints: tried.map(({ joint, at }) => proofOf(joint, at)),
    order: order.order,
    ways: order.ways,
    measures,
    swing,
    overlaps,
    findings: [
      ...tried.flatMap(({ joint, at }) => jointFindings(joint, at)),
      ...overlapFindings(overlaps),
      ...orderFindings(order, missing),
      ...caseFindings(swing, measures?.footing ?? null),
    ],
  };
}

/** What one joint shows at one reading. */
export interface JointTrial {
  readonly reading: Reading;
  readonly measure: JointMeasure | null;
  readonly interference: number;
}

interface Fit {
  readonly reading: Reading;
  readonly joints: readonly Omit<JointTrial, "reading">[];
  readonly overlaps: readonly PairOverlap[];
  /** What is looked at once, at the mean. */
  readonly whole: null | {
    readonly order: AssemblyOrder;
    readonly swing: Swing | null;
    readonly measures: CaseMeasures | null;
    readonly missing: readonly string[];
  };
}

/** One reading where all sheets are as thick all over as their mean. */
export function readingsOf({ parts }: Assembly): readonly Reading[] {
  const even = parts.every(({ thickness }) => thickness.min === thickness.max);
  return even ? ["mean"] : ["min", "mean", "max"];
}

function standUp<T>(
  kernel: SolidKernel,
  assembly: Assembly,
  cuts: readonly CutPart[],
  work: (scope: Scope, woods: ReadonlyMap<string, Wood>) => T,
): T {
  return scoped(kernel, (scope) => {
    const woods = cuts.map((cut) => {
      const pose = assembly.poses[cut.part];
      if (pose === undefined) throw new RangeError(`no pose for part ${cut.part}`);
      return [cut.part, woodOf(scope, cut, pose)] as const;
    });
    return work(scope, new Map(woods.filter(([, wood]) => wood.length > 0)));
  });
}

function fitAt(
  scope: Scope,
  assembly: Assembly,
  woods: ReadonlyMap<string, Wood>,
  reading: Reading,
  densityOf: (material: string) => number | null,
): Fit {
  const overlaps = allOverlaps(scope, woods);
  return {
    reading,
    overlaps,
    joints: assembly.joints.map((joint) => tryJoint(scope, joint, woods, overlaps)),
    whole: reading === "mean" ? lookAtWhole(scope, assembly, woods, densityOf) : null,
  };
}

function lookAtWhole(
  scope: Scope,
  assembly: Assembly,
  woods: ReadonlyMap<string, Wood>,
  densityOf: (material: string) => number | null,
): NonNullable<Fit["whole"]> {
  const meshes = new Map([...woods].map(([part, wood]) => [part, meshOf(scope, wood)]));
  const whole = gluedUp(assembly, woods);
  return {
    order: takenApart(
      assemblyOrder(
        whole.assembly,
        new Map([...whole.woods].map(([part, wood]) => [part, meshOf(scope, wood)])),
      ),
      assembly,
    ),
    swing: swingOf(scope, assembly.hinge, woods),
    measures: woods.size > 0 ? caseMeasures(assembly, meshes, densityOf) : null,
    missing: assembly.parts.map((part) => part.id).filter((part) => !woods.has(part)),
  };
}

function allOverlaps(scope: Scope, woods: ReadonlyMap<string, Wood>): PairOverlap[] {
  const entries = [...woods];
  return entries.flatMap(([a, woodA], i) =>
    entries.slice(i + 1).flatMap(([b, woodB]) => {
      const overlap = overlapOf(scope, woodA, woodB);
      return overlap === null ? [] : [{ ...overlap, parts: [a, b] as const }];
    }),
  );
}

function tryJoint(
  scope: Scope,
  joint: Joint,
  woods: ReadonlyMap<string, Wood>,
  overlaps: readonly PairOverlap[],
): Omit<JointTrial, "reading"> {
  const layers = [joint.housing.part, ...(joint.housing.behind ?? [])];
  const [tongue, front] = [woods.get(joint.tongue.part), woods.get(joint.housing.part)];
  if (tongue === undefined || front === undefined) return { measure: null, interference: 0 };
  const housing = layers.flatMap((part) => woods.get(part) ?? []);
  const pair = overlaps.find(
    ({ parts }) => parts.includes(joint.tongue.part) && parts.some((part) => layers.includes(part)),
  );
  const around = (["x", "y", "z"] as const).reduce(
    (box, axis) => widen(box, axis, REACH_MM),
    joint.tongue.box,
  );
  const clash = pair && boxesMeet(pair.box, around) ? overlapIn(scope, tongue, housing, around) : null;
  return { measure: measureJoint(scope, joint, tongue, housing), interference: clash?.volume ?? 0 };
}

function worstOverlaps(overlaps: readonly PairOverlap[]): PairOverlap[] {
  const worst = new Map<string, PairOverlap>();
  for (const overlap of overlaps) {
    const pair = overlap.parts.join("/");
    if (overlap.volume > (worst.get(pair)?.volume ?? 0)) worst.set(pair, overlap);
  }
  return [...worst.values()];
}

/** Over the readings: the least and most air beside the tongue, the least under it, the shoulder furthest from 0. */
function proofOf(joint: Joint, trials: readonly JointTrial[]): JointProof {
  const measures = trials.flatMap(({ measure }) => measure ?? []);
  const sides = measures.flatMap((measure) => measure.sides);
  const apart = measures.length < trials.length;
  const gaps = measures.map(homeGap);
  return {
    id: joint.id,
    tongue: joint.tongue.part,
    housing: joint.housing.part,
    sideClearance: apart
      ? { min: REACH_MM, max: REACH_MM }
      : { min: Math.min(...sides), max: Math.max(...sides) },
    endGap: apart ? REACH_MM : Math.min(...measures.map((measure) => measure.end)),
    shoulderGap: apart ? REACH_MM : gaps.reduce((most, gap) => (Math.abs(gap) > Math.abs(most) ? gap : most)),
    interference: Math.max(...trials.map((trial) => trial.interference)),
  };
}

/**
 * How far the joint stands open once it is pushed home: a tongue that bottoms out is backed out until it fits,
 * and what its end lacks shows at the shoulder (or, without one, at the tongue itself).
 */
function homeGap({ shoulder, end }: JointMeasure): number {
  return (shoulder ?? 0) + Math.max(0, -end);
}
