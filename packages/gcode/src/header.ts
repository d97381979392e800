import type { Part } from "@dryfit/joinery";
import { cutterText } from "./cutter-text.ts";
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
    "",
    ...zeroLines(job),
    ...extentLines(facts.extents, facts.deepest, job),
    ...cutterLines(job),
    `Time: about ${minutesText(facts.minutes)}, without your own at pauses.`,
    "",
    ...checkLines(job, facts.extents),
    "",
  ].map((text) => comment(text === "" ? "-" : text));
}

function titleLines({ name, sheet, setup, place, parts, operations }: ProgramJob): readonly string[] {
  const cut = new Set(operations.map(({ part }) => part));
  const list = parts.filter(({ id }) => cut.has(id)).map(({ title }) => title);
  const of = place.count === 1 ? "the only program" : `program ${place.number} of ${place.count}`;
  return [
    `${name}: ${sheet.id}, face ${setup} up, ${of} of this setup`,
    list.length === 0 ? "Cuts: holes in the sheet only." : `Cuts: ${list.join(", ")}.`,
  ];
}

function zeroLines({ machine, sheet, setup, flip, thickness }: ProgramJob): readonly string[] {
  const [x, y] = sheet.stock.size;
  const turned =
    setup === "A"
      ? []
      : [
          flip === null
            ? "Sheet turned over."
            : `Sheet turned over about the line ${flip.axis === "y" ? "X" : "Y"} = ${mm(flip.at)} of face A.`,
        ];
  const zero = machine.zZero === "bed" ? "Z0: the bed, under the sheet." : "Z0: the sheet's upper face.";
  const range =
    thickness.min === thickness.max ? "" : `, measured ${mm(thickness.min)} to ${mm(thickness.max)}`;
  return [
    `Sheet: ${x} x ${y} mm, ${mm(thickness.mean)} thick${range}.`,
    ...turned,
    "Units: mm and mm/min. X0 Y0: lower left corner of the sheet as it lies.",
    zero,
  ];
}

function extentLines(
  { x, y, z }: Extents,
  deepest: number,
  { machine, thickness }: ProgramJob,
): readonly string[] {
  const span = ([low, high]: readonly [number, number]): string => `${low.toFixed(2)} to ${high.toFixed(2)}`;
  const under = machine.zZero === "bed" ? -deepest : -deepest - thickness.mean;
  const meaning = under > 0 ? `${mm(under)} into the bed` : `${mm(-under)} of wood left`;
  return [
    `Cutter's middle: X ${span(x)}, Y ${span(y)}, Z ${span(z)}.`,
    `Deepest cut: Z ${deepest.toFixed(2)}, ${meaning}.`,
  ];
}

function cutterLines({ tools, thickness, machine }: ProgramJob): readonly string[] {
  return tools.map(({ cutter, rpm }) => {
    const reach = Math.min(thickness.max + machine.bedAllowance, cutter.fluteLength);
    return `With ${cutterText(cutter)}, at ${rpm} rpm, ${mm(reach)} or more out of the collet.`;
  });
}

function checkLines({ machine, setup }: ProgramJob, { x, y }: Extents): readonly string[] {
  return [
    "Before you start:",
    "- the cutter is the one named, sharp and tight",
    `- the sheet lies flat and is fixed, nothing stands within X ${x[0].toFixed(0)} to ${x[1].toFixed(0)}, Y ${y[0].toFixed(0)} to ${y[1].toFixed(0)}, nor is a screw in the cutter's way`,
    ...(setup === "B" ? ["- the pins hold the sheet where setup A drilled for them"] : []),
    `- X, Y and Z zero are set as said above, Z with this cutter; rapids run ${mm(machine.safeHeight)} over the sheet`,
    "- extraction runs; ears, eyes and lungs are covered",
  ];
}

function minutesText(minutes: number): string {
  return minutes < 1 ? "1 minute" : `${Math.ceil(minutes)} minutes`;
}
