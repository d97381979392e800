import {
  type Box,
  boundsOf,
  contains,
  inverse,
  offset,
  placeRegion,
  type Region,
  rectangle,
} from "@dryfit/geometry";
import type { Finding } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import { isShaped } from "../cut/edge-profile.ts";
import { type Engagement, highestEngagement } from "../cut/engagement.ts";
import { grown, touch } from "../cut/grid.ts";
import { depthOf, sheetFromMachine } from "../cut/stroke.ts";
import { mountedCutters } from "../mounted-cutters.ts";
import type { Motion } from "../program/motion.ts";
import type { ReadProgram } from "../program/read-program.ts";
import type { EngagementFound, JobToProve, ProgramFile } from "../proof.ts";

/** A program and its text as read. */
export interface ProgramRead {
  readonly program: ProgramFile;
  readonly read: ReadProgram;
}

/**
 * How much of the cutter's rim is in wood at once, at most, in each recess that a program says it clears so that a
 * limit is kept: worked out from the texts, cutters that were there before in the same setup included. A finding where
 * it is over the limit by more than print and the places between those looked at explain.
 */
export function checkCleared(
  job: JobToProve,
  programs: readonly ProgramRead[],
): { readonly engagements: readonly EngagementFound[]; readonly findings: readonly Finding[] } {
  const engagements = programs.flatMap((one, i) => {
    const { file, sheet, setup, cleared = [] } = one.program;
    if (cleared.every(({ limit }) => limit === null)) return [];
    const before = programs
      .slice(0, i)
      .filter(({ program }) => program.sheet === sheet && program.setup === setup);
    const cuts = [...before, one].flatMap((program) => cutsOf(program, program === one));
    return cleared.flatMap(({ part, feature, limit }): EngagementFound[] => {
      const most = limit === null ? null : highestIn(job, one.program, cuts, part, feature);
      if (limit === null || most === null) return [];
      const { angle, line, at } = most;
      return [{ file, part, feature, limit, highest: angle, line, at: [at.x, at.y] }];
    });
  });
  return { engagements, findings: engagements.flatMap(overLimit) };
}

/** What print rounds and what lies between the places looked at may add to a limit. */
const OVER = 1.1;

function overLimit({ file, part, feature, limit, highest, line, at: [x, y] }: EngagementFound): Finding[] {
  if (highest <= OVER * limit) return [];
  const [asked, found] = [degrees(limit), degrees(highest)];
  return [
    {
      code: "engagement_over_limit",
      severity: "warning",
      path: `${file}:${line}`,
      message: `${part}/${feature}: ${found}° of the cutter's rim cuts at once at X ${x.toFixed(1)} Y ${y.toFixed(1)}, ${asked}° was asked for.`,
      numbers: { asked, engagement: found, x, y },
      wayOut: "Clear it with a narrower cutter, or allow a larger angle in the machine file.",
    },
  ];
}

const degrees = (angle: number): number => Math.round((angle * 180) / Math.PI);

/** A feed motion of a cutter that leaves upright walls. */
interface Cut {
  readonly motion: Motion;
  readonly diameter: number;
  /** Whether the program asked about makes it, not one before. */
  readonly own: boolean;
}

function cutsOf({ program, read }: ProgramRead, own: boolean): Cut[] {
  const { cutterOf } = mountedCutters(program, read);
  return read.motions.flatMap((motion): Cut[] => {
    const cutter = cutterOf(motion);
    return motion.kind === "rapid" || isShaped(cutter) ? [] : [{ motion, diameter: cutter.diameter, own }];
  });
}

/** The highest engagement of a program in one recess. */
function highestIn(
  job: JobToProve,
  program: ProgramFile,
  cuts: readonly Cut[],
  partId: string,
  featureId: string,
): Engagement | null {
  const sheet = job.sheets.find(({ id }) => id === program.sheet);
  const placed = sheet?.parts.find(({ part }) => part === partId);
  const part = job.assembly.parts.find(({ id }) => id === partId);
  const recess = part?.features.find(({ id }) => id === featureId);
  if (sheet === undefined || placed === undefined || part === undefined || recess?.kind !== "recess")
    return null;
  const machineFromSheet = inverse(sheetFromMachine(program.setup, job.flips[sheet.id]));
  const room = offset([placeRegion(placed.placement, recess.region)], RUN_OUT_MM).map((region) =>
    placeRegion(machineFromSheet, region),
  );
  const { mean } = part.thickness;
  const floor = program.setup === "A" ? recess.depth + DEEPER_MM : mean - recess.depth - DEEPER_MM;
  const isAsked = isWithin(room, (z) => {
    const depth = depthOf(program, z, mean);
    return program.setup === "A" ? depth <= floor : depth >= floor;
  });
  // What passes by farther off has no part in it.
  const around = room.map(({ outer }) => grown(boundsOf(outer), NEAR_MM));
  const near = cuts.filter(({ motion }) => {
    const box = boxOf(motion);
    return around.some((one) => touch(one, box));
  });
  const diameters = new Map(near.map(({ motion, diameter }) => [motion, diameter]));
  return highestEngagement(
    {
      motions: near.map(({ motion }) => motion),
      diameterOf: (motion) => diameters.get(motion) ?? null,
      isAsked: (index) => near[index]!.own && isAsked(near[index]!.motion),
    },
    { wood: [placeRegion(machineFromSheet, stockOf(sheet))], top: program.zZero === "bed" ? mean : 0 },
  );
}

/** How far past an edge an open recess is cut, and how much deeper its floor may be read, mm. */
const RUN_OUT_MM = 1;
const DEEPER_MM = 0.05;

/** Wider than any cutter, mm. */
const NEAR_MM = 30;

/** A box that holds a motion in plan; for an arc it may be larger than need be. */
function boxOf({ from, to, arc }: Motion): Box {
  const box = {
    min: { x: Math.min(from.x, to.x), y: Math.min(from.y, to.y) },
    max: { x: Math.max(from.x, to.x), y: Math.max(from.y, to.y) },
  };
  return arc === null ? box : grown(box, 2 * Math.hypot(from.x - arc.centre.x, from.y - arc.centre.y));
}

function isWithin(
  room: readonly Region<"machine">[],
  isDeep: (z: number) => boolean,
): (motion: Motion) => boolean {
  const boxes = room.map(({ outer }) => boundsOf(outer));
  return ({ from, to }) =>
    isDeep(Math.min(from.z, to.z)) &&
    room.some((region, i) => {
      const { min, max } = boxes[i]!;
      return [from, to].every(
        ({ x, y }) =>
          x >= min.x && x <= max.x && y >= min.y && y <= max.y && contains(region, { x, y }) !== "outside",
      );
    });
}

function stockOf({ stock }: Sheet): Region<"sheet"> {
  const [x, y] = stock.size;
  return stock.outline ?? { outer: rectangle<"sheet">({ x: 0, y: 0 }, { x, y }), holes: [] };
}
