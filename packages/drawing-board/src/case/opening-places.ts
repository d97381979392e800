import { el, type OnPaper } from "@dryfit/drawing";
import { type EdgePlace, edgePlaces, type OpeningRules, type Point3 } from "@dryfit/joinery";
import { type CaseOnPaper, driving, type Framed } from "./frame.ts";
import { across, upright } from "./lines.ts";
import type { Figure } from "./view-spec.ts";

export interface OpeningsOnView {
  readonly lines: string;
  readonly figures: readonly Figure[];
  /** By path: "openings[0]". */
  readonly places: Readonly<Record<string, OnPaper>>;
}

/** The openings of some panels on a view: where each middle lies from the edges that the design names. */
export function openingPlaces(on: CaseOnPaper, frame: Framed, panels: readonly string[]): OpeningsOnView {
  const drawn = on.design.openings.flatMap((opening, i) =>
    panels.includes(opening.panel) ? [openingPlace(on, frame, opening, `openings[${i}]`)] : [],
  );
  return {
    lines: drawn.map(({ lines }) => lines).join(""),
    figures: drawn.flatMap(({ figures }) => figures),
    places: Object.assign({}, ...drawn.map(({ places }) => places)),
  };
}

function openingPlace(
  { design, numbers }: CaseOnPaper,
  { at }: Framed,
  opening: OpeningRules,
  path: string,
): OpeningsOnView {
  const edges = edgePlaces(opening.panel, design, numbers);
  const told = Object.entries(opening.from).flatMap(([name, value]) => {
    const edge = edges[name as keyof typeof edges];
    return edge && value !== undefined ? [{ name, value, edge }] : [];
  });
  const placed = told.map(({ edge, value }) => [edge.axis, edge.at + edge.way * value] as const);
  const middle: Point3 = { x: 0, y: 0, z: 0, ...Object.fromEntries(placed) };
  const here = at(middle);
  const dimensions = told.map(({ name, value, edge }) => {
    const there = at({ ...middle, [edge.axis]: edge.at });
    const isLevel = Math.abs(there.x - here.x) >= Math.abs(there.y - here.y);
    const { lines, at: figureAt } = isLevel ? across(there, here, 0) : upright(there, here, 0);
    const label = `Opening ${opening.id}: from the ${edgeWords(name, edge)}`;
    return { lines, figure: driving(`${path}.from.${name}`, label, value, figureAt) };
  });
  return {
    lines: cross(here) + dimensions.map(({ lines }) => lines).join(""),
    figures: dimensions.map(({ figure }) => figure),
    places: { [path]: here },
  };
}

function edgeWords(name: string, { axis }: EdgePlace): string {
  return name === "floor" ? "inside floor" : axis === "z" ? `${name} edge of the panel` : `${name} edge`;
}

function cross({ x, y }: OnPaper): string {
  return el("path", { class: "centre", d: `M${x - 4} ${y}H${x + 4}M${x} ${y - 4}V${y + 4}` });
}
