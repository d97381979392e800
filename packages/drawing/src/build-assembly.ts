import type { Assembly, Direction, Joint, Part } from "@dryfit/joinery";
import type { BuildSheetData } from "./build-data.ts";
import { length } from "./lettering.ts";
import { checks, paragraph, type Section, section, steps, table } from "./paper/block.ts";

/** What the proof measured in every joint of the parts as cut. */
export function jointSection({ joints, assembly }: BuildSheetData): Section | null {
  const title = titles(assembly);
  return section(
    "joints",
    "Joints, as the parts will be cut",
    table(
      [
        { title: "tongue of" },
        { title: "stands in" },
        { title: "air each side", figures: true },
        { title: "gap at its end", figures: true },
        { title: "shoulder open", figures: true },
        { title: "wood in wood", figures: true },
      ],
      joints.map(({ tongue, housing, sideClearance: side, endGap, shoulderGap, interference }) => [
        title(tongue),
        title(housing),
        side.max - side.min < 0.005
          ? length(side.min, 3)
          : `${length(side.min, 3)} to ${length(side.max, 3)}`,
        length(endGap, 3),
        length(shoulderGap, 3),
        interference === 0 ? "none" : `${length(interference, 3)} mm³`,
      ]),
    ),
    joints.length === 0
      ? null
      : paragraph("In mm, at the thinnest and the thickest reading of the sheet where two figures stand."),
  );
}

/** In which order the parts go together, and which way each is pushed. */
export function orderSection({ assembly, order }: BuildSheetData): Section | null {
  const title = wholeTitles(assembly);
  // What is glued up of layers goes in as one: its first layer stands for all.
  const whole = order.filter((id) => layersOf(assembly, id)[0] === id);
  const meetsOf = (id: string): readonly Joint[] => {
    const placed = whole.slice(0, whole.indexOf(id));
    return assembly.joints.filter(
      ({ tongue, housing }) =>
        (tongue.part === id && placed.includes(housing.part)) ||
        (housing.part === id && placed.includes(tongue.part)),
    );
  };
  const items = whole.flatMap((id, i): readonly string[] => {
    const meets = meetsOf(id);
    if (i === 0) return [`Lay down the ${lower(title(id))}.`];
    if (meets.length === 0) {
      // Those that stand by themselves are told at the first of them.
      if (i > 1 && meetsOf(whole[i - 1]!).length === 0) return [];
      const end = whole.findIndex((next, k) => k > i && meetsOf(next).length > 0);
      const loose = whole.slice(i, end < 0 ? undefined : end).map((one) => named(title(one)));
      return loose.length === 1
        ? [`Put ${loose[0]} in its place.`]
        : [`Put in their places, in this order: ${sentenceList(loose)}.`];
    }
    const way = pushOf(id, meets[0]!);
    const others = [
      ...new Set(meets.map(({ tongue, housing }) => (tongue.part === id ? housing.part : tongue.part))),
    ];
    return [
      `Push the ${lower(title(id))} ${WAYS[way]}, until its shoulders close on the ${sentenceList(others.map((other) => lower(title(other))))}.`,
    ];
  });
  return section("order", "Order of assembly", steps([...gluedUp(assembly), ...items]));
}

/** "the base", "bearer 1". */
function named(title: string): string {
  return `${/\d(?=$| \()/.test(title) ? "" : "the "}${lower(title)}`;
}

/** The layers of a panel, from the inside out; itself where it is of one piece. */
function layersOf({ glued }: Assembly, id: string): readonly string[] {
  return glued?.find((layers) => layers.includes(id)) ?? [id];
}

/** Layered panels come first, for their pins and slots only line up while they can still be moved. */
function gluedUp(assembly: Assembly): readonly string[] {
  const [title, whole] = [titles(assembly), wholeTitles(assembly)];
  return (assembly.glued ?? []).map((layers) => {
    const names = layers.map((id) => lower(title(id)));
    return `Glue up the ${lower(whole(layers[0]!))} on its pins: ${sentenceList(names)}. Keep glue out of the slots, clamp all over, and plane the pins flush once it has set.`;
  });
}

/** By the panel's own name where it is glued up of layers: "Left cheek", not "Left cheek, inner layer". */
function wholeTitles(assembly: Assembly): (id: string) => string {
  const title = titles(assembly);
  return (id) => (layersOf(assembly, id).length > 1 ? title(id).replace(/,.*$/, "") : title(id));
}

/** Before any glue: what to look at, with the figures that it should show. */
export function dryFitSection(data: BuildSheetData): Section | null {
  const { assembly, measures } = data;
  const { width, depth, front, back } = assembly.inside;
  const diagonal = Math.hypot(assembly.outside.width, assembly.outside.depth);
  const [one, other] = measures?.diagonals ?? [diagonal, diagonal];
  const air = data.joints.map(({ sideClearance }) => sideClearance);
  const least = Math.min(...air.map(({ min }) => min));
  const most = Math.max(...air.map(({ max }) => max));
  const swing = assembly.hinge;
  return section(
    "dry-fit",
    "Dry fit, before any glue",
    checks([
      `Clean the housings' corners${data.programs.some(({ tabs }) => tabs > 0) ? " and the tabs' stubs" : ""}. Do not sand the tongues: they are cut to size.`,
      ...(air.length > 0
        ? [
            `Every tongue goes home by hand: it has ${span(least, most)} mm of air on each side. If it needs the mallet, stop and measure.`,
          ]
        : []),
      "Every shoulder is closed all along: a strip of paper does not go in.",
      `Between the cheeks ${length(width)} mm at the front, at the back, above and below.`,
      `Between the rails ${length(depth)} mm at both ends.`,
      `From the floor to the rails' tops ${length(front)} mm in front, ${length(back)} mm behind.`,
      Math.abs(one - other) < 0.05
        ? `Both diagonals over the outside, seen from above, measure ${length(one)} mm: they may differ by 1 mm at most.`
        : `The diagonals over the outside, seen from above, measure ${length(one)} and ${length(other)} mm.`,
      ...(assembly.feet.length > 0
        ? [
            `All feet touch a flat slab${rocks(measures?.footing?.rocking ?? null)}. If it rocks, look for a shoulder that is open.`,
          ]
        : []),
      ...(swing
        ? [
            `The ${lower(swing.parts.length > 1 ? "tier" : swing.parts[0]!)} swings up to ${length(swing.swingDeg, 0)}° and down again without touching.`,
          ]
        : []),
      "Lay out the gear with all its plugs in. Now is the time to find out.",
    ]),
  );
}

/** As the parts are cut; what nobody can measure is not told. */
function rocks(rocking: number | null): string {
  return rocking === null || rocking < 0.001
    ? ""
    : `; as cut they are within ${length(rocking, 3)} mm of one plane`;
}

export function glueSection({ assembly }: BuildSheetData): Section | null {
  const loose = looseParts(assembly);
  return section(
    "glue",
    "Glue-up",
    steps([
      "Have clamps, pads, a flat bench, a damp cloth and a rule at hand; put everything together once more with the clamps, dry.",
      "Brush a thin film of wood glue on the walls of the housings and grooves and on the faces of the tongues. Leave the tongues' ends dry: the gap there takes what is squeezed out.",
      "Put the parts together in the order above, without a pause: note the open time on your glue's label before you begin.",
      "Clamp across the shoulders, not across the middle of a panel. Just until they close: more pressure bends the panels.",
      "Measure both diagonals again and push the longer one in. Stand the case on the slab while the glue sets.",
      "Take squeezed-out glue off while it is soft, inside first.",
      "Leave the clamps on for an hour, and the case without load for a day.",
      ...(loose.length > 0
        ? [
            `Glue and screw ${sentenceList(loose.map(({ title }) => lower(title)))} only when the case is dry.`,
          ]
        : []),
    ]),
    paragraph("Glue, times and pressure are common practice; your glue's own label goes first."),
  );
}

/** What no joint holds: a tier's slats and what bears them. */
export function looseParts(assembly: Assembly): readonly Part[] {
  return assembly.parts.filter(
    ({ id }) =>
      layersOf(assembly, id).length === 1 &&
      !assembly.joints.some(({ tongue, housing }) => tongue.part === id || housing.part === id),
  );
}

const WAYS: Readonly<Record<Direction, string>> = {
  "+x": "in from the left",
  "-x": "in from the right",
  "+y": "on from the front",
  "-y": "on from the back",
  "+z": "up from below",
  "-z": "down from above",
};

/** A tongue goes the joint's way; a part with the housing comes against it. */
function pushOf(id: string, { tongue, into }: Joint): Direction {
  if (tongue.part === id) return into;
  return `${into[0] === "+" ? "-" : "+"}${into[1]}` as Direction;
}

function titles(assembly: Assembly): (id: string) => string {
  const byId = new Map(assembly.parts.map((part: Part) => [part.id, part.title]));
  return (id) => byId.get(id) ?? id;
}

/** "Left cheek" within a sentence. */
export function lower(title: string): string {
  return title.replace(/^[A-Z](?=[a-z])/, (letter) => letter.toLowerCase());
}

function sentenceList(words: readonly string[]): string {
  if (words.length < 2) return words.join("");
  return `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}

function span(least: number, most: number): string {
  return most - least < 0.005 ? length(least, 2) : `${length(least, 2)} to ${length(most, 2)}`;
}
