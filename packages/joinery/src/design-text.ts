import { Document, isMap, isScalar, isSeq, visit } from "yaml";
import type { Design, OpeningRules, SheetSize, TierRules } from "./design.ts";
import type { DrawingRef } from "./drawing.ts";
import { mmPerInch, trimmed } from "./length.ts";

/** The design as a file that leaves nothing out: every default stands in it. Reading it gives the same design. */
export function designText(design: Design): string {
  const doc = new Document(written(design));
  visit(doc, {
    Collection(_, node) {
      const plain = node.items.every(
        (item) => isScalar(item) || (isMap(node) && isScalar((item as { value?: unknown }).value)),
      );
      if (plain && (isSeq(node) || node !== doc.contents)) node.flow = true;
    },
  });
  return doc.toString({ lineWidth: 120, flowCollectionPadding: true });
}

type Length = (mm: number) => number;

function written(design: Design): unknown {
  const l: Length = (mm) => Number(trimmed(design.units === "in" ? mm / mmPerInch : mm, 9));
  const { sheet, joint, cheek } = design;
  const foot = (end: "front" | "back") => {
    const { drop, length, angle, radius } = cheek.feet[end];
    return { drop: l(drop), length: l(length), angle, radius: l(radius) };
  };
  return {
    dryfit: design.dryfit,
    name: design.name,
    units: design.units,
    inside: lengths(design.inside, l),
    sheet: {
      name: sheet.name,
      thickness: sheet.readings.length === 1 ? l(sheet.readings[0]!) : sheet.readings.map(l),
      sizes: sheet.sizes.map((size) => sizeOf(size, l)),
      ...(sheet.locked.length > 0
        ? { locked: sheet.locked.map((lock) => ({ ...lock, x: l(lock.x), y: l(lock.y) })) }
        : {}),
      margin: l(sheet.margin),
      web: l(sheet.web),
      density: sheet.density,
      modulus: sheet.modulus,
    },
    construction: design.layers ? "layered" : "housed",
    joint: {
      rails: joint.rails,
      tongue: lengths(joint.tongue, l),
      clearance: lengths(joint.clearance, l),
      stop: l(joint.stop),
      piece: l(joint.piece),
    },
    ...(design.layers
      ? {
          layers: {
            count: design.layers.count,
            tongue: l(design.layers.tongue),
            apart: l(design.layers.apart),
            pins: { count: design.layers.pins.count, diameter: l(design.layers.pins.diameter) },
          },
        }
      : {}),
    cutter: l(design.cutter),
    cheek: {
      crest: {
        ...(cheek.crest.drawing
          ? drawingOf(cheek.crest.drawing)
          : { form: cheek.crest.form, through: lengths(cheek.crest.through, l) }),
        above: l(cheek.crest.above),
      },
      feet: { front: foot("front"), back: foot("back") },
      overhang: lengths(cheek.overhang, l),
    },
    tier: design.tier && tierOf(design.tier, l),
    openings: design.openings.map((o) => openingOf(o, l)),
    edges: design.edges.map((e) => ({ ...e, radius: l(e.radius) })),
  };
}

function sizeOf({ id, size, grain, count, price, avoid }: SheetSize, l: Length): unknown {
  return { id, size: size.map(l), grain, count, price, avoid: avoid.map((box) => box.map(l)) };
}

function tierOf(tier: TierRules, l: Length): unknown {
  return {
    slats: tier.slats,
    slat: l(tier.slat),
    gap: l(tier.gap),
    height: l(tier.height),
    clearance: l(tier.clearance),
    swing: tier.swing,
    pin: l(tier.pin),
    bearers: { count: tier.bearers.count, inset: l(tier.bearers.inset), air: l(tier.bearers.air) },
    cleat: { height: l(tier.cleat.height) },
    screw: l(tier.screw),
  };
}

function openingOf(o: OpeningRules, l: Length): unknown {
  const { id, panel, shape, drawing, size, from, turn, relief } = o;
  const place = { from: lengths(from, l), turn };
  if (drawing) return { id, panel, ...drawingOf(drawing), ...place };
  const measures = Object.entries(size).map(([key, value]) => [key, key === "count" ? value : l(value)]);
  return { id, panel, shape, size: Object.fromEntries(measures), ...place, relief };
}

/** What is left to the file is left out here too. */
function drawingOf({ file, units, scale, layer }: DrawingRef): object {
  return { file, ...(units ? { units } : {}), scale, ...(layer === null ? {} : { layer }) };
}

function lengths(group: object, l: Length): unknown {
  return Object.fromEntries(Object.entries(group).map(([key, value]) => [key, l(value as number)]));
}
