import type { JSX } from "preact";
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

/** A driving figure of the design. */
export function FigureField(props: FieldProps): JSX.Element {
  const { board, path, measure, value } = props;
  return <FigureInput {...props} typeIn={(text) => typeIn(board, path, measure, text, value)} />;
}
