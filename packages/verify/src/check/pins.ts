import {
  boundsOf,
  CUT_MM,
  circle,
  differenceFlat,
  distance,
  OUTPUT_STEP_MM,
  type Placement,
  type Point,
  place,
  point,
  SETUPS_MM,
  sweepFlat,
} from "@dryfit/geometry";
import type { Finding, Part } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import { nearestOn } from "../cut/gap.ts";
import { chains, depthOf, type Stroke, sheetFromMachine } from "../cut/stroke.ts";
import type { SheetFlip } from "../proof.ts";
import { apartAt } from "./setups-apart.ts";

/** The pins that a sheet is turned over on, and all that was cut of it. */
export interface PinBench {
  readonly sheet: Sheet;
  readonly flip: SheetFlip;
  /** In the order of cutting. */
  readonly strokes: readonly Stroke[];
  /** Parts on the sheet that are cut in both setups. */
  readonly parts: readonly { readonly part: Part; readonly sheetFromPanel: Placement<"sheet", "panel"> }[];
  /** The mean of the readings: what pins stand in the board differs from sheet to sheet by less than they need. */
  readonly thickness: number;
}

/**
 * Whether the pins' holes are there, deep enough and no wider, whether they find the turned sheet's place and only
 * that, and how far the two setups can be apart on any part. Null where the sheet has no pins.
 */
export function checkPins(bench: PinBench): { readonly apart: number | null; readonly findings: Finding[] } {
  const { sheet, flip, parts } = bench;
  const { pins } = flip;
  if (pins === undefined) return { apart: null, findings: [] };
  const at = pins.at.map(([x, y]): Point<"sheet"> => ({ x, y }));
  const corners = parts.flatMap(({ part, sheetFromPanel }) => {
    const { min, max } = boundsOf(part.outline);
    return [min, max, { x: min.x, y: max.y }, { x: max.x, y: min.y }].map((p) => place(sheetFromPanel, p));
  });
  // How far a place moves is greatest at a corner of all the places there are.
  const apart = Math.max(0, ...corners.map((corner) => apartAt(corner, at, pins.play)));
  return {
    apart,
    findings: [
      ...at.flatMap((pin, i) => checkHole(bench, pin, i)),
      ...checkPattern(sheet, flip, at),
      ...(apart > SETUPS_MM ? [setupsApart(sheet, pins.play, apart)] : []),
    ],
  };
}

/** The hole must be open as wide and deep as told, and no wider: a pin that shakes finds nothing. */
function checkHole({ sheet, flip, strokes, thickness }: PinBench, pin: Point<"sheet">, i: number): Finding[] {
  const { diameter, depth } = flip.pins!;
  const near = strokes.filter(
    ({ path, radius }) => distance(nearestOn(path, pin), pin) <= radius + diameter / 2 + WALL_MM,
  );
  const bottom = thickness + depth - OUTPUT_STEP_MM;
  const bored = near.filter(
    ({ program, z }) => program.setup === "A" && depthOf(program, Math.max(...z), thickness) >= bottom,
  );
  const radii = [...new Set(bored.map(({ radius }) => radius))];
  const open = radii.flatMap((radius) =>
    sweepFlat(chains(bored.filter((one) => one.radius === radius).map(({ path }) => path)), radius),
  );
  const hole = (by: number) => [{ outer: circle(pin, diameter / 2 + by), holes: [] }];
  const shut = differenceFlat(hole(-CUT_MM), open).length > 0;
  const wide = near.some(
    ({ path, radius }) =>
      distance(nearestOn(path, pin), pin) + radius > diameter / 2 + CUT_MM ||
      [path.from, path.to].some((p) => distance(p, pin) + radius > diameter / 2 + CUT_MM),
  );
  if (!shut && !wide) return [];
  return [
    {
      code: "pin_hole_wrong",
      severity: "error",
      path: sheet.id,
      message: `The hole for pin ${i + 1} of ${sheet.id} at (${pin.x.toFixed(1)}, ${pin.y.toFixed(1)}) is ${shut ? `not open ${mm(diameter)} wide and ${mm(depth)} deep in the board` : `wider than ${mm(diameter)}`}.`,
      numbers: { pin: i + 1, x: pin.x, y: pin.y, diameter, depth },
    },
  ];
}

/** What is cut this near to a pin belongs to its hole, mm. */
const WALL_MM = 1;

/** Turned over, the pattern must fall on itself; laid down any other way, it must not. */
function checkPattern(sheet: Sheet, flip: SheetFlip, pins: readonly Point<"sheet">[]): Finding[] {
  const turned = sheetFromMachine("B", flip);
  const wrong = (code: string, message: string): Finding[] => [
    { code, severity: "error", path: sheet.id, message, numbers: { pins: pins.length } },
  ];
  if (
    pins.length < 2 ||
    !fits(
      pins.map((pin) => place(turned, point<"machine">(pin.x, pin.y))),
      pins,
      SAME_MM,
    )
  )
    return wrong("pins_do_not_match", `Turned over, ${sheet.id} does not fit on its pins.`);
  const other = ways(pins).some(
    (moved) =>
      fits(moved, pins, UNLIKE_MM) &&
      !same(moved, pins) &&
      !same(
        moved,
        pins.map((pin) => place(turned, point<"machine">(pin.x, pin.y))),
      ),
  );
  return other ? wrong("pins_fit_twice", `${sheet.id} fits on its pins in more ways than one.`) : [];
}

/** Printed places, mm. */
const SAME_MM = 0.002;
/** Pins that differ less than this may be forced, mm. */
const UNLIKE_MM = 2;

/** All ways of laying the pins' holes down, over or not, so that the first two fall on two pins about as far apart. */
function ways(pins: readonly Point<"sheet">[]): Point<"sheet">[][] {
  const [p, q] = pins as readonly [Point<"sheet">, Point<"sheet">];
  return pins.flatMap((a) =>
    pins.flatMap((b) => {
      if (a === b || Math.abs(distance(a, b) - distance(p, q)) > UNLIKE_MM) return [];
      return [1, -1].map((side) => pins.map((pin) => carried(pin, [p, q], [a, b], side)));
    }),
  );
}

function carried(
  pin: Point<"sheet">,
  [p, q]: readonly [Point<"sheet">, Point<"sheet">],
  [a, b]: readonly [Point<"sheet">, Point<"sheet">],
  side: number,
): Point<"sheet"> {
  const [from, to] = [unit(p, q), unit(a, b)];
  const along = (pin.x - p.x) * from.x + (pin.y - p.y) * from.y;
  const across = side * ((pin.y - p.y) * from.x - (pin.x - p.x) * from.y);
  return { x: a.x + along * to.x - across * to.y, y: a.y + along * to.y + across * to.x };
}

function unit(a: Point, b: Point): Point {
  const length = distance(a, b);
  return { x: (b.x - a.x) / length, y: (b.y - a.y) / length };
}

const fits = (moved: readonly Point[], pins: readonly Point[], within: number): boolean =>
  moved.every((m) => pins.some((pin) => distance(m, pin) <= within));

const same = (moved: readonly Point[], places: readonly Point[]): boolean =>
  moved.every((m, i) => distance(m, places[i]!) <= UNLIKE_MM);

function setupsApart(sheet: Sheet, play: number, apart: number): Finding {
  return {
    code: "setups_apart",
    severity: "warning",
    path: "machine.pins.play",
    message: `With ${mm(play)} of play on its pins, the two faces of a part on ${sheet.id} may be cut ${mm(apart)} apart, more than ${mm(SETUPS_MM)}.`,
    numbers: { play, apart, most: SETUPS_MM },
    wayOut:
      "Take pins that fit tighter, or press the turned sheet against its pins always from the same side.",
  };
}

const mm = (value: number): string => `${Number(value.toFixed(3))} mm`;
