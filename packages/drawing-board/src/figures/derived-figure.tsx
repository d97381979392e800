import type { Explanation, Units } from "@dryfit/joinery";
import type { JSX } from "preact";
import { exactText, figureText } from "./figure-text.ts";

/** A figure that follows from others, in brackets. Hovered or reached by keyboard it shows its sum. */
export function DerivedFigure({
  explanation,
  units,
}: {
  readonly explanation: Explanation;
  readonly units: Units;
}): JSX.Element {
  const { id, what, names, figures, value, unit } = explanation;
  const measure = unit === "°" ? "angle" : "length";
  const tip = `sum-${id.replaceAll(".", "-")}`;
  return (
    <span class="derived-figure">
      <button type="button" class="derived" aria-label={`${what}, derived`} aria-describedby={tip}>
        ({figureText(value, measure, units)})
      </button>
      <span class="sum" id={tip} role="tooltip">
        <b>{what}</b>
        <span>= {names}</span>
        <span>
          = {figures} = {exactText(value, measure, "mm")} {unit}
        </span>
      </span>
    </span>
  );
}
