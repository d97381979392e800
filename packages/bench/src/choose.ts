import type { Finding } from "@dryfit/joinery";
import { type BenchFindingCode, finding } from "./findings.ts";
import { cornerRelief, guideOffset, leftInCorner } from "./guide.ts";
import type { Guide, HandCutter, HandTools } from "./tools.ts";

/** What is to be cut inside a template. mm. */
export interface Wanted {
  /** The design's path or the part and feature, for the finding. */
  readonly path: string;
  /** "The housing of cheek-left". */
  readonly what: string;
  readonly depth: number;
  readonly narrowest: number;
  /** The tightest inside corner; Infinity where there is none. */
  readonly corner: number;
}

/** A cutter, and the bush or bearing that guides it. */
export interface Fit {
  readonly cutter: HandCutter;
  readonly guide: Guide;
  /** From the template's edge to the cut, mm. */
  readonly offset: number;
}

interface Obstacle {
  readonly code: BenchFindingCode;
  readonly sentence: string;
  readonly numbers: Readonly<Record<string, number>>;
  readonly wayOut: string;
}

/**
 * The best cutter and guide for a cut inside a template, or why each pair that is owned cannot make it.
 *
 * The widest cutter is the stiffest; among its guides the smallest offset errs least, and a bush comes before a
 * bearing, which a chip lifts off the template.
 */
export function chooseInside(wanted: Wanted, tools: HandTools): Fit | readonly Finding[] {
  const pairs = pairsOf(tools);
  const tried = pairs.map((fit) => ({ fit, obstacles: obstaclesTo(wanted, fit, tools) }));
  const able = tried.filter(({ obstacles }) => obstacles.length === 0).map(({ fit }) => fit);
  if (able.length > 0) return able.sort(better)[0]!;
  if (pairs.length === 0)
    return [
      finding(
        "no_guide",
        "error",
        wanted.path,
        `${wanted.what} needs a straight cutter with a guide bush or a bearing on its shank; there is none.`,
        {},
        "Add a bush or bearing to the tools.",
      ),
    ];
  return grouped(
    wanted,
    tried.flatMap(({ obstacles }) => obstacles.slice(0, 1)),
  );
}

/** All pairs of a straight cutter with a bush, or with a bearing of its own at one of these places. */
export function pairsOf(tools: HandTools, places: readonly ("tip" | "shank")[] = ["shank"]): Fit[] {
  return tools.cutters
    .filter(({ kind }) => kind === "straight")
    .flatMap((cutter) => {
      const guides: readonly Guide[] = [
        ...tools.bushes.map((bush): Guide => ({ kind: "bush", ...bush })),
        ...cutter.bearings
          .filter(({ at }) => places.includes(at))
          .map((bearing): Guide => ({ kind: "bearing", ...bearing })),
      ];
      return guides.map((guide) => ({
        cutter,
        guide,
        offset: guideOffset({ guide: guide.diameter, cutter: cutter.diameter }),
      }));
    });
}

function better(a: Fit, b: Fit): number {
  const bush = (fit: Fit): number => (fit.guide.kind === "bush" ? 0 : 1);
  return (
    b.cutter.diameter - a.cutter.diameter ||
    bush(a) - bush(b) ||
    Math.abs(a.offset) - Math.abs(b.offset) ||
    (a.cutter.id < b.cutter.id ? -1 : 1)
  );
}

/** What stands in the way of a pair, the plainest first. */
export function obstaclesTo(wanted: Wanted, fit: Fit, { template }: HandTools): readonly Obstacle[] {
  const { cutter, guide } = fit;
  const pair = `${cutter.id} with ${guideWords(guide)}`;
  const belowPart = guide.kind === "bearing" && guide.at === "tip";
  const through = wanted.depth + (belowPart ? 0 : template.thickness);
  const found: (Obstacle | false)[] = [
    guide.kind === "bush" &&
      guide.diameter - cutter.diameter < 2 * BUSH_WALL_MM && {
        code: "bush_small",
        sentence: `${pair}: a bush ${mm(guide.diameter)} outside has no room for a cutter of ${mm(cutter.diameter)}.`,
        numbers: { bush: guide.diameter, cutter: cutter.diameter },
        wayOut: "Take a larger bush or a smaller cutter.",
      },
    guide.kind === "bush" &&
      guide.projection >= template.thickness && {
        code: "bush_long",
        sentence: `${pair}: the bush stands ${mm(guide.projection)} out of the base, the template is ${mm(template.thickness)} thick.`,
        numbers: { projection: guide.projection, template: template.thickness },
        wayOut: "Take a thicker template, or file the bush shorter.",
      },
    cutter.diameter > wanted.narrowest + SAME_WIDTH_MM && {
      code: "cutter_wide",
      sentence: `${pair}: ${mm(cutter.diameter)} wide, the cut is ${mm(wanted.narrowest)} at its narrowest.`,
      numbers: { cutter: cutter.diameter, narrowest: wanted.narrowest },
      wayOut: `Take a cutter of ${mm(wanted.narrowest)} or less.`,
    },
    cutter.diameter / 2 > wanted.corner + SAME_WIDTH_MM && {
      code: "corner_tight",
      sentence: `${pair}: leaves a radius of ${mm(cutter.diameter / 2)} in corners of ${mm(wanted.corner)}; the template would need ${mm(wanted.corner + fit.offset)} and its guide turns in no less than ${mm(guide.diameter / 2)}.`,
      numbers: {
        cutter: cutter.diameter,
        corner: wanted.corner,
        least: guide.diameter / 2,
        left: leftInCorner(cutter.diameter / 2) - leftInCorner(wanted.corner),
      },
      wayOut: `Take a cutter of ${mm(2 * wanted.corner)} or less, or draw the corner for this one: cutter: ${mm(cutter.diameter)} in the design, or the opening's own corner. What has to be square is squared with a chisel; a hole of ${mm(cutter.diameter)} drilled ${mm(cornerRelief(cutter.diameter / 2).x)} from both walls opens it first.`,
    },
    (cutter.cuttingLength < wanted.depth || cutter.reach < through) && {
      code: "cutter_short",
      sentence: `${pair}: cuts ${mm(cutter.cuttingLength)} and reaches ${mm(cutter.reach)} below the base; ${mm(wanted.depth)} deep${belowPart ? "" : ` through a template of ${mm(template.thickness)}`} takes ${mm(through)}.`,
      numbers: { cuttingLength: cutter.cuttingLength, reach: cutter.reach, needed: through },
      wayOut: "Take a longer cutter or a thinner template.",
    },
    guide.kind === "bearing" &&
      !belowPart &&
      cutter.cuttingLength - Math.min(wanted.depth, cutter.depthPerPass) >
        template.thickness - BEARING_SEAT_MM && {
        code: "bearing_off_template",
        sentence: `${pair}: with the first pass ${mm(Math.min(wanted.depth, cutter.depthPerPass))} deep the bearing, ${mm(cutter.cuttingLength)} above the tip, runs over the template of ${mm(template.thickness)}.`,
        numbers: { cuttingLength: cutter.cuttingLength, template: template.thickness },
        wayOut: "Take a shorter cutter or a thicker template.",
      },
  ];
  return found.filter((o) => o !== false);
}

/** One finding per kind of obstacle; each pair is told. */
function grouped(wanted: Wanted, obstacles: readonly Obstacle[]): readonly Finding[] {
  const codes = [...new Set(obstacles.map(({ code }) => code))];
  return codes.map((code) => {
    const same = obstacles.filter((o) => o.code === code);
    const first = same[0]!;
    const told = same.slice(0, 4).map(({ sentence }) => sentence);
    const rest = same.length > 4 ? ` So do ${same.length - 4} other pairs.` : "";
    return finding(
      code,
      "error",
      wanted.path,
      `${wanted.what} cannot be cut. ${told.join(" ")}${rest}`,
      first.numbers,
      first.wayOut,
    );
  });
}

export function guideWords(guide: Guide): string {
  return guide.kind === "bush"
    ? `${guide.id} (${mm(guide.diameter)} outside)`
    : `its ${guide.at} bearing of ${mm(guide.diameter)}`;
}

/** A bush's own wall with the air inside it, mm: common practice, no source. */
const BUSH_WALL_MM = 1;

/** Two callipers differ by as much; a cutter so little wider counts as of the same width. */
const SAME_WIDTH_MM = 0.02;

/** A bearing needs so much template to run on, mm: common practice, no source. */
const BEARING_SEAT_MM = 2;

function mm(length: number): string {
  return `${Number(length.toFixed(2))} mm`;
}
