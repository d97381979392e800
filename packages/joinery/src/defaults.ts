import type {
  CheekRules,
  Design,
  FootRules,
  JointRules,
  LayerRules,
  LockedPart,
  SheetMaterial,
  SheetSize,
  TierRules,
  Units,
} from "./design.ts";
import type { DesignInput, DrawingInput, Loose } from "./design-input.ts";
import type { DrawingRef } from "./drawing.ts";
import type { Thickness } from "./part.ts";

/** The design with every default filled in. All defaults are here; `designText` shows them. */
export function fillDesign(given: DesignInput, units: Units): Design {
  const sheet = sheetOf(given);
  const cutter = given.cutter ?? 6;
  const layers = layersOf(given);
  const joint = layers ? layeredJoint(given.joint, sheet.thickness, layers) : jointOf(given, sheet.thickness);
  const least = layers ? leastOverhang(joint, sheet.thickness) : 0;
  const overhang = {
    front: given.cheek?.overhang?.front ?? least,
    back: given.cheek?.overhang?.back ?? least,
  };
  return {
    dryfit: 1,
    name: given.name,
    units,
    inside: given.inside,
    sheet,
    joint,
    layers,
    cutter,
    cheek: cheekOf(given, overhang),
    tier: given.tier ? tierOf(given.tier, given, sheet.thickness.mean) : null,
    openings: (given.openings ?? []).map((o, i) => ({
      id: o.id ?? `opening-${i + 1}`,
      panel: o.panel,
      shape: o.shape,
      drawing: drawingOf(o),
      size: Object.fromEntries(Object.entries(o.size).map(([k, v]) => [k, v === "cutter" ? cutter / 2 : v])),
      from: Object.fromEntries(Object.entries(o.from).filter(([, v]) => v !== undefined)),
      turn: o.turn ?? 0,
      relief: o.relief ?? "none",
    })),
    edges: (given.edges ?? []).map((e) => ({
      ...e,
      faces: e.faces ?? "both",
      form: e.form ?? "round",
      by: e.by ?? "hand",
    })),
    drawn: {},
  };
}

function sheetOf({ sheet }: DesignInput): SheetMaterial {
  const readings = typeof sheet.thickness === "number" ? [sheet.thickness] : sheet.thickness;
  const sizes = sheet.sizes.map((given, i): SheetSize => {
    const entry = isPair(given) ? { size: given } : given;
    return {
      id: entry.id ?? `stock-${i + 1}`,
      size: entry.size,
      grain: entry.grain ?? sheet.grain ?? "x",
      count: entry.count ?? null,
      price: entry.price ?? null,
      avoid: entry.avoid ?? [],
    };
  });
  return {
    name: sheet.name ?? "birch plywood",
    thickness: thicknessOf(readings),
    readings,
    sizes,
    margin: sheet.margin ?? 10,
    web: sheet.web ?? 4,
    locked: lockedOf(sheet, sizes),
    density: sheet.density ?? 680,
    modulus: sheet.modulus ?? 8000,
  };
}

/** All parts on one sheet lie on the size that the first of them names, or else on the first at hand. */
function lockedOf({ locked = [] }: DesignInput["sheet"], sizes: readonly SheetSize[]): readonly LockedPart[] {
  return locked.map((lock) => {
    const sheet = lock.sheet ?? 1;
    const named = locked.find((other) => (other.sheet ?? 1) === sheet && other.size !== undefined)?.size;
    return {
      part: lock.part,
      sheet,
      size: lock.size ?? named ?? sizes[0]!.id,
      x: lock.x,
      y: lock.y,
      turn: lock.turn ?? 0,
    };
  });
}

function thicknessOf(readings: readonly number[]): Thickness {
  const sum = readings.reduce((a, b) => a + b, 0);
  return { min: Math.min(...readings), mean: round(sum / readings.length, 3), max: Math.max(...readings) };
}

/** A tongue takes about half the thickness, and a housing for it no more than half. */
function jointOf({ joint }: DesignInput, { min, mean }: Thickness): JointRules {
  const side = joint?.clearance?.side ?? 0.1;
  const end = joint?.clearance?.end ?? 0.4;
  const thickness = joint?.tongue?.thickness ?? Math.max(3, Math.floor(mean) / 2);
  const length =
    joint?.tongue?.length ?? round(Math.min(thickness - 0.2, Math.floor((min / 2 - end) * 10) / 10), 3);
  return {
    rails: joint?.rails ?? "fewest-flips",
    tongue: { thickness, length },
    clearance: { side, end },
    stop: joint?.stop ?? Math.min(6, Math.floor(2 * (mean - thickness - side)) / 2),
    piece: joint?.piece ?? 10,
  };
}

function layersOf({ construction, layers }: DesignInput): LayerRules | null {
  if (construction !== "layered") return null;
  return {
    count: layers?.count ?? 2,
    tongue: layers?.tongue ?? 40,
    apart: layers?.apart ?? 25,
    pins: { count: layers?.pins?.count ?? 3, diameter: layers?.pins?.diameter ?? 5 },
  };
}

/** Tongues as thick as the sheet, through all layers but the outer one, and short of that where the sheet is thinnest. */
export function layeredJoint(
  joint: DesignInput["joint"],
  { min, mean }: Thickness,
  { count }: LayerRules,
): JointRules {
  const end = joint?.clearance?.end ?? 0.4;
  const deepest = Math.floor(10 * ((count - 1) * min - end)) / 10;
  return {
    rails: joint?.rails ?? "full",
    tongue: { thickness: joint?.tongue?.thickness ?? mean, length: joint?.tongue?.length ?? deepest },
    clearance: { side: joint?.clearance?.side ?? 0.1, end },
    stop: joint?.stop ?? 6,
    piece: joint?.piece ?? 10,
  };
}

/** In full tenths, so that the default reads as one would write it. */
export function leastOverhang({ stop, clearance }: JointRules, { mean, max }: Thickness): number {
  return Math.ceil(10 * (stop + max - mean + clearance.side) - 1e-6) / 10;
}

function cheekOf({ cheek, inside }: DesignInput, overhang: CheekRules["overhang"]): CheekRules {
  const crest = cheek?.crest;
  return {
    crest: {
      form: crest?.file === undefined ? (crest?.form ?? "straight") : "drawn",
      drawing: crest ? drawingOf(crest) : null,
      through: crest?.through ?? { at: inside.depth / 2, height: (inside.front + inside.back) / 2 },
      above: crest?.above ?? 0,
    },
    feet: { front: footOf(cheek?.feet?.front), back: footOf(cheek?.feet?.back) },
    overhang,
  };
}

function drawingOf({ file, units, scale, layer }: DrawingInput): DrawingRef | null {
  if (file === undefined) return null;
  return { file, units: units ?? null, scale: scale ?? 1, layer: layer ?? null };
}

function footOf(foot: Loose<FootRules> | undefined): FootRules {
  return {
    drop: foot?.drop ?? 0,
    length: foot?.length ?? 60,
    angle: foot?.angle ?? 60,
    radius: foot?.radius ?? 10,
  };
}

function tierOf(tier: NonNullable<DesignInput["tier"]>, { inside }: DesignInput, t: number): TierRules {
  const count = tier.bearers?.count ?? 2;
  return {
    slats: tier.slats,
    slat: tier.slat,
    gap: tier.gap ?? 28,
    height: tier.height ?? round(Math.min(inside.back, 50 + t), 3),
    clearance: tier.clearance ?? 1,
    swing: tier.swing ?? 90,
    pin: tier.pin ?? 3,
    bearers: {
      count,
      inset: tier.bearers?.inset ?? round(inside.width / (2 * Math.max(count, 1)), 3),
      air: tier.bearers?.air ?? 1,
    },
    cleat: { height: tier.cleat?.height ?? 25 },
    screw: tier.screw ?? 3.2,
  };
}

function round(value: number, decimals: number): number {
  return Number(value.toFixed(decimals));
}

function isPair(size: DesignInput["sheet"]["sizes"][number]): size is readonly [number, number] {
  return Array.isArray(size);
}
