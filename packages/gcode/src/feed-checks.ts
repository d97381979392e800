import type { Finding, Severity } from "@dryfit/joinery";
import { leastChipLoad } from "./chip-load.ts";
import { type Cut, widthOf } from "./cut.ts";
import type { Cutter, CuttingData } from "./cutter.ts";
import type { Machine } from "./machine.ts";
import { cuttingPowerW, POWER_MARGIN, RIM_SPEED_LIMIT, rimSpeed } from "./power.ts";
import { mm } from "./sum.ts";

/** What this cutter and machine cannot bear in this cut, or bear badly: all of it. */
export function checkCutting(
  cutter: Cutter,
  machine: Machine,
  cut: Cut,
  data: Omit<CuttingData, "findings">,
  slotFeed: number,
): readonly Finding[] {
  const depth = Math.min(data.depthPerPass, cut.depth);
  return [
    ...checkSpeed(cutter, machine, data.rpm),
    ...checkFeed(cutter, machine),
    ...checkChip(cutter, cut, data, slotFeed),
    ...checkPower(cutter, machine, cut, { ...data, depthPerPass: depth }),
    ...checkReach(cutter, cut.depth),
    ...checkTip(cutter, depth),
  ];
}

function checkSpeed(cutter: Cutter, machine: Machine, rpm: number): Finding[] {
  const { minRpm, maxRpm } = machine.spindle;
  const rim = rimSpeed(cutter.diameter, rpm);
  return [
    ...when(rpm > cutter.maxRpm, () =>
      finding(
        cutter,
        "over_speed",
        "error",
        "maxRpm",
        `it would turn at ${rpm} rpm and bears ${cutter.maxRpm}`,
        {
          rpm,
          maxRpm: cutter.maxRpm,
        },
        minRpm > cutter.maxRpm
          ? `Take another cutter: the spindle's slowest is ${minRpm} rpm.`
          : "Lower its set.rpm.",
      ),
    ),
    ...when(rpm < minRpm || rpm > maxRpm, () =>
      finding(
        cutter,
        "spindle_range",
        "error",
        "set.rpm",
        `${rpm} rpm, and the spindle turns at ${minRpm} to ${maxRpm}`,
        {
          rpm,
          minRpm,
          maxRpm,
        },
        "Ask for a speed that the spindle has.",
      ),
    ),
    ...when(rim > RIM_SPEED_LIMIT, () =>
      finding(
        cutter,
        "rim_too_fast",
        "warning",
        "diameter",
        `its rim runs at ${rim.toFixed(1)} m/s, guides stop at ${RIM_SPEED_LIMIT}`,
        {
          rimMPerS: rim,
          limitMPerS: RIM_SPEED_LIMIT,
        },
        "Lower its set.rpm.",
      ),
    ),
  ];
}

function checkFeed({ set, ...cutter }: Cutter, machine: Machine): Finding[] {
  const { xy, z } = machine.maxFeedMmPerMin;
  const asked = (key: "feedMmPerMin" | "plungeMmPerMin", most: number): Finding[] =>
    when((set[key] ?? 0) > most, () =>
      finding(
        cutter,
        "feed_above_max",
        "warning",
        `set.${key}`,
        `${set[key]} mm/min asked, the machine ends at ${most}`,
        {
          feedMmPerMin: set[key]!,
          maxMmPerMin: most,
        },
        "Ask for less; the program runs at the machine's limit.",
      ),
    );
  return [...asked("feedMmPerMin", xy), ...asked("plungeMmPerMin", z)];
}

/** The true thickness of the chips, whatever the width of the cut: a slot's chips are as thick as its feed per tooth. */
function checkChip(
  cutter: Cutter,
  cut: Cut,
  data: Omit<CuttingData, "findings">,
  slotFeed: number,
): Finding[] {
  if (cut.kind === "drilling") return [];
  const chip = slotFeed / (data.rpm * cutter.flutes);
  const least = leastChipLoad(cutter.diameter);
  return when(chip < least, () =>
    finding(
      cutter,
      "rubbing",
      "warning",
      "set.feedMmPerMin",
      `chips of ${mm(chip)}; below ${mm(least)} it rubs and burns`,
      {
        chipLoad: chip,
        least,
      },
      "Lower the speed, raise the feed, or take fewer flutes.",
    ),
  );
}

function checkPower(
  cutter: Cutter,
  machine: Machine,
  cut: Cut,
  data: Omit<CuttingData, "findings">,
): Finding[] {
  if (cut.kind === "drilling") return [];
  const width = widthOf(cut, cutter.diameter, data.stepover);
  const needed = cuttingPowerW(width, data.depthPerPass, data.feedMmPerMin);
  const { powerW } = machine.spindle;
  return when(needed * POWER_MARGIN > powerW, () =>
    finding(
      cutter,
      "over_power",
      needed > powerW ? "error" : "warning",
      "set.depthPerPass",
      `a pass takes ${Math.round(needed)} W, and ${powerW} W leave no margin of ${POWER_MARGIN}`,
      { neededW: needed, powerW },
      "Take shallower passes or a lower feed.",
    ),
  );
}

function checkReach(cutter: Cutter, depth: number): Finding[] {
  const { holder } = cutter;
  return [
    ...when(depth > cutter.fluteLength, () =>
      finding(
        cutter,
        "flute_too_short",
        "error",
        "fluteLength",
        `${mm(depth)} deep, the flutes end at ${mm(cutter.fluteLength)}: the shank would be in wood`,
        {
          depth,
          fluteLength: cutter.fluteLength,
        },
        "Take a longer cutter.",
      ),
    ),
    ...when(holder !== null && depth > holder.stickOut, () =>
      finding(
        cutter,
        "holder_in_wood",
        "error",
        "holder.stickOut",
        `${mm(depth)} deep, and it stands out of its holder by ${mm(holder!.stickOut)}`,
        {
          depth,
          stickOut: holder!.stickOut,
        },
        "Set it further out, or take a longer one.",
      ),
    ),
  ];
}

function checkTip(cutter: Cutter, depth: number): Finding[] {
  const tip = cutter.upCutLength;
  return when(tip !== null && depth <= tip, () =>
    finding(
      cutter,
      "compression_first_pass_too_shallow",
      "warning",
      "upCutLength",
      `a first pass of ${mm(depth)} leaves its up-cut tip of ${mm(tip!)} in the top veneer, which then frays`,
      {
        depth,
        upCutLength: tip!,
      },
      "Cut deeper at once, or take a down-cut cutter.",
    ),
  );
}

function when(holds: boolean, what: () => Finding): Finding[] {
  return holds ? [what()] : [];
}

function finding(
  cutter: Pick<Cutter, "id">,
  code: string,
  severity: Severity,
  key: string,
  problem: string,
  numbers: Readonly<Record<string, number>>,
  wayOut: string,
): Finding {
  return {
    code,
    severity,
    path: `cutters.${cutter.id}.${key}`,
    message: `Cutter ${cutter.id}: ${problem}.`,
    numbers,
    wayOut,
  };
}
