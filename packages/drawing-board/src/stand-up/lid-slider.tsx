import type { Units } from "@dryfit/joinery";
import type { Swing } from "@dryfit/verify";
import type { JSX } from "preact";
import { useMemo } from "preact/hooks";
import { gapText, unitWord, volumeText } from "./joint-figure.ts";
import type { Air, LidAir } from "./swing-air.ts";

/** Opens the raised level, and says how near it comes to what. */
export function LidSlider({
  air,
  swing,
  most,
  deg,
  titleOf,
  units,
  onTurn,
}: {
  readonly air: LidAir;
  readonly swing: Swing;
  readonly most: number;
  readonly deg: number;
  readonly titleOf: (part: string) => string;
  readonly units: Units;
  readonly onTurn: (deg: number) => void;
}): JSX.Element {
  const here = useMemo(() => air.at(deg), [air, deg]);
  const named = (part: string): string =>
    `${/\d$/.test(titleOf(part)) ? "" : "the "}${titleOf(part).toLowerCase()}`;
  const words = (found: Air | null): string =>
    found === null
      ? "nothing stands near it"
      : found.mm < TOUCHES_MM
        ? `it ${deg === 0 ? "rests on" : "touches"} ${named(found.part)}`
        : `least air ${gapText(found.mm, units)} ${unitWord(units)}, beside ${named(found.part)}`;
  const binds = swing.bindsAtDeg;
  return (
    <div class="lid">
      <label class="slider">
        lid
        <input
          type="range"
          min={0}
          max={most}
          step={1}
          value={deg}
          aria-valuetext={`open ${deg}°, ${words(here)}`}
          onInput={(event) => onTurn(Number(event.currentTarget.value))}
        />
      </label>
      <p class="lid-words">
        {deg === 0 ? "Lid closed" : `Lid open ${deg}°`}: {words(here)}.
      </p>
      {binds === null ? (
        <p>It opens to {most}° and meets nothing on the way.</p>
      ) : (
        <p class="clash-words">
          It binds at {binds}°
          {swing.overlap &&
            `: ${volumeText(swing.overlap.volume, units)} of wood in wood, crossed on the drawing`}
          .
        </p>
      )}
    </div>
  );
}

/** Less air than this is none on the bench, mm. */
const TOUCHES_MM = 0.005;
