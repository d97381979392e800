import { cutterText } from "./cutter-text.ts";
import { travelHeight } from "./keep-outs.ts";
import { comment, type Line } from "./lines.ts";
import type { Extents, Program } from "./program.ts";
import { mm } from "./sum.ts";
import type { ProgramJob } from "./write-program.ts";

/** What an operator reads before pressing start: what it cuts, where zero is, how far it goes, what to check. */
export function headerOf(
  job: ProgramJob,
  facts: Pick<Program, "extents" | "deepest" | "minutes">,
): readonly Line[] {
  return [
    ...titleLines(job),
    ...sheetLines(job),
    ...job.tools.map((tool) => cutterLine(tool, job)),
    ...extentLines(facts.extents, facts.deepest, job),
    `Takes about ${timeText(facts.minutes)}${job.tools.length > 1 ? ", cutter changes not counted" : ""}.`,
    ...holdLines(job),
    ...pinLines(job),
    job.next,
    ...checkLines(job),
  ].map(comment);
}

function titleLines({ name, sheet, setup, which, parts, operations }: ProgramJob): readonly string[] {
  const cut = new Set(operations.map(({ part }) => part));
  const list = parts.filter(({ id }) => cut.has(id)).map(({ title }) => title);
  return [
    `${name}: ${sheet.id}, face ${setup} up, ${which}.`,
    list.length === 0 ? "Cuts: nothing but holes in waste." : `Cuts: ${list.join(", ")}.`,
  ];
}

function sheetLines({ machine, sheet, setup, flip, thickness }: ProgramJob): readonly string[] {
  const [x, y] = sheet.stock.size;
  const spread =
    thickness.min === thickness.max ? "" : `, measured ${mm(thickness.min)} to ${mm(thickness.max)}`;
  const turned =
    flip === null
      ? "Sheet turned over."
      : `Sheet turned over like a page about ${flip.axis === "y" ? "X" : "Y"} ${mm(flip.at)}: ${flip.axis === "y" ? "left and right change places" : "front and back change places"}.`;
  const zero = machine.zZero === "bed" ? "on the bed, where the sheet lies" : "on the sheet's upper face";
  return [
    `Sheet: ${x} x ${y} mm, ${mm(thickness.mean)} thick${spread}.`,
    ...(setup === "B" ? [turned] : []),
    `Zero: X0 Y0 at the sheet's lower left corner as it lies, Z0 ${zero}. Units mm, feeds mm/min.`,
  ];
}

function cutterLine(
  { cutter, rpm }: ProgramJob["tools"][number],
  { thickness, machine }: ProgramJob,
): string {
  const reach = Math.min(thickness.max + machine.bedAllowance, cutter.fluteLength);
  return `${capital(cutterText(cutter))}, ${rpm} rpm, at least ${mm(reach)} out of the collet.`;
}

function extentLines(
  { x, y, z }: Extents,
  deepest: number,
  { machine, thickness }: ProgramJob,
): readonly string[] {
  const span = ([low, high]: readonly [number, number]): string => `${low.toFixed(2)} to ${high.toFixed(2)}`;
  const left = machine.zZero === "bed" ? deepest : deepest + thickness.mean;
  const below =
    left < 0 ? `${mm(-left)} into the bed` : left > 0 ? `${mm(left)} over the bed` : "just through";
  return [
    `Cuts within X ${span(x)}, Y ${span(y)}, Z ${span(z)}, by the cutter's middle.`,
    `Deepest cut: Z ${deepest.toFixed(2)}, ${below}.`,
  ];
}

/** What still holds the parts when it is done. */
function holdLines({ operations }: ProgramJob): readonly string[] {
  const tabs = operations.flatMap((operation) => operation.tabs);
  const skin = operations.find((operation) => operation.skin !== undefined)?.skin;
  const height = Math.max(...tabs.map((tab) => tab.height));
  return [
    ...(tabs.length === 0
      ? []
      : [`${tabs.length} tabs, ${mm(height)} high, hold the parts afterwards: saw through them.`]),
    ...(skin === undefined
      ? []
      : [`A skin of ${mm(skin)} holds the parts afterwards: cut through it with a knife.`]),
  ];
}

/** Holes for pins go into whatever lies under the sheet. */
function pinLines({ operations, flip }: ProgramJob): readonly string[] {
  const depth = flip?.pins?.depth ?? 0;
  if (depth <= 0 || !operations.some(({ id }) => id.startsWith("pin-"))) return [];
  return [`Holes for pins go ${mm(depth)} into the board under the sheet: it must be thicker than that.`];
}

function checkLines({ machine, sheet, setup, tools }: ProgramJob): readonly string[] {
  const over = travelHeight(machine, sheet);
  const rapids =
    over > machine.safeHeight
      ? `Rapids run ${mm(machine.safeHeight)} over the sheet, ${mm(over)} over what must be kept clear of.`
      : `Rapids run ${mm(over)} over the sheet.`;
  const cutter = tools.length > 1 ? "The cutters named are at hand" : "The cutter named is in";
  return [
    "Before you start:",
    `1. ${cutter}, sharp and tight.`,
    `2. The sheet lies flat and is held down${setup === "B" ? ", on its pins" : ""}, and no clamp or screw stands within that X and Y.`,
    `3. Zero is where this says. ${rapids}`,
    "4. Dust is drawn off. Eyes, ears and lungs are covered.",
  ];
}

/** As exact as an estimate is: seconds, tenths of a minute, minutes. */
function timeText(minutes: number): string {
  if (minutes < 1) return `${Math.max(1, Math.round(minutes * 60))} seconds`;
  return `${minutes.toFixed(minutes < 10 ? 1 : 0)} minutes`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
