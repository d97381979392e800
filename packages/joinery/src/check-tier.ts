import { flatten, type Path } from "@dryfit/geometry";
import type { Design, TierRules } from "./design.ts";
import type { Finding } from "./finding.ts";
import { finding, when } from "./findings.ts";
import { formatLength, trimmed } from "./length.ts";
import type { CaseNumbers } from "./numbers.ts";
import { bearerMiddles, greatestSwing, reachThroughFrontRail, tierSpan } from "./tier.ts";

/** A foot on one switch, N: 150 to 300 is usual; common practice, no source. */
const FOOT_N = 250;

/** A slat may bend by this share of its span under a foot; common practice, no source. */
const BEND_SHARE = 1 / 200;

/** Supplies are 30 mm high and more, and want 10 mm of air; common practice, no source. */
const SUPPLY_MM = 40;

export function checkTier(design: Design, numbers: CaseNumbers): Finding[] {
  const { tier } = design;
  if (tier === null) return [];
  return [
    ...checkPlace(design, numbers, tier),
    ...checkSwing(design, numbers, tier),
    ...checkSupports(design, numbers, tier),
    ...checkBending(design, numbers, tier),
  ];
}

function checkPlace(design: Design, numbers: CaseNumbers, tier: TierRules): Finding[] {
  const { inside, units } = design;
  const say = (mm: number): string => formatLength(mm, units);
  const span = tierSpan(design, numbers, tier);
  const least = tier.bearers.air + 2 * numbers.t;
  const greatest = greatestSwing(design, tier);
  return [
    ...when(span.min < 0, () =>
      finding(
        "tier_deep",
        "error",
        "tier",
        `${tier.slats} slats and their gaps are ${say(span.max - span.min)} deep, ${say(-span.min)} more than there is room for.`,
        { depth: span.max - span.min, room: span.max },
        "Take fewer or narrower slats, or smaller gaps.",
      ),
    ),
    ...when(tier.height > inside.back, () =>
      finding(
        "tier_high",
        "error",
        "tier.height",
        `The tier's top is ${say(tier.height)} over the floor, the back rail's ${say(inside.back)}.`,
        { height: tier.height, back: inside.back },
        "Lower the tier or raise the back rail.",
      ),
    ),
    ...when(tier.height < least, () =>
      finding(
        "tier_low",
        "error",
        "tier.height",
        `A tier ${say(tier.height)} high leaves no room for bearers under slats of ${say(numbers.t)}; ${say(least)} is the least.`,
        { height: tier.height, least },
        "Raise the tier.",
      ),
    ),
    ...when(tier.height >= least && tier.height - numbers.t < SUPPLY_MM, () =>
      finding(
        "supply_low",
        "note",
        "tier.height",
        `${say(tier.height - numbers.t)} is free under the slats, in front and at the back alike; a supply with air around it wants ${say(SUPPLY_MM)}.`,
        { height: tier.height - numbers.t, usual: SUPPLY_MM },
        "Raise the tier if a supply goes under it.",
      ),
    ),
    ...when(tier.swing > greatest, () =>
      finding(
        "tier_swing_blocked",
        "error",
        "tier.swing",
        `The tier meets the back rail's top at ${trimmed(greatest, 1)}°, before the ${tier.swing}° asked for.`,
        { swingDeg: tier.swing, greatestDeg: greatest },
        "Ask for less swing, raise the tier, or take a hinge whose pin stands further out.",
      ),
    ),
  ];
}

function checkSwing(design: Design, numbers: CaseNumbers, tier: TierRules): Finding[] {
  const through = reachThroughFrontRail(design, numbers, tier);
  const say = (mm: number): string => formatLength(mm, design.units);
  return when(through > 0, () =>
    finding(
      "tier_swing_blocked",
      "error",
      "tier.swing",
      `As the tier rises, its lower front corners swing forward and would reach ${say(through)} into the front rail.`,
      { through },
      "Take narrower slats or fewer, so that the tier stands further back.",
    ),
  );
}

function checkSupports(design: Design, numbers: CaseNumbers, tier: TierRules): Finding[] {
  const { inside, units } = design;
  const say = (mm: number): string => formatLength(mm, units);
  const middles = bearerMiddles(design, tier);
  // Half a bearer each, and beside the cheek a cleat.
  const stops = [numbers.t / 2 - tier.clearance, ...middles, inside.width - numbers.t / 2 + tier.clearance];
  const closest = Math.min(...stops.slice(1).map((x, i) => x - stops[i]! - numbers.t));
  const cleatFoot = tier.height - numbers.t - tier.cleat.height;
  return [
    ...when(middles.length > 0 && closest < tier.clearance, () =>
      finding(
        "tier_bearers_off",
        "error",
        "tier.bearers.inset",
        `Bearers ${say(numbers.t)} thick stand ${say(closest)} from their neighbour or a cleat; ${say(tier.clearance)} is the least.`,
        { between: closest, least: tier.clearance },
        "Move them apart with tier.bearers.inset, or take fewer.",
      ),
    ),
    ...when(tier.swing > 0 && middles.length < 2 && tier.slats > 1, () =>
      finding(
        "tier_bearers_off",
        "error",
        "tier.bearers.count",
        `A tier that swings is held together by its bearers; ${middles.length} cannot keep ${tier.slats} slats square.`,
        { bearers: middles.length, least: 2 },
        "Give it two bearers or more, or screw it down with tier.swing 0.",
      ),
    ),
    ...when(cleatFoot < 0, () =>
      finding(
        "tier_low",
        "error",
        "tier.cleat.height",
        `Cleats ${say(tier.cleat.height)} high under the slats would reach ${say(-cleatFoot)} into the floor.`,
        { cleat: tier.cleat.height, room: tier.height - numbers.t },
        `Make them ${say(Math.floor(tier.height - numbers.t))} or less.`,
      ),
    ),
  ];
}

/** A slat between two supports under a foot: simply held, P·L³ / 48·E·I. Source: reference beam formulas. */
function checkBending(design: Design, numbers: CaseNumbers, tier: TierRules): Finding[] {
  const { inside, sheet, units } = design;
  const stops = [numbers.t, ...bearerMiddles(design, tier), inside.width - numbers.t];
  const longest = Math.max(...stops.slice(1).map((x, i) => x - stops[i]!));
  const inertia = (tier.slat * sheet.thickness.min ** 3) / 12;
  const bend = (FOOT_N * longest ** 3) / (48 * sheet.modulus * inertia);
  const say = (mm: number): string => formatLength(mm, units);
  return when(bend > longest * BEND_SHARE, () =>
    finding(
      "slat_bends",
      "warning",
      "tier.slat",
      `A slat ${say(tier.slat)} wide bends ${trimmed(bend, 1)} mm between supports ${say(longest)} apart under a foot of ${FOOT_N} N; ${trimmed(longest * BEND_SHARE, 1)} mm is good practice.`,
      { bend, most: longest * BEND_SHARE, span: longest, loadN: FOOT_N },
      "Take wider slats or one bearer more.",
    ),
  );
}

/** The tier and its cleats against the crest, where there is a crest. */
export function checkTierUnderCrest(design: Design, numbers: CaseNumbers, crest: Path<"panel">): Finding[] {
  const { tier, units } = design;
  if (tier === null) return [];
  const say = (mm: number): string => formatLength(mm, units);
  const span = tierSpan(design, numbers, tier);
  const lowest = lowestCrest(crest, span.min, span.max);
  const cleatTop = tier.height - numbers.t;
  return [
    ...when(tier.height > lowest, () =>
      finding(
        "tier_over_crest",
        "note",
        "tier.height",
        `The tier's top is ${say(tier.height)} over the floor; over it the crest comes down to ${say(lowest)}.`,
        { height: tier.height, crest: lowest },
        "Lower the tier, or raise the crest, if the cheeks should hide it.",
      ),
    ),
    ...when(cleatTop > lowest, () =>
      finding(
        "cleat_over_crest",
        "error",
        "tier.height",
        `The cleats' top is ${say(cleatTop)} over the floor; over them the crest comes down to ${say(lowest)}.`,
        { cleat: cleatTop, crest: lowest },
        "Lower the tier, or raise the crest.",
      ),
    ),
  ];
}

/** The lowest place of the crest over a stretch in y. */
function lowestCrest(crest: Path<"panel">, from: number, to: number): number {
  const heights = flatten(crest).map((v) => ({ y: v.x, z: v.y }));
  const at = (y: number): number => {
    const i = Math.max(
      1,
      heights.findIndex((h) => h.y >= y),
    );
    const [a, b] = [heights[i - 1]!, heights[i] ?? heights.at(-1)!];
    return b.y === a.y ? a.z : a.z + ((b.z - a.z) * (y - a.y)) / (b.y - a.y);
  };
  const within = heights.filter((h) => h.y > from && h.y < to).map((h) => h.z);
  return Math.min(at(Math.max(0, from)), at(to), ...within);
}
