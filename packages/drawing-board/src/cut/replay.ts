import { lengthOfMotion, type Motion, positionAt } from "@dryfit/verify";
import { type Raster, restore, type Snapshot, snapshotOf, stamp } from "./raster.ts";
import { type Moment, momentAt, type Timeline } from "./timeline.ts";

/** What a motion does to the wood under it. */
export interface Tooling {
  /** mm; 0 where it takes no wood that is shown. */
  readonly radiusOf: (motion: Motion) => number;
  /** Below the face that is up, of a tip at height z, mm. */
  readonly depthOf: (z: number) => number;
}

/** The wood at any moment of a program. */
export interface Replay {
  readonly raster: Raster;
  /** Brings the wood to a moment, forwards or back. */
  readonly seek: (seconds: number) => void;
}

/**
 * Cuts a raster along a timeline. Wood is kept at moments on the way, so that going back costs a short stretch
 * of cutting anew and not the whole program.
 */
export function createReplay(raster: Raster, timeline: Timeline, tooling: Tooling): Replay {
  const kept: { readonly index: number; readonly wood: Snapshot }[] = [
    { index: 0, wood: snapshotOf(raster) },
  ];
  const stretch = Math.max(
    LEAST_STRETCH_MM,
    timeline.motions.reduce((sum, motion) => sum + way(motion), 0) / KEPT_MAX,
  );
  let now: Moment = { index: 0, share: 0 };
  let sinceKept = 0;

  const forward = (to: Moment): void => {
    for (let index = now.index; index <= to.index; index++) {
      const motion = timeline.motions[index];
      if (!motion) break;
      const from = index === now.index ? now.share : 0;
      cut(raster, motion, from, index === to.index ? to.share : 1, tooling);
      if (index === to.index) break;
      if (index >= kept.at(-1)!.index) {
        sinceKept += way(motion);
        if (sinceKept >= stretch) {
          kept.push({ index: index + 1, wood: snapshotOf(raster) });
          sinceKept = 0;
        }
      }
    }
    now = to;
  };

  return {
    raster,
    seek(seconds) {
      const to = momentAt(timeline, seconds);
      const isBack = to.index < now.index || (to.index === now.index && to.share < now.share);
      const near = kept.findLast(({ index }) => index <= to.index)!;
      if (isBack || near.index > now.index) {
        restore(raster, near.wood);
        now = { index: near.index, share: 0 };
      }
      forward(to);
    },
  };
}

/** As many moments as are kept, and the least way between two. */
const KEPT_MAX = 40;
const LEAST_STRETCH_MM = 200;

/** What a motion weighs in work: its way, and at least its own stamp. */
function way(motion: Motion): number {
  return motion.kind === "rapid" ? 0 : Math.max(1, lengthOfMotion(motion));
}

/** Takes away what a motion takes between two shares of its way. */
export function cut(
  raster: Raster,
  motion: Motion,
  from: number,
  to: number,
  { radiusOf, depthOf }: Tooling,
): void {
  if (motion.kind === "rapid") return;
  const radius = radiusOf(motion);
  if (radius <= 0) return;
  const pieces = motion.arc === null ? 1 : chordsOf(motion, to - from);
  let a = positionAt(motion, from);
  for (let i = 1; i <= pieces; i++) {
    const b = positionAt(motion, from + ((to - from) * i) / pieces);
    stamp(raster, {
      x0: a.x,
      y0: a.y,
      depth0: depthOf(a.z),
      x1: b.x,
      y1: b.y,
      depth1: depthOf(b.z),
      radius,
    });
    a = b;
  }
}

/** So many chords that none stands off its arc by more than a fraction of a pixel. */
function chordsOf(motion: Motion, share: number): number {
  const sweep = Math.abs(motion.arc!.sweep) * share;
  const radius = lengthOfMotion(motion) / Math.max(1e-9, Math.abs(motion.arc!.sweep));
  const step = 2 * Math.acos(Math.max(0, 1 - CHORD_MM / Math.max(radius, CHORD_MM)));
  return Math.max(1, Math.ceil(sweep / step));
}

const CHORD_MM = 0.04;
