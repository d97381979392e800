import { CUT_MM, contains, type Point, type Region, type Segment, segments } from "@dryfit/geometry";
import type { Finding } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import { gapBetween } from "../cut/gap.ts";
import { boxOfSegment, grown, touch } from "../cut/grid.ts";
import { type Stroke, strokesOf, type Turnover } from "../cut/stroke.ts";
import type { CutterFacts } from "../proof.ts";
import { type Fault, firstOfEach } from "./first-of-each.ts";
import type { Run } from "./on-machine.ts";

/** Whether a program stays off what stands on the sheet, rapids and cuts alike: clamps, screws, knots. */
export function checkKeepOuts(run: Run, sheet: Sheet, flip: Turnover | undefined): Finding[] {
  const { keepOuts } = sheet.stock;
  if (keepOuts.length === 0) return [];
  return firstOfEach(run.program.file, faultsOf(run, sheet, keepOuts.map(zoneOf), flip));
}

interface Zone {
  readonly region: Region<"sheet">;
  readonly sides: readonly Segment<"sheet">[];
}

const zoneOf = (region: Region<"sheet">): Zone => ({ region, sides: segments(region.outer) });

function* faultsOf(
  run: Run,
  sheet: Sheet,
  zones: readonly Zone[],
  flip: Turnover | undefined,
): Iterable<Fault> {
  const { program, read, machine, cutterOf } = run;
  const most = machine.keepOutHeight ?? Number.POSITIVE_INFINITY;
  const first = firstSideways(program.text);
  // A rapid takes up as much room as a cut.
  const moving = read.motions.map((motion) => ({ ...motion, kind: "feed" as const }));
  for (const stroke of strokesOf(program, moving, cutterOf, flip)) {
    const over = Math.min(...stroke.z) - (program.zZero === "bed" ? run.thickness.max : 0);
    if (over >= most) continue;
    const where = `${mm(Math.abs(over))} ${over < 0 ? "under" : "over"} the face`;
    if (stroke.line === first)
      yield {
        code: "enters_keep_out",
        line: stroke.line,
        message: `The first way sideways, from nobody knows where, runs ${where}; what stands on ${sheet.id} is ${mm(most)} high.`,
        numbers: { over, height: most },
        wayOut: WAY_OUT,
      };
    for (const [k, zone] of zones.entries()) {
      const gap = roomBetween(stroke, zone);
      const reach = reachOf(stroke.cutter, over, most);
      if (gap.distance >= reach - CUT_MM) continue;
      const { x, y } = gap.at;
      yield {
        code: "enters_keep_out",
        line: stroke.line,
        message: `The cutter comes ${mm(reach - gap.distance)} into keep-out ${k + 1} of ${sheet.id} at (${x.toFixed(1)}, ${y.toFixed(1)}), ${where}.`,
        numbers: { into: reach - gap.distance, keepOut: k + 1, x, y, over },
        wayOut: WAY_OUT,
      };
    }
  }
}

const WAY_OUT = "Lift the cutter over what stands there, go round it, or move it.";

/** How wide the cutter and all above it are at its lowest where something `most` high stands, half of it, mm. */
function reachOf({ diameter, shankDiameter, holder }: CutterFacts, over: number, most: number): number {
  const nut = holder && over + holder.stickOut < most ? holder.diameter : 0;
  return Math.max(diameter, shankDiameter, nut) / 2;
}

/** Farther than anything on a spindle reaches, mm. */
const FAR_MM = 150;

function roomBetween({ path }: Stroke, { region, sides }: Zone): { distance: number; at: Point<"sheet"> } {
  const around = grown(boxOfSegment(path), FAR_MM);
  let best = { distance: Number.POSITIVE_INFINITY, at: path.from };
  if (!sides.some((side) => touch(around, boxOfSegment(side)))) return best;
  if (contains(region, path.from) !== "outside") return { distance: 0, at: path.from };
  for (const side of sides) {
    const gap = gapBetween(path, side);
    if (gap.distance < best.distance) best = gap;
  }
  return best;
}

/** The line on which the program first goes sideways: a reader takes it for standing there already. */
function firstSideways(text: string): number {
  return (
    text
      .split("\n")
      .findIndex((line) => /[XY]/i.test(line.replace(/\([^)]*\)|;.*/g, "").replace(/^%.*/, ""))) + 1
  );
}

const mm = (value: number) => `${Number(value.toFixed(3))} mm`;
