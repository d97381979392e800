import { el, fromRight, type OnPaper, outsideView, spot } from "@dryfit/drawing";
import { type CaseOnPaper, derived, driving, type Framed, framed, shifted } from "./frame.ts";
import { across, leader, upright } from "./lines.ts";
import { openingPlaces } from "./opening-places.ts";
import type { Figure, Handle, ViewSpec } from "./view-spec.ts";

const ROOM = { left: 28, right: 28, top: 25, bottom: 33 };

/** How much of the paper's width the view needs beside the wood. */
export const ELEVATION_ROOM: number = ROOM.left + ROOM.right;

/** The right cheek from outside, on its feet: crest, feet, rake and what is cut into the cheeks. */
export function elevation(on: CaseOnPaper, scale: number): ViewSpec {
  const { design, numbers, assembly } = on;
  const frame = framed(on, fromRight, scale, ROOM);
  const { view, at, box, size } = frame;
  const edge = numbers.cheek;
  const crest = crestDimensions(on, frame);
  const feet = feetDimensions(on, frame);
  const depth = across(at({ y: edge.min, z: box.min.z }), at({ y: edge.max, z: box.min.z }), 23);
  const height = upright(at({ y: edge.max, z: box.min.z }), at({ y: edge.max, z: box.max.z }), 21);
  const openings = openingPlaces(on, frame, ["cheek-left", "cheek-right"]);
  const rake = rakeLine(on, frame);
  return {
    id: "elevation",
    title: "Cheek, from the right",
    size,
    scale,
    description: `The right cheek from outside. Crest ${design.cheek.crest.form}, rake ${((assembly.rake * 180) / Math.PI).toFixed(1)} degrees.`,
    body: [
      outsideView(assembly, fromRight, view),
      rake.lines,
      crest.lines,
      feet.lines,
      depth.lines,
      height.lines,
      openings.lines,
    ].join(""),
    figures: [
      ...crest.figures,
      ...feet.figures,
      ...openings.figures,
      ...derived(on, "outside.height", height.at),
      ...derived(on, "outside.depth", depth.at),
      ...derived(on, "rake", rake.at),
    ],
    handles: [...crest.handles, ...feet.handles],
    places: {
      cheek: at({ y: edge.min + 20, z: 0 }),
      "cheek-left": at({ y: edge.min + 20, z: 0 }),
      "cheek-right": at({ y: edge.min + 20, z: 0 }),
      "cheek.crest": at({ y: design.inside.depth / 4, z: design.inside.front }),
      "cheek.feet": at({ y: edge.min, z: -numbers.t }),
      ...openings.places,
    },
  };
}

interface Drawn {
  readonly lines: string;
  readonly figures: readonly Figure[];
  readonly handles: readonly Handle[];
}

/** The place that a bent or round crest goes through, from the front rail's inside and from the floor. */
function crestDimensions({ design }: CaseOnPaper, { at, box }: Framed): Drawn {
  const { crest } = design.cheek;
  if (crest.form === "straight") return { lines: "", figures: [], handles: [] };
  const { at: y, height: z } = crest.through;
  const held = at({ y, z });
  const top = at({ y, z: box.max.z }).y;
  const along = across(
    at({ y: 0, z: design.inside.front }),
    { x: held.x, y: held.y },
    Math.min(-7, top - 7 - held.y),
  );
  const up = upright(at({ y, z: 0 }), held, 0);
  return {
    lines: along.lines + up.lines,
    figures: [
      driving("cheek.crest.through.at", "Crest: from the front rail to the height", y, along.at),
      driving("cheek.crest.through.height", "Crest: height over the floor", z, up.at),
    ],
    handles: [
      {
        id: "crest",
        label: "Crest",
        at: held,
        across: { path: "cheek.crest.through.at", value: y },
        up: { path: "cheek.crest.through.height", value: z, sense: 1 },
      },
    ],
  };
}

function feetDimensions(on: CaseOnPaper, frame: Framed): Drawn {
  const ends = (["front", "back"] as const).map((end) => foot(on, frame, end));
  return {
    lines: ends.map(({ lines }) => lines).join(""),
    figures: ends.flatMap(({ figures }) => figures),
    handles: ends.flatMap(({ handles }) => handles),
  };
}

function foot({ design, numbers }: CaseOnPaper, { at, box }: Framed, end: "front" | "back"): Drawn {
  const rules = design.cheek.feet[end];
  const belly = -numbers.t;
  const [edge, inwards, away] =
    end === "front" ? ([numbers.cheek.min, 1, -12] as const) : ([numbers.cheek.max, -1, 10] as const);
  const base = `cheek.feet.${end}`;
  const name = end === "front" ? "Front foot" : "Back foot";
  const drop = upright(at({ y: edge, z: belly }), at({ y: edge, z: belly - rules.drop }), away, "below");
  const handle: Handle = {
    id: `${end}-foot`,
    label:
      end === "front"
        ? "Front foot: how far it goes down"
        : "Back foot: how far it goes down, and with it the rake",
    at: at({ y: edge, z: belly - rules.drop }),
    across: null,
    up: { path: `${base}.drop`, value: rules.drop, sense: -1 },
  };
  const figures = [driving(`${base}.drop`, `${name}: drop below the base`, rules.drop, drop.at)];
  if (rules.drop <= 0) return { lines: drop.lines, figures, handles: [handle] };
  const inner = edge + inwards * rules.length;
  const low = box.min.z;
  const length = across(at({ y: edge, z: low }), at({ y: inner, z: low }), 10);
  const bend: OnPaper = shifted(at({ y: inner, z: belly }), inwards * 9, 7);
  const corner = shifted(bend, inwards * 4, 6.5);
  return {
    lines: drop.lines + length.lines + leader(at({ y: inner + inwards * 3, z: belly }), bend),
    figures: [
      ...figures,
      driving(`${base}.length`, `${name}: length`, rules.length, length.at),
      driving(`${base}.angle`, `${name}: angle of its end`, rules.angle, bend, "angle"),
      driving(`${base}.radius`, `${name}: radius into the belly`, rules.radius, corner, "length", "R"),
    ],
    handles: [handle],
  };
}

function rakeLine({ assembly, numbers }: CaseOnPaper, { at }: Framed): { lines: string; at: OnPaper } {
  const sorted = [...assembly.feet].sort((a, b) => a.y - b.y);
  const [first, last] = [sorted[0], sorted.at(-1)];
  const middle = at({ y: (numbers.cheek.min + numbers.cheek.max) / 2, z: -numbers.t });
  if (!first || !last) return { lines: "", at: middle };
  const [a, b] = [shifted(at(first), -8, 0), shifted(at(last), 8, 0)];
  const slope = (at(last).y - at(first).y) / (at(last).x - at(first).x || 1);
  const d = `M${spot({ x: a.x, y: a.y - 8 * slope })}L${spot({ x: b.x, y: b.y + 8 * slope })}`;
  return {
    lines: el("path", { class: "centre", d }),
    at: { x: middle.x, y: (a.y + b.y) / 2 + 4.5 },
  };
}
