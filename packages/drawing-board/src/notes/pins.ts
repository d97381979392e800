import type { OnPaper } from "@dryfit/drawing";
import type { ViewSpec } from "../case/view-spec.ts";
import type { Note } from "./notes-of.ts";

/** A balloon on a view: where it points, and where it hangs. mm of paper. */
export interface Pin {
  readonly note: Note;
  readonly to: OnPaper;
  readonly at: OnPaper;
}

/** The balloons of each view, by its id. A note whose place is on no view stands in the list alone. */
export function pinsOn(
  views: readonly ViewSpec[],
  notes: readonly Note[],
): ReadonlyMap<string, readonly Pin[]> {
  const pins = new Map<string, Pin[]>(views.map(({ id }) => [id, []]));
  for (const note of notes) {
    const best = views
      .map((view) => ({ view, found: placeOn(view, note.path) }))
      .filter(({ found }) => found !== null)
      .sort((a, b) => b.found!.closeness - a.found!.closeness)[0];
    if (!best) continue;
    const here = pins.get(best.view.id)!;
    const to = best.found!.at;
    const taken = here.filter((pin) => Math.hypot(pin.to.x - to.x, pin.to.y - to.y) < 12).length;
    here.push({ note, to, at: hung(to, best.view, taken) });
  }
  return pins;
}

/** Above its place and outwards, inside the paper; the next at the same place beside it. */
function hung(to: OnPaper, { size }: ViewSpec, taken: number): OnPaper {
  const way = to.x > size.width / 2 ? 1 : -1;
  const x = to.x + way * (9 + 8 * taken);
  return { x: Math.min(size.width - 4, Math.max(4, x)), y: Math.max(4, to.y - 12) };
}

function placeOn(view: ViewSpec, path: string): { readonly at: OnPaper; readonly closeness: number } | null {
  if (path === "") return null;
  const named = [
    ...view.figures.flatMap((figure) =>
      figure.kind === "driving" ? [[figure.path, figure.at] as const] : [],
    ),
    ...Object.entries(view.places),
  ];
  const exact = named.find(([name]) => name === path);
  if (exact) return { at: exact[1], closeness: 1000 };
  const above = named
    .filter(([name]) => path.startsWith(`${name}.`) || path.startsWith(`${name}[`))
    .sort((a, b) => b[0].length - a[0].length)[0];
  if (above) return { at: above[1], closeness: 500 + above[0].length };
  const below = named.find(([name]) => name.startsWith(`${path}.`));
  return below ? { at: below[1], closeness: 100 } : null;
}
