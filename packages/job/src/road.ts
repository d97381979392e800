import {
  type Cutter,
  cuttingData,
  edgeRoom,
  type Flip,
  handEdges,
  isShaped,
  type Known,
  type Machine,
  type PlanJob,
  type Program,
  pinLands,
  planSheet,
  type rehearse,
  type SetupPlan,
  type SheetPlan,
  writePrograms,
} from "@dryfit/gcode";
import { areaOf } from "@dryfit/geometry";
import type { Assembly, Design, Finding, Part } from "@dryfit/joinery";
import {
  type Budget,
  checkLayout,
  type Layout,
  type Nested,
  type NestJob,
  nest,
  nestWithin,
  type Sheet,
  type Stock,
  stepBudget,
} from "@dryfit/nest";
import { withClamps } from "./clamps.ts";
import { withFewestFlips } from "./fewest-flips.ts";
import { locksOf, toldOfLocks } from "./locks.ts";
import { assemblyOf, stocksFor, type Work } from "./work.ts";

/** Called as each stage of the road begins, so that a terminal can say where it is and a bench can time it. */
export type OnStage = (stage: string) => void;

/** How long parts are laid on sheets: for so many steps, which gives the same everywhere, or as long as one will wait. */
export interface Nesting {
  readonly steps?: number;
  readonly within?: Budget;
}

/** What else there is to say of a journey. */
export interface RoadOptions {
  readonly work?: Work;
  readonly nesting?: Nesting;
  /** Parts that are cut another way than the machine file says. */
  readonly directions?: PlanJob["directions"];
  /** Cutters too wide for the corners as drawn, which may rough a recess all the same. */
  readonly roughers?: readonly Cutter[];
  /** Of the texts that it starts from: stands in every program. */
  readonly revision?: string;
}

/** Rehearses the cuts while the parts are laid on sheets. */
type RehearsedBeside = (...input: Parameters<typeof rehearse>) => Promise<Known>;

/** As much of a program as a folder tells of it. */
export type WrittenProgram = Pick<
  Program,
  | "file"
  | "text"
  | "sheet"
  | "setup"
  | "zZero"
  | "cutters"
  | "minutes"
  | "tabs"
  | "corners"
  | "edges"
  | "cleared"
  | "skin"
>;

/** What a design comes to before it is proved. */
export interface Road {
  readonly assembly: Assembly;
  readonly layout: Layout;
  /** Steps of the search that lay the parts like this again. */
  readonly steps: number;
  readonly flips: Readonly<Record<string, Flip>>;
  readonly plans: readonly SetupPlan[];
  readonly programs: readonly WrittenProgram[];
  readonly findings: readonly Finding[];
}

/** From a design to its programs. Stops early where a stage's findings hold an error; later parts are then empty. */
export function travel(
  design: Design,
  machine: Machine,
  drawer: readonly Cutter[],
  onStage: OnStage,
  options: RoadOptions = {},
): Road {
  return straight(legs(design, machine, drawer, onStage, options), onStage);
}

/** The same; an `onStage` that returns a promise is waited for. */
export async function travelInStages(
  design: Design,
  machine: Machine,
  drawer: readonly Cutter[],
  onStage: OnStage,
  options: LegsOptions = {},
): Promise<Road> {
  const road = legs(design, machine, drawer, onStage, options);
  let leg = road.next();
  while (!leg.done) {
    const { value } = leg;
    if (typeof value === "string") {
      await onStage(value);
      leg = road.next();
    } else leg = road.next(await value);
  }
  return leg.value;
}

/** The rest of the way, from parts that can be made. */
export function travelOn(
  assembly: Assembly,
  job: NestJob,
  machine: Machine,
  cutters: readonly Cutter[],
  onStage: OnStage,
  options: RoadOptions = {},
): Road {
  return straight(legsOn(assembly, job, machine, cutters, onStage, options), onStage);
}

/** A road that names each stage before it begins, and may wait for a rehearsal that somebody else holds. */
type Legs = Generator<string | Promise<Known>, Road, Known | undefined>;

interface LegsOptions extends RoadOptions {
  readonly rehearsedBeside?: RehearsedBeside;
}

function straight(road: Legs, onStage: OnStage): Road {
  for (;;) {
    const leg = road.next();
    if (leg.done) return leg.value;
    if (typeof leg.value === "string") onStage(leg.value);
  }
}

function* legs(
  design: Design,
  machine: Machine,
  drawer: readonly Cutter[],
  onStage: OnStage,
  options: LegsOptions,
): Legs {
  const { work = "case" } = options;
  yield "working out the parts";
  const assembly = assemblyOf(work, design);
  if (hasErrors(assembly.findings)) return { assembly, ...NOTHING, findings: assembly.findings };
  const stocks = withClamps(stocksFor(work, design, assembly), machine, assembly.parts);
  const cutters = cuttersFor(design, drawer);
  const road = yield* legsOn(
    assembly,
    nestJob(design, assembly.parts, stocks, cutters),
    machine,
    cutters,
    onStage,
    { ...options, roughers: drawer.filter((cutter) => !cutters.includes(cutter)) },
  );
  return {
    ...road,
    findings: [...toldOfLocks(road.findings, design), ...handEdges(assembly.parts, cutters)],
  };
}

function* legsOn(
  assembly: Assembly,
  job: NestJob,
  machine: Machine,
  cutters: readonly Cutter[],
  onStage: OnStage,
  { nesting = {}, revision, directions = {}, roughers = [], rehearsedBeside }: LegsOptions,
): Legs {
  const wanted = rehearsedBeside?.(assembly.parts, { cutters, roughers }, machine, WOOD, directions);
  yield "laying parts on sheets";
  const { layout: laidFirst, steps } = layParts(job, nesting, onStage);
  const first = withFewestFlips(job, laidFirst, () => stepBudget(steps));
  const firstLaid = [...first.findings, ...checkLayout(job, first)];
  if (hasErrors(firstLaid))
    return { assembly, ...NOTHING, steps, layout: first, findings: [...assembly.findings, ...firstLaid] };

  yield "planning the cuts";
  const known = (wanted && (yield wanted)) ?? new Map();
  const planOf = ({ sheets }: Layout): readonly SheetPlan[] =>
    sheets.map((sheet) =>
      planSheet({
        sheet,
        parts: assembly.parts,
        cutters,
        roughers,
        machine,
        directions,
        known,
        data: (cutter, _material, cut) => cuttingData(cutter, machine, WOOD, cut),
      }),
    );
  let [layout, sheets] = [first, planOf(first)];
  if (sheets.some(wantsPins)) {
    // Full sheets leave pins no room: laid once more with some kept for them.
    const roomy = withPinRoom(job, assembly.parts, cutters, machine);
    if (roomy !== null) {
      [layout, sheets] = [roomy, planOf(roomy)];
    }
  }
  const laid = [...assembly.findings, ...layout.findings, ...checkLayout(job, layout)];
  const flips: Record<string, Flip> = {};
  layout.sheets.forEach((sheet, i) => {
    const flip = sheets[i]!.flip;
    if (flip) flips[sheet.id] = flip;
  });
  const plans = sheets.flatMap((sheet) => sheet.setups);
  const planned = [...laid, ...sheets.flatMap((sheet) => sheet.findings)];
  if (hasErrors(planned)) return { assembly, ...NOTHING, steps, layout, flips, plans, findings: planned };

  yield "writing the programs";
  const written = writePrograms({
    name: revision === undefined ? assembly.name : titled(assembly.name, revision),
    parts: assembly.parts,
    sheets: layout.sheets,
    flips,
    plans,
    machine,
    cutters: [...cutters, ...roughers],
    wood: WOOD,
  });
  const findings = [...planned, ...written.findings];
  return { assembly, layout, steps, flips, plans, programs: written.programs, findings };
}

function layParts(job: NestJob, { within, steps = NEST_STEPS }: Nesting, onStage: OnStage): Nested {
  if (!within) return { layout: nest(job, { budget: stepBudget(steps) }), steps };
  const onProgress = (better: Nested): void =>
    onStage(
      `laying parts on sheets: ${better.layout.sheets.length} after ${better.steps} steps (Ctrl-C keeps the best so far)`,
    );
  return nestWithin(job, { within, first: steps, onProgress });
}

function wantsPins({ findings }: SheetPlan): boolean {
  return findings.some(({ code }) => code === "no_room_for_pins");
}

/** The parts laid so that every sheet keeps room for pins; null where they then find no place. */
function withPinRoom(
  job: NestJob,
  parts: readonly Part[],
  cutters: readonly Cutter[],
  machine: Machine,
): Layout | null {
  const stocks = job.stocks.map((stock) => {
    const lands = pinLands(stock, { parts, cutters, machine });
    return { ...stock, keepOuts: [...stock.keepOuts, ...lands] };
  });
  const roomy = { ...job, stocks };
  const budget = (): Budget => stepBudget(NEST_STEPS);
  const layout = withFewestFlips(roomy, nest(roomy, { budget: budget() }), budget);
  if (hasErrors(layout.findings) || layout.unplaced.length > 0) return null;
  const known = new Map(job.stocks.map((stock) => [stock.id, stock]));
  return {
    ...layout,
    sheets: layout.sheets.map((sheet) => ({ ...sheet, stock: known.get(sheet.stock.id)! })),
  };
}

/** The drawer's cutters that leave room between the parts and fit the corners as drawn, its drills and edge cutters. */
export function cuttersFor(design: Design, drawer: readonly Cutter[]): readonly Cutter[] {
  const fits = ({ diameter }: Cutter): boolean => diameter <= design.cutter + WIDTH_MM;
  return drawer.filter((cutter) => cutter.kind === "drill" || isShaped(cutter) || fits(cutter));
}

/** Least room between two parts: for the cutter and a web, and where edges are made by cutters, for these. */
function spacingFor(design: Design, parts: readonly Part[], cutters: readonly Cutter[]): number {
  const edges = parts.flatMap(({ roundOvers }) => roundOvers).filter(({ by }) => by === "cutter");
  return Math.max(design.cutter + design.sheet.web, ...edges.map((edge) => edgeRoom(edge, cutters)));
}

/** Share of the sheet that lies within the parts' outlines. */
export function yieldOf({ stock, parts: placed }: Sheet, parts: readonly Part[]): number {
  const here = new Set(placed.map(({ part }) => part));
  const used = areaOf(
    parts.filter(({ id }) => here.has(id)).map(({ outline }) => ({ outer: outline, holes: [] })),
  );
  return used / (stock.outline ? areaOf([stock.outline]) : stock.size[0] * stock.size[1]);
}

export function hasErrors(findings: readonly Finding[]): boolean {
  return findings.some((finding) => finding.severity === "error");
}

/** As programs name what they are for. */
export function titled(name: string, revision: string): string {
  return `${name}, revision ${revision}`;
}

/** What sheets are made of. */
const WOOD = "plywood";

/** What nesting may spend where nobody asks for more: a few tenths of a second, and the same layout everywhere. */
const NEST_STEPS = 2500;

/** A cutter this much wider than the design's still counts as the same: two calipers differ by as much. */
const WIDTH_MM = 0.05;

const NOTHING: Omit<Road, "assembly" | "findings"> = {
  layout: { sheets: [], unplaced: [], findings: [] },
  steps: 0,
  flips: {},
  plans: [],
  programs: [],
};

export function nestJob(
  design: Design,
  parts: readonly Part[],
  stocks: readonly Stock[],
  cutters: readonly Cutter[] = [],
): NestJob {
  return {
    parts,
    stocks,
    rules: { spacing: spacingFor(design, parts, cutters), margin: design.sheet.margin },
    seed: 1,
    locks: locksOf(design, parts),
  };
}
