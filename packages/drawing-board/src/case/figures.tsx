import { without, withValue, writtenAt } from "@dryfit/joinery";
import type { JSX } from "preact";
import { memo } from "preact/compat";
import { ChoiceField } from "../figures/choice-field.tsx";
import { FigureField } from "../figures/figure-field.tsx";
import { TextField } from "../figures/text-field.tsx";
import { sameDesign, workOf } from "../state/board-state.ts";
import type { SheetProps } from "../state/sheet-props.ts";
import { Act } from "../tables/act.tsx";
import { inFile } from "../tables/in-file.ts";
import { Row, Table } from "../tables/table.tsx";
import { EdgeSchedule } from "./edge-schedule.tsx";
import { OpeningSchedule } from "./opening-schedule.tsx";
import type { Measure } from "./view-spec.ts";

/** Driving values that have no line of their own on the drawing, in tables beside it. They change with the design alone. */
export const Figures: (props: SheetProps) => JSX.Element | null = memo(Tables, (before, after) =>
  sameDesign(before.board, after.board),
);

function Tables(props: SheetProps): JSX.Element | null {
  const { drawable } = props.board;
  if (!drawable) return null;
  const { design } = drawable;
  const { cheek, joint, sheet, tier } = design;
  const field = (path: string, label: string, value: number, measure: Measure = "length") => (
    <Row label={label}>
      <FigureField path={path} label={label} measure={measure} value={value} {...props} />
    </Row>
  );
  return (
    <div class="tables">
      <Table title="Cheeks">
        <Row label="Crest">
          <ChoiceField
            path="cheek.crest.form"
            label="Form of the crest"
            value={cheek.crest.form}
            choices={[
              ["straight", "straight"],
              ["arc", "arc"],
              ["batten", "batten, a bent strip"],
            ]}
            {...props}
          />
        </Row>
        {field("cheek.crest.above", "Crest over the rails", cheek.crest.above)}
        {field("cheek.overhang.front", "Cheeks stand out in front", cheek.overhang.front)}
        {field("cheek.overhang.back", "Cheeks stand out behind", cheek.overhang.back)}
      </Table>
      <Table title="Joints">
        <Row label="Rail ends">
          <ChoiceField
            path="joint.rails"
            label="Rail ends"
            value={joint.rails}
            choices={[
              ["inner", "inner tongues"],
              ["full", "full thickness"],
              ["fewest-flips", "fewest flips"],
            ]}
            {...props}
          />
        </Row>
        {field("joint.piece", "Shortest piece of tongue", joint.piece)}
        {field("cutter", "Cutter that corners are drawn for", design.cutter)}
      </Table>
      <Table title="Sheet">
        <Row label="Material">
          <TextField path="sheet.name" label="Material" value={sheet.name} {...props} />
        </Row>
        {sheet.readings.length > 1 &&
          sheet.readings.map((reading, i) =>
            field(`sheet.thickness[${i}]`, `Caliper reading ${i + 1}`, reading),
          )}
        {sheet.sizes.map((size, i) => {
          const path = sizePath(props, i);
          return (
            <Row key={size.id} label={sheet.sizes.length > 1 ? `Sheet ${size.id}` : "Sheet size"}>
              <FigureField
                path={`${path}[0]`}
                label={`Sheet ${i + 1}: along x`}
                measure="length"
                value={size.size[0]}
                {...props}
              />
              {" × "}
              <FigureField
                path={`${path}[1]`}
                label={`Sheet ${i + 1}: along y`}
                measure="length"
                value={size.size[1]}
                {...props}
              />
            </Row>
          );
        })}
        {field("sheet.margin", "Free edge of the sheet", sheet.margin)}
        {field("sheet.web", "Least wood between two cuts", sheet.web)}
      </Table>
      <Table title="Tier">
        {tier ? (
          <>
            {field("tier.swing", "Swings up by", tier.swing, "angle")}
            {field("tier.clearance", "Air at the slats' ends", tier.clearance)}
            {field("tier.pin", "Hinge pin off its faces", tier.pin)}
            {field("tier.bearers.count", "Bearers", tier.bearers.count, "count")}
            {field("tier.bearers.inset", "Outer bearers from the cheeks", tier.bearers.inset)}
            {field("tier.bearers.air", "Air under the bearers", tier.bearers.air)}
            {field("tier.screw", "Screw holes", tier.screw)}
            <Row label="">
              <Act {...props} words="take the tier out" next={(text) => without(text, "tier")} />
            </Row>
          </>
        ) : (
          <Row label="The case has one level.">
            <Act
              {...props}
              words="put a tier in"
              next={(text) =>
                ["slats", "slat"].reduce<string | null>(
                  (now, key) => now && withValue(now, `tier.${key}`, key === "slats" ? 2 : inFile(props, 50)),
                  text,
                )
              }
            />
          </Row>
        )}
      </Table>
      <OpeningSchedule {...props} />
      <EdgeSchedule {...props} />
    </div>
  );
}

/** A sheet's size stands alone as a pair, or in a group with more to say. */
function sizePath({ board }: SheetProps, i: number): string {
  const { text } = workOf(board);
  const pair = `sheet.sizes[${i}]`;
  // Most files name no size at all, and need not be read once more for this.
  if (!/\bsize["']?\s*:/.test(text)) return pair;
  const inGroup = writtenAt(text, `${pair}.size[0]`);
  return inGroup === null || inGroup === undefined ? pair : `${pair}.size`;
}
