import { CONTACT_MM, FEET_MM, GLUE_LINE_MM } from "@dryfit/geometry";
import type { Box3, Finding, Joint } from "@dryfit/joinery";
import type { JointTrial, PairOverlap } from "./dryfit.ts";
import type { AssemblyOrder } from "./dryfit-order.ts";
import type { Footing } from "./feet.ts";
import type { Swing } from "./swing.ts";

/** What is wrong with one joint; each fault once, at the reading where it is worst. */
export function jointFindings(joint: Joint, trials: readonly JointTrial[]): Finding[] {
  const { fit, tongue, housing } = joint;
  const names = `${tongue.part} in ${housing.part}`;
  const found = (code: string, numbers: Finding["numbers"], message: string, wayOut: string): Finding => ({
    code,
    severity: "error",
    path: joint.id,
    message: `${names}: ${message}`,
    numbers,
    wayOut,
  });
  const measures = trials.flatMap(({ measure }) => measure ?? []);
  if (measures.length < trials.length) {
    return [
      found(
        "parts_apart",
        {},
        "there is no tongue here, or nothing holds it.",
        "Cut both parts as the design has them.",
      ),
    ];
  }
  const tightest = Math.min(...measures.flatMap(({ sides }) => sides));
  const loosest = Math.max(...measures.flatMap(({ sides }) => sides));
  // A tongue as thick as its sheet is tightest on the thickest reading: its housing was made for that one.
  const looseAtBest = Math.min(...measures.map(({ sides }) => Math.max(...sides)));
  const air = Math.min(...measures.flatMap(({ ends }) => ends));
  const end = Math.min(...measures.map((measure) => measure.end));
  const shoulder = Math.max(...measures.map((measure) => measure.shoulder ?? 0));
  const asked = fit.side;
  return [
    ...when(tightest < asked - CONTACT_MM, () =>
      found(
        "too_tight",
        { clearance: tightest, asked },
        `${mm(tightest)} of air beside the tongue, ${mm(asked)} asked for.`,
        "Widen the housing or thin the tongue.",
      ),
    ),
    ...when(looseAtBest > asked + CONTACT_MM, () =>
      found(
        "too_loose",
        { clearance: looseAtBest, asked },
        `${mm(looseAtBest)} of air beside the tongue, ${mm(asked)} asked for.`,
        "Narrow the housing or thicken the tongue.",
      ),
    ),
    ...when(
      looseAtBest <= asked + CONTACT_MM && loosest > Math.max(GLUE_LINE_MM, asked) + CONTACT_MM,
      () => ({
        ...found(
          "too_loose",
          { clearance: loosest, asked, glueLine: GLUE_LINE_MM },
          `where the sheet is thinnest, ${mm(loosest)} of air beside the tongue; glue bridges about ${mm(GLUE_LINE_MM)}.`,
          "Cut the tongue from a rebate, so that its thickness does not follow the sheet's.",
        ),
        severity: "warning" as const,
      }),
    ),
    ...when(air < fit.alongLeast - CONTACT_MM, () =>
      found(
        "tongue_end_hits_round_end",
        { air, least: fit.alongLeast },
        `the tongue ends ${mm(air)} before the housing does, at least ${mm(fit.alongLeast)} keeps it off the round end.`,
        "Cut the tongue's ends back, or lengthen the housing.",
      ),
    ),
    ...when(end < Math.min(CONTACT_MM, fit.end - CONTACT_MM), () =>
      found(
        joint.through ? "tongue_stands_proud" : "tongue_bottoms_out",
        { endGap: end, asked: fit.end },
        joint.through
          ? `the tongue comes within ${mm(end)} of the panel's other face, ${mm(fit.end)} asked for.`
          : `${mm(end)} under the tongue, ${mm(fit.end)} asked for: its end meets the floor before the shoulder closes.`,
        joint.through ? "Shorten the tongue." : "Deepen the housing or shorten the tongue.",
      ),
    ),
    ...when(shoulder > CONTACT_MM, () =>
      found(
        "shoulder_open",
        { shoulderGap: shoulder },
        `the shoulder stands ${mm(shoulder)} off the panel that it closes on.`,
        "Set the shoulder where the design has it.",
      ),
    ),
  ];
}

export function overlapFindings(overlaps: readonly PairOverlap[]): Finding[] {
  return overlaps.map(({ parts: [a, b], volume, box }) => ({
    code: "interference",
    severity: "error",
    path: `${a}/${b}`,
    message: `${a} and ${b}: ${volume.toFixed(1)} mm³ of wood in wood around ${place(box)}.`,
    numbers: { volume, ...middle(box) },
    wayOut: "Take the wood from one of them.",
  }));
}

export function orderFindings({ stuck }: AssemblyOrder, missing: readonly string[]): Finding[] {
  return [
    ...missing.map(
      (part): Finding => ({
        code: "part_missing",
        severity: "error",
        path: part,
        message: `${part}: nothing of it is left once the programs have run.`,
        numbers: {},
        wayOut: "Cut it.",
      }),
    ),
    ...when(
      stuck.length > 0,
      (): Finding => ({
        code: "cannot_be_assembled",
        severity: "error",
        path: stuck.join("/"),
        message: `${stuck.join(", ")}: none of these can be pushed straight home while the others stand.`,
        numbers: { parts: stuck.length },
        wayOut: "Turn one of their joints so that a last part goes in along one line.",
      }),
    ),
  ];
}

export function caseFindings(swing: Swing | null, footing: Footing | null): Finding[] {
  return [
    ...(swing?.overlap
      ? [
          {
            code: "lid_binds",
            severity: "error",
            path: "hinge",
            message: `the lid binds at ${swing.bindsAtDeg}°, around ${place(swing.overlap.box)}.`,
            numbers: {
              angleDeg: swing.bindsAtDeg ?? 0,
              volume: swing.overlap.volume,
              ...middle(swing.overlap.box),
            },
            wayOut: "Move the hinge's axis up or out, or give the lid more air.",
          } satisfies Finding,
        ]
      : []),
    ...when(footing !== null && Math.max(footing.rocking, footing.below) > FEET_MM, () => ({
      code: "feet_not_on_one_plane",
      severity: "error" as const,
      path: "feet",
      message:
        footing!.rocking > FEET_MM
          ? `the case rocks: one foot hangs ${mm(footing!.rocking)} over the table.`
          : `something other than the feet reaches ${mm(footing!.below)} below them.`,
      numbers: { rocking: footing!.rocking, below: footing!.below },
      wayOut: "Give all feet one plane.",
    })),
    ...when(footing !== null && footing.tipMargin < 0, () => ({
      code: "case_tips_over",
      severity: "warning" as const,
      path: "feet",
      message: `the empty case's centre of mass lies ${mm(-footing!.tipMargin)} outside its feet.`,
      numbers: { outside: -footing!.tipMargin },
      wayOut: "Move the feet apart.",
    })),
  ];
}

function when<T>(holds: boolean, make: () => T): T[] {
  return holds ? [make()] : [];
}

function middle({ min, max }: Box3): { x: number; y: number; z: number } {
  return { x: (min.x + max.x) / 2, y: (min.y + max.y) / 2, z: (min.z + max.z) / 2 };
}

function place(box: Box3): string {
  const { x, y, z } = middle(box);
  return `x ${x.toFixed(1)}, y ${y.toFixed(1)}, z ${z.toFixed(1)}`;
}

function mm(length: number): string {
  return `${length.toFixed(2)} mm`;
}
