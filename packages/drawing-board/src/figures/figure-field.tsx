import type { JSX } from "preact";
import { memo } from "preact/compat";
import type { Measure } from "../case/view-spec.ts";
import type { SheetProps } from "../state/sheet-props.ts";
import { typeIn } from "../state/type-in.ts";
import { FigureInput } from "./figure-input.tsx";

interface FieldProps extends SheetProps {
  readonly path: string;
  readonly label: string;
  readonly measure: Measure;
  readonly value: number;
}

/** A driving figure of the design. There are dozens on the drawing: one that says the same is left as it is. */
export const FigureField: (props: FieldProps) => JSX.Element = memo(
  (props: FieldProps): JSX.Element => {
    const { path, measure, value } = props;
    return <FigureInput {...props} typeIn={(text, now) => typeIn(now, path, measure, text, value)} />;
  },
  (before, after) =>
    before.path === after.path &&
    before.label === after.label &&
    before.measure === after.measure &&
    before.value === after.value &&
    before.set === after.set &&
    before.board.units === after.board.units,
);
