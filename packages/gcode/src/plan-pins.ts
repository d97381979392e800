import type { Point } from "@dryfit/geometry";
import type { Finding, Part } from "@dryfit/joinery";
import { choicesFor } from "./choose-cutter.ts";
import type { Cutter } from "./cutter.ts";
import type { PlanOptions } from "./plan-options.ts";
import type { Task } from "./plan-task.ts";
import { mm } from "./sum.ts";

/** The pins of a sheet that is turned over, as they can be bored. */
export interface PinHoles {
  readonly diameter: number;
  /** Under the sheet, in the board on the bed, mm. */
  readonly depth: number;
  readonly findings: readonly Finding[];
}

/**
 * The pins as the machine file asks for them, or as near as these cutters come: another common diameter where no
 * cutter can bore the one asked for, less deep where no flutes are so long. `through` is how deep a through cut goes.
 */
export function pinHolesFor(
  cutters: readonly Cutter[],
  part: Part,
  { pins: asked }: PlanOptions,
  through: number,
): PinHoles {
  const { mean } = part.thickness;
  const flutesFor = (diameter: number): number => {
    const hole = pinTask({ x: 0, y: 0 }, 0, part, diameter, through);
    const { choices } = choicesFor(hole, cutters, { deep: through, beyond: 0, others: [] });
    return Math.max(0, ...choices.map(({ cutter }) => cutter.fluteLength));
  };
  const away = (diameter: number): number => Math.abs(diameter - asked.diameter);
  const diameters = [asked.diameter, ...[...DOWELS].sort((a, b) => away(a) - away(b))];
  // Where none will do, the task for the one that was asked for says why.
  const diameter = diameters.find((one) => flutesFor(one) > 0) ?? asked.diameter;
  const most = flutesFor(diameter) - mean;
  const depth = Math.max(through - mean, Math.min(asked.depth, most));
  return {
    diameter,
    depth,
    findings: [
      ...(diameter === asked.diameter ? [] : [otherDiameter(asked.diameter, diameter)]),
      ...(depth < Math.min(asked.depth, HOLDS_MM) && most > 0 ? [shallow(asked.depth, depth)] : []),
    ],
  };
}

export function pinTask(at: Point, i: number, part: Part, diameter: number, depth: number): Task {
  return {
    id: `pin-${i + 1}`,
    kind: "pin",
    part: "",
    feature: `pin-${i + 1}`,
    material: part.material,
    setup: "A",
    shape: { kind: "hole", at, diameter },
    depth,
    partArea: 0,
    lastPass: false,
  };
}

/** Diameters in which dowels and pins are sold, mm. Common practice. */
const DOWELS = [6, 8, 5, 10, 4, 12, 3] as const;

/** Less than this in the board, and a pin tips over, mm. From memory. */
const HOLDS_MM = 3;

function otherDiameter(asked: number, taken: number): Finding {
  return {
    code: "pin_diameter_changed",
    severity: "note",
    path: "machine.pins.diameter",
    message: `No cutter at hand bores pin holes of ${mm(asked)}: the pins are ${mm(taken)}.`,
    numbers: { asked, taken },
  };
}

function shallow(asked: number, depth: number): Finding {
  return {
    code: "pins_shallow",
    severity: "warning",
    path: "machine.pins.depth",
    message: `The flutes reach ${mm(depth)} under the sheet: so deep stand the pins in the board, not ${mm(asked)}.`,
    numbers: { asked, depth, least: HOLDS_MM },
    wayOut: "Add a cutter with longer flutes, or bore the holes in the board deeper by hand.",
  };
}
