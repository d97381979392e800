import { depthFactor, handbookChipLoad, thinningFactor, type Wood } from "./chip-load.ts";
import { type Cut, widthOf } from "./cut.ts";
import type { Cutter, CuttingData } from "./cutter.ts";
import { drillingData } from "./drilling.ts";
import { checkCutting } from "./feed-checks.ts";
import { deepShare, engagedDepth } from "./feeds-engaged.ts";
import type { Machine } from "./machine.ts";
import { cuttingPowerW, guideRpm, POWER_MARGIN } from "./power.ts";
import { mm, percent, roundedDown, type Sum, sumOf } from "./sum.ts";

/**
 * Speed, feeds and depth for one cutter on one machine in one wood, with every step of the sum.
 *
 * A program keeps one spindle speed per cutter, so speed and depth follow from the heaviest cut, a full slot;
 * lighter cuts differ in feed only. Values set by hand stand, and say so; what is wrong with them is a finding.
 */
export function cuttingData(cutter: Cutter, machine: Machine, wood: Wood, cut: Cut): CuttingData {
  if (cutter.kind === "drill") return drillingData(cutter, machine, wood, cut);
  const sum = sumOf(cutter.set);
  const depth = passDepth(sum, cutter);
  const chip = chipLoad(sum, cutter, machine, wood, depth);
  const rpm = spindleSpeed(sum, cutter, machine, chip);
  const slotFeed = fullSlotFeed(sum, cutter, machine, rpm, chip);
  const slotDepth = withinPower(sum, cutter, machine, depth, slotFeed);
  const stepover = sum.pick(
    "stepover",
    mm,
    STEPOVER * cutter.diameter,
    `${percent(STEPOVER)} of the diameter (common practice)`,
  );
  const thin = thinning(cutter, cut, stepover);
  const slot = { rpm, chip, slotFeed, flutes: cutter.flutes };
  const depthPerPass =
    cut.kind === "engaged" ? engagedDepth(sum, cutter, cut, { slot: slotDepth, ...thin }) : slotDepth;
  const share = depthPerPass > slotDepth ? deepShare(sum, cutter, cut, depthPerPass, depth) : 1;
  const feed = cutFeed(sum, machine, { ...slot, chip: share * chip, slotFeed: share * slotFeed }, thin);
  const plunge = sum.pick(
    "plungeMmPerMin",
    perMin,
    Math.min(machine.maxFeedMmPerMin.z, roundedDown(PLUNGE * slotFeed, 10)),
    `${percent(PLUNGE)} of the slot feed (common practice), at most ${perMin(machine.maxFeedMmPerMin.z)}`,
  );
  const ramp = Math.max(Math.min(plunge, slotFeed), roundedDown(RAMP * slotFeed, 10));
  sum.say(`ramps and helices: ${percent(RAMP)} of the slot feed (common practice): ${perMin(ramp)}`);

  const data = {
    rpm,
    feedMmPerMin: feed,
    plungeMmPerMin: plunge,
    rampMmPerMin: ramp,
    depthPerPass,
    stepover,
    chipLoad: feed / (rpm * cutter.flutes),
    steps: sum.steps,
  };
  return { ...data, findings: checkCutting(cutter, machine, cut, data, slotFeed) };
}

/** Chosen where nothing limits it; faster only heats small cutters. Common practice, no source. */
const PREFERRED_RPM = 18_000;

/** Distance between clearing passes over the diameter. Common practice for spirals, no source. */
const STEPOVER = 0.4;

/** Plunge feed over slot feed. Common practice: 25 to 50 %. */
const PLUNGE = 0.3;

/** Feed along a ramp or helix over slot feed. Common practice, no source. */
const RAMP = 0.5;

/** No pass is made shallower for want of power, mm: the check then says that the spindle is too weak. */
const LEAST_PASS = 0.5;

/** How far a compression cutter's first pass goes below its up-cut tip, mm. From memory. */
const COMPRESSION_MARGIN = 1;

/** One diameter (common practice on light machines: 0.5 to 1); a compression cutter's tip must be under the veneer. */
function passDepth(sum: Sum, cutter: Cutter): number {
  const tip = cutter.upCutLength === null ? 0 : cutter.upCutLength + COMPRESSION_MARGIN;
  const wanted = Math.max(cutter.diameter, tip);
  const reason =
    tip > cutter.diameter
      ? `the up-cut tip and ${mm(COMPRESSION_MARGIN)} more`
      : "one diameter (common practice)";
  if (wanted <= cutter.fluteLength) return sum.pick("depthPerPass", mm, wanted, reason);
  return sum.pick("depthPerPass", mm, cutter.fluteLength, "as long as the flutes");
}

/** mm per tooth that cutter and machine bear at the side of a slot this deep. */
function chipLoad(sum: Sum, cutter: Cutter, machine: Machine, wood: Wood, depth: number): number {
  const { least, most, mean } = handbookChipLoad(wood, cutter.diameter);
  sum.say(
    `chip load of the handbook table: ${wood}, ${mm(cutter.diameter)} cutter: ${mm(least)} to ${mm(most)} per tooth, middle ${mm(mean)}`,
  );
  const derated = mean * machine.derate;
  sum.say(`this machine bears ${percent(machine.derate)} of it: ${mm(derated)} per tooth`);
  const factor = depthFactor(depth, cutter.diameter);
  if (factor < 1)
    sum.say(`deeper than one diameter, so ${percent(factor)} of that: ${mm(derated * factor)} per tooth`);
  return derated * factor;
}

/** The preferred speed within all limits, slower where the feed cannot keep up: a thin chip burns. */
function spindleSpeed(sum: Sum, cutter: Cutter, machine: Machine, chip: number): number {
  const { minRpm, maxRpm } = machine.spindle;
  const wanted = Math.min(PREFERRED_RPM, maxRpm, cutter.maxRpm, guideRpm(cutter.diameter));
  const keepsUp = roundedDown(machine.maxFeedMmPerMin.xy / (cutter.flutes * chip), 100);
  const rpm = Math.max(minRpm, Math.min(wanted, keepsUp));
  const limits = `spindle ${minRpm} to ${maxRpm}, cutter at most ${cutter.maxRpm}`;
  const reason =
    rpm < wanted ? `slowed, since the feed ends at ${perMin(machine.maxFeedMmPerMin.xy)}` : limits;
  return sum.pick("rpm", (rpm) => `${rpm} rpm`, rpm, reason);
}

function fullSlotFeed(sum: Sum, cutter: Cutter, machine: Machine, rpm: number, chip: number): number {
  const most = machine.maxFeedMmPerMin.xy;
  const product = rpm * cutter.flutes * chip;
  const reason = `${rpm} rpm × ${cutter.flutes} flutes × ${mm(chip)}, at most ${perMin(most)}`;
  const feed = sum.pick(
    "feedMmPerMin",
    perMin,
    Math.min(most, roundedDown(product, 10)),
    reason,
    "feed in a full slot",
  );
  if (feed > most) sum.say(`the machine ends at ${perMin(most)}`);
  return Math.min(feed, most);
}

/** The depth, or less where a full slot would ask more than the spindle gives with its margin. */
function withinPower(sum: Sum, cutter: Cutter, machine: Machine, depth: number, slotFeed: number): number {
  const needed = cuttingPowerW(cutter.diameter, depth, slotFeed);
  const { powerW } = machine.spindle;
  sum.say(`a full slot takes ${Math.round(needed)} W of the spindle's ${powerW} W (margin ${POWER_MARGIN})`);
  if (cutter.set.depthPerPass !== null || POWER_MARGIN * needed <= powerW) return depth;
  const shallower = Math.max(LEAST_PASS, roundedDown((depth * powerW) / (POWER_MARGIN * needed), 0.1));
  sum.say(`passes of ${mm(shallower)} keep the margin`);
  return shallower;
}

function thinning(cutter: Cutter, cut: Cut, stepover: number): { width: number; factor: number } {
  const width = widthOf(cut, cutter.diameter, stepover);
  return { width, factor: thinningFactor(width, cutter.diameter) };
}

/** The slot feed, or more where the cutter takes a thin strip: its chips are thinner than the feed per tooth. */
function cutFeed(
  sum: Sum,
  machine: Machine,
  { rpm, chip, slotFeed, flutes }: { rpm: number; chip: number; slotFeed: number; flutes: number },
  { width, factor }: { width: number; factor: number },
): number {
  if (factor === 1 || sum.isByHand("feedMmPerMin")) return slotFeed;
  const perTooth = chip / factor;
  const most = machine.maxFeedMmPerMin.xy;
  const feed = Math.min(most, roundedDown(rpm * flutes * perTooth, 10));
  sum.say(
    `${mm(width)} wide: chips are ${percent(factor)} as thick as the feed per tooth, so ${mm(perTooth)} per tooth, at most ${perMin(most)}: ${perMin(feed)}`,
  );
  return feed;
}

function perMin(feed: number): string {
  return `${feed} mm/min`;
}
