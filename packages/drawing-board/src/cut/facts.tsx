import type { Units } from "@dryfit/joinery";
import type { JSX } from "preact";
import { Row, Table } from "../tables/table.tsx";
import { type CutProgram, isShaped } from "./cut-program.ts";
import { lengthWords, machineText, minuteWords } from "./lengths.ts";
import type { Timeline } from "./timeline.ts";

interface FactsProps {
  readonly program: CutProgram;
  readonly timeline: Timeline;
  readonly tabs: number;
  readonly units: Units;
}

/** What one looks for in a program's head, read off its text. */
export function Facts({ program, timeline, tabs, units }: FactsProps): JSX.Element {
  const { read, corner, cutters, minutes, thickness, zZero, tooling } = program;
  const { stated, extents, deepest, blocks } = read.facts;
  const range = (axis: "x" | "y" | "z"): string =>
    extents ? `${machineText(extents.min[axis], units)} to ${machineText(extents.max[axis], units)}` : "none";
  const depth = deepest === null ? 0 : tooling.depthOf(deepest);
  return (
    <Table title={program.file}>
      <Row label="cuts">{program.place}</Row>
      <Row label="units">{stated.units === null ? "not stated" : UNIT_WORDS[stated.units]}</Row>
      <Row label="zero">
        {corner.every((mm) => mm === 0) ? "X and Y at the sheet's lower left corner" : "X and Y as marked"}, Z
        on {zZero === "bed" ? "the bed" : "the sheet's top"}
      </Row>
      <Row label="extents">
        <span class="pair">X {range("x")}</span> <span class="pair">Y {range("y")}</span>{" "}
        <span class="pair">Z {range("z")}</span>
      </Row>
      <Row label="deepest cut">
        {deepest === null
          ? "none"
          : `Z ${machineText(deepest, units)}, ${depth > thickness ? `${lengthWords(depth - thickness, units)} into the bed` : `${lengthWords(depth, units)} of ${lengthWords(thickness, units)}`}`}
      </Row>
      <Row label="cutter">
        {cutters.map(({ kind, diameter }) => `${lengthWords(diameter, units)} ${kind}`).join(", ")}
        {cutters.some(isShaped) && "; what a shaped cutter takes off an edge is not drawn"}
      </Row>
      <Row label="time">
        {minutes === null
          ? `${minuteWords(timeline.seconds / 60)} at its own feeds, without speeding up and slowing down`
          : minuteWords(minutes)}
      </Row>
      <Row label="blocks">
        {blocks.toLocaleString("en-US")} lines with words{tabs > 0 ? `, ${tabs} tabs` : ""}
      </Row>
    </Table>
  );
}

const UNIT_WORDS = { mm: "mm (G21)", inch: "inches (G20)" } as const;
