import type { Finding } from "@dryfit/joinery";

export type CutterKind = "up-cut" | "down-cut" | "compression" | "straight" | "drill" | "round-over" | "v";

/** A cutter as it lies in the drawer, measured. mm unless the name tells another unit. */
export interface Cutter {
  readonly id: string;
  /** The number that a program's T word names. */
  readonly number: number;
  readonly kind: CutterKind;
  readonly diameter: number;
  readonly flutes: number;
  /** How deep it can cut before the shank or holder meets wood. */
  readonly fluteLength: number;
  readonly shankDiameter: number;
  /** The collet nut: how wide it is, and how far the tip stands out of it. Null: not measured. */
  readonly holder: { readonly diameter: number; readonly stickOut: number } | null;
  readonly maxRpm: number;
  /** Compression cutters: how long the up-cut tip is. */
  readonly upCutLength: number | null;
  /** Round-over cutters: the radius they leave. V cutters: null. */
  readonly cornerRadius: number | null;
  /** Round-over cutters: the bearing that runs along the edge. Others: null. */
  readonly bearingDiameter: number | null;
  /** Round-over cutters: how far bearing and screw reach below the profile; null: not measured, so used by hand only. */
  readonly bearingHeight: number | null;
  /** V cutters: between their two sides, degrees; null: not measured, so used by hand only. */
  readonly angleDeg: number | null;
  /** Set by hand, these stand in for the sums from chip load. */
  readonly set: {
    readonly rpm: number | null;
    readonly feedMmPerMin: number | null;
    readonly plungeMmPerMin: number | null;
    readonly depthPerPass: number | null;
    readonly stepover: number | null;
  };
}

/** Cuts a profile into an edge, and nothing else. */
export function isShaped({ kind }: Pick<Cutter, "kind">): boolean {
  return kind === "round-over" || kind === "v";
}

/** Speeds and depths that one cutter runs at in one material, and how each came about. */
export interface CuttingData {
  readonly rpm: number;
  readonly feedMmPerMin: number;
  readonly plungeMmPerMin: number;
  readonly rampMmPerMin: number;
  /** Most depth per pass, mm. */
  readonly depthPerPass: number;
  /** Distance between neighbouring clearing passes, mm. */
  readonly stepover: number;
  /** mm per tooth that the feed and speed give, after derating and thinning. */
  readonly chipLoad: number;
  /** One line per step of the sum, for `explain` and the build sheet. */
  readonly steps: readonly string[];
  /** What the cutter or the machine cannot bear, or bears badly. */
  readonly findings: readonly Finding[];
}
