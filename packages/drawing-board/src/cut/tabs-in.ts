import { lengthOfMotion, type Motion } from "@dryfit/verify";
import type { Place } from "./window.ts";

/** Where the cutter lifts over wood that holds a part, mm of the program's frame. */
export interface Tab {
  readonly line: number;
  /** The motions that pass over it. */
  readonly over: readonly Motion[];
  /** Where the cutter has come up, and where it goes down again. */
  readonly from: Place;
  readonly to: Place;
}

/**
 * The tabs that a program leaves, read off its motions: within one cut the tip rises, stays in the wood, and comes
 * down again to where it was. A program does not say what a tab is; this is what one looks like.
 */
export function tabsIn(motions: readonly Motion[], depthOf: (z: number) => number): readonly Tab[] {
  const tabs: Tab[] = [];
  for (let i = 0; i < motions.length; i++) {
    const rise = motions[i]!;
    if (!isUp(rise) || depthOf(rise.to.z) <= 0) continue;
    let [end, way] = [i + 1, 0];
    while (end < motions.length && isLevel(motions[end]!) && way <= LONGEST_MM)
      way += lengthOfMotion(motions[end++]!);
    const fall = motions[end];
    if (way === 0 || way > LONGEST_MM || !fall || fall.kind !== "feed") continue;
    if (Math.abs(fall.to.z - rise.from.z) > SAME_MM) continue;
    tabs.push({ line: rise.line, over: motions.slice(i + 1, end), from: rise.to, to: fall.from });
    i = end;
  }
  return tabs;
}

function isUp({ kind, from, to }: Motion): boolean {
  return kind === "feed" && to.z > from.z + SAME_MM;
}

function isLevel({ kind, from, to, arc }: Motion): boolean {
  return kind === "feed" && arc?.plane !== "XZ" && arc?.plane !== "YZ" && Math.abs(to.z - from.z) <= SAME_MM;
}

/** What is longer is a floor of its own, mm: common practice, no source. */
const LONGEST_MM = 60;
/** Printed heights hold three decimals. */
const SAME_MM = 0.002;
