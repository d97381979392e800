import type { Loop, Region } from "@dryfit/geometry";
import type { Finding, Part } from "@dryfit/joinery";
import type { Sheet, Stock } from "@dryfit/nest";
import { type Cutter, isShaped } from "./cutter.ts";
import { edgeRoom } from "./edge-tool.ts";
import { type PinRoom, pinLandsOn, type Turning, turningOf } from "./flip.ts";
import type { Machine } from "./machine.ts";
import { optionsOf, type PlanOptions } from "./plan-options.ts";
import { type PinHoles, pinHolesFor } from "./plan-pins.ts";
import { needsFlip } from "./plan-task.ts";
import type { PinSet } from "./program.ts";

/** How a sheet is turned over on pins in its waste; null where no pattern of them finds room. */
export function turningFor(
  sheet: Sheet,
  outlines: readonly { readonly loop: Loop<"sheet"> }[],
  cutters: readonly Cutter[],
  holes: PinHoles,
  parts: readonly Part[],
  options: PlanOptions,
): Turning | null {
  const room = pinRoom(sheet.stock, cutters, holes, options);
  const loops = outlines.map(({ loop }) => loop);
  // Shaped cutters reach farther out; where that leaves no room, their edges are made by hand.
  const edges = parts.flatMap(({ roundOvers }) => roundOvers).filter(({ by }) => by === "cutter");
  const reach = Math.max(0, ...edges.map((edge) => edgeRoom(edge, cutters)));
  const wide = Math.max(room.air, holes.diameter / 2 + reach + PIN_WALL_MM);
  return turningOf({ ...room, outlines: loops, air: wide }) ?? turningOf({ ...room, outlines: loops });
}

export function pinSet({ diameter, depth }: PinHoles, { pins }: Turning): PinSet {
  return { diameter, depth, at: pins.map(({ x, y }) => [x, y] as const) };
}

/** Places on a sheet to keep clear of when parts are laid anew, so that pins find room when it is turned over. */
export function pinLands(
  stock: Stock,
  {
    parts,
    cutters,
    machine,
  }: { readonly parts: readonly Part[]; readonly cutters: readonly Cutter[]; readonly machine: Machine },
): readonly Region<"sheet">[] {
  const part = parts.find(needsFlip);
  if (part === undefined) return [];
  const chosen = optionsOf(machine);
  const holes = pinHolesFor(cutters, part, chosen, part.thickness.mean + machine.bedAllowance);
  return pinLandsOn(pinRoom(stock, cutters, holes, chosen));
}

export function noRoomForPins(sheet: Sheet, parts: readonly Part[], { pins }: PlanOptions): Finding {
  const names = parts.map((part) => part.id).join(", ");
  return {
    code: "no_room_for_pins",
    severity: "error",
    path: sheet.id,
    message: `${sheet.id} must be turned over for ${names}, but no pattern of pins finds room in its waste.`,
    numbers: { pin: pins.diameter, twoFaced: parts.length },
    wayOut: "Leave more room between the parts, or choose a rail style that needs no second setup.",
  };
}

function pinRoom(
  stock: Stock,
  cutters: readonly Cutter[],
  { diameter }: PinHoles,
  { pins }: PlanOptions,
): Omit<PinRoom, "outlines"> {
  const widest = Math.max(
    0,
    ...cutters.filter((cutter) => !isShaped(cutter)).map(({ diameter }) => diameter),
  );
  return {
    stock,
    air: diameter / 2 + widest + PIN_WALL_MM,
    edge: diameter + PIN_WALL_MM,
    differ: pins.spread / 2,
  };
}

/** Wood round a pin that is left when all parts are cut out, mm. */
const PIN_WALL_MM = 3;
