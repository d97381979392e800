import type { Design, LayerRules, TierRules } from "./design.ts";
import { formatLength } from "./length.ts";
import { presets } from "./presets.ts";
import { bearerMiddles } from "./tier.ts";

/** Something to buy or to have: not cut from the sheet. */
export interface HardwareLine {
  readonly what: string;
  readonly count: number;
  readonly note: string;
}

/** Screws, hinge, catch, feet and connectors that the design asks for. */
export function hardware(design: Design): readonly HardwareLine[] {
  return [
    ...(design.tier ? tierHardware(design, design.tier) : []),
    ...feetHardware(design),
    ...(design.layers ? pins(design, design.layers) : []),
    ...connectors(design),
    { what: "Wood glue", count: 1, note: "for the tongues; dry-fit everything first" },
  ];
}

/** Screws, dowels and felt are sold in mm, whatever the design is drawn in. */
function sold(mm: number): string {
  return formatLength(mm, "mm");
}

function tierHardware(design: Design, tier: TierRules): HardwareLine[] {
  const t = design.sheet.thickness.mean;
  const say = (mm: number): string => formatLength(mm, design.units);
  const perSlat = tier.slat < 60 ? 1 : 2;
  const bearers = bearerMiddles(design, tier).length;
  const span = tier.slats * tier.slat + (tier.slats - 1) * tier.gap;
  const diameter = sold(Math.floor(2 * (tier.screw - 0.2)) / 2);
  // Through one part and into a face behind it: 2 mm short of coming out.
  const flat = sold(Math.floor(2 * t - 2));
  const inEdge = sold(Math.round((t + 20) / 5) * 5);
  const hinged: HardwareLine[] = [
    {
      what: "Continuous hinge",
      count: 1,
      note: `${say(design.inside.width - 2 * tier.clearance)} long, its pin ${say(tier.pin)} from both leaves' faces: one leaf on the back rail's inside, one on slat ${tier.slats}`,
    },
    { what: "Ball or magnet catch", count: 1, note: "under slat 1, to keep the tier down" },
  ];
  const felt = bearers > 0 && tier.bearers.air > 0;
  return [
    ...(tier.swing > 0 ? hinged : []),
    ...(bearers > 0
      ? [
          {
            what: `Screw ${diameter} × ${inEdge}`,
            count: perSlat * tier.slats * bearers,
            note: "slats to bearers' edges: drill a lead hole, and glue",
          },
        ]
      : []),
    ...(tier.swing === 0
      ? [
          {
            what: `Screw ${diameter} × ${inEdge}`,
            count: 2 * perSlat * tier.slats,
            note: "slats' ends to cleats: drill a lead hole",
          },
        ]
      : []),
    {
      what: `Screw ${diameter} × ${flat}`,
      count: 2 * Math.max(2, Math.ceil(span / 100)),
      note: "cleats to cheeks, and glue",
    },
    ...(felt
      ? [
          {
            what: `Felt, ${sold(tier.bearers.air)} thick`,
            count: 2 * bearers,
            note: "under the bearers' feet",
          },
        ]
      : []),
  ];
}

/** As long as all layers together: what stands out is planed off. */
function pins(design: Design, { count, pins }: LayerRules): HardwareLine[] {
  return [
    {
      what: `Dowel ${sold(pins.diameter)} × ${sold(Math.ceil(count * design.sheet.thickness.max))}`,
      count: 2 * pins.count,
      note: "through each cheek's layers while they are glued up, before the case goes together",
    },
  ];
}

function feetHardware({ cheek }: Design): HardwareLine[] {
  if (cheek.feet.front.drop > 0 || cheek.feet.back.drop > 0) return [];
  return [{ what: "Rubber foot", count: 4, note: "screwed to the base, near its corners" }];
}

function connectors(design: Design): HardwareLine[] {
  return design.openings.flatMap((o) => {
    const bought = !["drawing", "rectangle", "circle", "slot", "handle", "vent", "cable-hole"].includes(
      o.shape,
    );
    if (!bought) return [];
    const screws = o.size.apart === undefined ? "" : "; two screws and nuts for its flange";
    return [
      {
        what: presets[o.shape].title,
        count: 1,
        note: `"${o.id}" on ${o.panel}: check the cutout against the part in your hand${screws}`,
      },
    ];
  });
}
