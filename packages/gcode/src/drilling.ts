import { handbookChipLoad, type Wood } from "./chip-load.ts";
import type { Cut } from "./cut.ts";
import type { Cutter, CuttingData } from "./cutter.ts";
import { checkCutting } from "./feed-checks.ts";
import type { Machine } from "./machine.ts";
import { mm, percent, roundedDown, sumOf } from "./sum.ts";

/** Speed and feed of a drill: slow, since chips must leave before they burn. `depthPerPass` is the peck. */
export function drillingData(cutter: Cutter, machine: Machine, wood: Wood, cut: Cut): CuttingData {
  const sum = sumOf(cutter.set);
  const { minRpm, maxRpm } = machine.spindle;
  const slow = Math.max(minRpm, Math.min(DRILL_RPM, maxRpm, cutter.maxRpm));
  const rpm = sum.pick(
    "rpm",
    (n) => `${n} rpm`,
    slow,
    `slow for a drill (common practice), spindle ${minRpm} to ${maxRpm}`,
  );
  const perTooth = handbookChipLoad(wood, cutter.diameter).mean * machine.derate * DRILL_CHIP;
  sum.say(
    `chip load of the handbook table, derated by ${machine.derate}, ${percent(DRILL_CHIP)} of it straight down (common practice): ${mm(perTooth)} per lip`,
  );
  const most = machine.maxFeedMmPerMin.z;
  const product = roundedDown(rpm * cutter.flutes * perTooth, 10);
  const plunge = sum.pick(
    "plungeMmPerMin",
    (feed) => `${feed} mm/min`,
    Math.min(most, product),
    `${rpm} rpm × ${cutter.flutes} lips × ${mm(perTooth)}, at most ${most} mm/min`,
  );
  const peck = sum.pick(
    "depthPerPass",
    mm,
    PECK * cutter.diameter,
    `a peck of ${PECK} diameters (common practice)`,
  );
  const data = {
    rpm,
    feedMmPerMin: plunge,
    plungeMmPerMin: plunge,
    rampMmPerMin: plunge,
    depthPerPass: peck,
    stepover: cutter.diameter,
    chipLoad: plunge / (rpm * cutter.flutes),
    steps: sum.steps,
  };
  return { ...data, findings: checkCutting(cutter, machine, cut, data, plunge) };
}

/** Drills of a few millimetres in wood. From memory. */
const DRILL_RPM = 6_000;

/** Share of a side cutter's chip load that a lip takes straight down. Common practice: plunge at 25 to 50 %. */
const DRILL_CHIP = 0.3;

/** Depth between chip-clearing retracts over the diameter. Common practice. */
const PECK = 2;
