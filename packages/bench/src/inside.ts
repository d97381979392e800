import {
  boundsOf,
  offset,
  place,
  placement,
  placeRegion,
  point,
  type Region,
  segments,
} from "@dryfit/geometry";
import {
  type Assembly,
  type Bore,
  couponLetter,
  type Finding,
  type Opening,
  type Part,
  type Recess,
} from "@dryfit/joinery";
import { chooseInside, type Fit } from "./choose.ts";
import { beyond, narrowest, sharpWood, tightestInside } from "./corners.ts";
import { finding } from "./findings.ts";
import { guideOffset, routedInside } from "./guide.ts";
import { regionOfSlot, slotsOf } from "./slots.ts";
import type { Template } from "./template.ts";
import type { HandTools } from "./tools.ts";

/** Templates with a hole in which the router runs: housings, pockets and openings, part by part. */
export function insideTemplates(
  assembly: Assembly,
  tools: HandTools,
): { readonly templates: readonly Template[]; readonly findings: readonly Finding[] } {
  const made = [...sharingBoards(housingCuts(assembly)), ...assembly.parts.flatMap(pocketsAndOpenings)].map(
    (cut) => insideTemplate(cut, tools),
  );
  return {
    templates: made.flatMap(({ template }) => (template ? [template] : [])),
    findings: made.flatMap(({ findings }) => findings),
  };
}

/** Through cuts go so far into the board below, mm: common practice, no source. */
export const INTO_BOARD_MM = 1;

/** Holes up to here are drilled: what a common chuck holds, mm. */
const DRILLED_MM = 13;

/** The diameter where an opening is a round hole to be drilled; else null. */
export function drilledDiameter({ loop }: Opening): number | null {
  const [first, ...rest] = segments(loop);
  if (first?.kind !== "arc" || 2 * first.radius > DRILLED_MM) return null;
  const round = rest.every(
    (s) => s.kind === "arc" && Math.hypot(s.centre.x - first.centre.x, s.centre.y - first.centre.y) < 1e-3,
  );
  return round ? 2 * first.radius : null;
}

/** What one template cuts in one part, panel frame. */
interface InsideCut {
  readonly id: string;
  readonly title: string;
  readonly what: string;
  readonly part: Part;
  readonly face: "A" | "B";
  readonly finished: readonly Region<"panel">[];
  readonly depth: number;
  readonly through: boolean;
  /** Laid on the part's edges, or on centre lines drawn on it. */
  readonly laidOn: "edges" | "centre lines";
  /** Screw holes that belong to it. */
  readonly bores: readonly Bore[];
  /** A letter for each of `finished`; null where it has none. */
  readonly letters: readonly (string | null)[];
}

/**
 * A housing whose stretches meet has corners of wood that a bush would round. It is cut with two templates, one for
 * each direction.
 */
function housingCuts(assembly: Assembly): readonly InsideCut[] {
  const slots = slotsOf(assembly).filter(({ recess }) => recess.purpose === "housing");
  return assembly.parts.flatMap((part) =>
    part.features.flatMap((recess): readonly InsideCut[] => {
      if (recess.kind !== "recess" || recess.purpose !== "housing") return [];
      const whole = { ...cutOf(part, recess), laidOn: "edges" as const };
      if (sharpWood(recess.region) === 0) return [whole];
      return (["x", "y"] as const).flatMap((run) => {
        const mine = slots.filter((slot) => slot.recess === recess && slot.run === run);
        const way = run === "x" ? "level" : "upright";
        const one = {
          ...whole,
          id: `${whole.id}-${way}`,
          title: `${run === "x" ? "Level" : "Upright"} housings`,
        };
        return mine.length === 0
          ? []
          : [{ ...one, finished: mine.map(regionOfSlot), letters: mine.map(() => null) }];
      });
    }),
  );
}

/** Whole housings of one part that are as deep as each other are routed with one board: a coupon's row of them. */
function sharingBoards(cuts: readonly InsideCut[]): readonly InsideCut[] {
  const boards = new Map<string, InsideCut[]>();
  for (const cut of cuts) {
    const key = [cut.part.id, cut.face, cut.depth.toFixed(3), cut.title].join();
    boards.set(key, [...(boards.get(key) ?? []), cut]);
  }
  return [...boards.values()].map((all) => {
    const [first, ...others] = all;
    if (others.length === 0) return first!;
    const what = `Housings of ${first!.part.id}, ${Number(first!.depth.toFixed(2))} mm deep,`;
    return {
      ...first!,
      id: `${first!.part.id}-housings`,
      what,
      finished: all.flatMap(({ finished }) => finished),
      letters: all.flatMap(({ letters }) => letters),
    };
  });
}

function pocketsAndOpenings(part: Part): readonly InsideCut[] {
  const pockets = part.features.flatMap((f) =>
    f.kind === "recess" && (f.purpose === "counterbore" || f.purpose === "mortise") ? [cutOf(part, f)] : [],
  );
  const openings = part.features.filter(
    (f) => f.kind === "opening" && drilledDiameter(f) === null,
  ) as Opening[];
  const families = [...new Set(openings.map(({ id }) => familyOf(id, openings)))];
  return [
    ...pockets,
    ...families.map((family): InsideCut => {
      const mine = openings.filter(({ id }) => familyOf(id, openings) === family);
      return {
        id: `${part.id}-${family}`,
        title: `${mine[0]!.title} "${family}"`,
        what: `The opening "${family}" of ${part.id}`,
        part,
        face: "A",
        finished: mine.map(({ loop }) => ({ outer: loop, holes: [] })),
        depth: part.thickness.max + INTO_BOARD_MM,
        through: true,
        laidOn: "centre lines",
        letters: mine.map(() => null),
        bores: part.features.flatMap((f) =>
          f.kind === "bore" && f.id.startsWith(`${family}-screw-`) ? [f] : [],
        ),
      };
    }),
  ];
}

/** "vent-3" belongs to "vent", where there is one. */
function familyOf(id: string, openings: readonly Opening[]): string {
  const stem = id.replace(/-\d+$/, "");
  return openings.some((other) => other.id === stem) ? stem : id;
}

function cutOf(part: Part, recess: Recess): InsideCut {
  const kind = recess.purpose === "housing" ? "Housings" : `Pocket "${recess.id}"`;
  return {
    id: `${part.id}-${recess.id}`,
    title: kind,
    what: `The ${recess.purpose} "${recess.id}" of ${part.id}`,
    part,
    face: recess.face,
    finished: [recess.region],
    depth: recess.depth,
    through: false,
    laidOn: "centre lines",
    bores: [],
    letters: [couponLetter(recess.id)],
  };
}

function insideTemplate(
  cut: InsideCut,
  tools: HandTools,
): { readonly template: Template | null; readonly findings: readonly Finding[] } {
  const most = Math.max(...tools.cutters.map(({ diameter }) => diameter)) + 1;
  const width = Math.min(...cut.finished.map((region) => narrowest(region, most)));
  const fit = chooseInside(
    {
      path: `${cut.part.id}.${cut.id.slice(cut.part.id.length + 1)}`,
      what: cut.what,
      depth: cut.depth,
      narrowest: width,
      corner: Math.min(...cut.finished.map(tightestInside)),
    },
    tools,
  );
  if (!("cutter" in fit)) return { template: null, findings: fit };
  // A bush in a slot of its own width would bind: it gets air, and the cut may wander by half of it.
  const air = Math.max(0, tools.template.running - (width - fit.cutter.diameter)) / 2;
  return {
    template: laidOut(cut, fit, air, tools),
    findings:
      air > 0
        ? [
            finding(
              "slot_close",
              "warning",
              `${cut.part.id}.${cut.id.slice(cut.part.id.length + 1)}`,
              `${cut.what} is ${width.toFixed(2)} mm wide and the cutter ${fit.cutter.id} ${fit.cutter.diameter.toFixed(2)} mm: with the air that ${fit.guide.kind === "bush" ? "the bush" : "the bearing"} needs it may come out ${(2 * air).toFixed(2)} mm wider.`,
              { width, cutter: fit.cutter.diameter, wider: 2 * air },
              "Press the router to one wall throughout, or take a narrower cutter.",
            ),
          ]
        : [],
  };
}

/** The template in its own frame: the panel's, or one about the cut's middle where it is laid on centre lines. */
function laidOut(cut: InsideCut, fit: Fit, air: number, tools: HandTools): Template {
  const size = boundsOf(cut.part.outline).max;
  const box = boundsOf(cut.finished.map(({ outer }) => outer));
  const middle = point<"panel">((box.min.x + box.max.x) / 2, (box.min.y + box.max.y) / 2);
  const onEdges = cut.laidOn === "edges";
  const shift = placement<"template", "panel">(onEdges ? point(0, 0) : point(-middle.x, -middle.y));
  const finished = cut.finished.map((region) => placeRegion(shift, region));
  const pair = { guide: fit.guide.diameter, cutter: fit.cutter.diameter };
  const holes = offset(finished, guideOffset(pair) + air);
  const { margin } = tools.template;
  const covered = onEdges
    ? { min: point<"template">(0, 0), max: size }
    : boundsOf(holes.map(({ outer }) => outer));
  const routed = routedInside(holes, pair);
  return {
    id: cut.id,
    title: cut.title,
    kind: "inside",
    uses: [
      {
        part: cut.part.id,
        title: cut.part.title,
        face: cut.face,
        faceWords: cut.part.faceNames[cut.face],
        mirrored: false,
        middle: onEdges ? null : [middle.x, middle.y],
      },
    ],
    fit,
    air,
    finished,
    contours: holes,
    board: {
      min: point(covered.min.x - margin, covered.min.y - margin),
      max: point(covered.max.x + margin, covered.max.y + margin),
    },
    blank: onEdges ? { min: point(0, 0), max: point(size.x, size.y) } : null,
    drills: cut.bores.map(({ at, diameter }) => {
      const { x, y } = place(shift, at);
      return { at: [x, y], diameter };
    }),
    letters: cut.letters.flatMap((text, i) => {
      if (text === null) return [];
      const { min, max } = boundsOf(finished[i]!.outer);
      const away = guideOffset(pair) + air + 4;
      const level = max.x - min.x > max.y - min.y;
      const at = level
        ? ([min.x - away, (min.y + max.y) / 2 - 1.3] as const)
        : ([(min.x + max.x) / 2, min.y - away - 0.5] as const);
      return [{ at, text }];
    }),
    depth: cut.depth,
    through: cut.through,
    deviation: Math.max(0, beyond(routed, finished) - air, beyond(finished, routed)),
  };
}
