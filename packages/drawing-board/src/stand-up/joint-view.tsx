import type { Assembly, Joint, Units } from "@dryfit/joinery";
import type { CutPart, JointProof } from "@dryfit/verify";
import type { JSX } from "preact";
import { useMemo, useRef, useState } from "preact/hooks";
import { figureText } from "../figures/figure-text.ts";
import { useWidthMm } from "../measure.ts";
import { jointDrawing } from "./joint-drawing.ts";
import { gapText, unitWord, volumeText } from "./joint-figure.ts";
import { jointSection, reachOf } from "./joint-gaps.ts";

/** One joint in section, square to its length, where the slider says. */
export function JointView({
  assembly,
  cutParts,
  joint,
  proof,
  title,
  units,
}: {
  readonly assembly: Assembly;
  readonly cutParts: readonly CutPart[];
  readonly joint: Joint;
  readonly proof: JointProof;
  readonly title: string;
  readonly units: Units;
}): JSX.Element {
  const paper = useRef<HTMLDivElement>(null);
  const width = useWidthMm(paper);
  const { from, to } = reachOf(joint);
  const [share, setShare] = useState(0.5);
  const at = from + share * (to - from);
  const section = useMemo(() => jointSection(assembly, cutParts, joint, at), [assembly, cutParts, joint, at]);
  const drawing = section && width !== null ? jointDrawing(section, width, units) : null;
  const isUneven = assembly.parts.some(
    ({ id, thickness }) =>
      (id === joint.tongue.part || id === joint.housing.part) && thickness.max > thickness.min,
  );
  const place = figureText(share * (to - from) + (from - joint.tongue.box.min[joint.along]), "length", units);
  const words = section?.gaps
    .map(({ what, mm }) => `${WORDS[what]} ${gapText(mm, units)} ${unitWord(units)}`)
    .join(", ");
  return (
    <figure class="joint-view" ref={paper}>
      <figcaption>
        <b>{title}</b>, cut across {place} {unitWord(units)} along the tongue
        {drawing && <span class="scale"> {drawing.scale} : 1</span>}
      </figcaption>
      {drawing ? (
        <svg
          class="drawing"
          viewBox={`0 0 ${drawing.width} ${drawing.height}`}
          style={{ width: `${drawing.width}mm`, height: `${drawing.height}mm` }}
          role="img"
          aria-label={`Section of ${title}: ${words}.`}
          dangerouslySetInnerHTML={{ __html: drawing.body }}
        />
      ) : (
        width !== null && <p>There is no wood of both parts here.</p>
      )}
      <label class="slider">
        where it is cut
        <input
          type="range"
          min={0}
          max={1}
          step={0.01}
          value={share}
          aria-valuetext={`${place} ${unitWord(units)} along the tongue`}
          onInput={(event) => setShare(Number(event.currentTarget.value))}
        />
      </label>
      {isUneven && (
        <p>Drawn at the sheet's mean thickness; the table has the least and most over all of its readings.</p>
      )}
      {proof.interference > 0 && (
        <p class="clash-words">
          Crossed lines: {volumeText(proof.interference, units)} that both parts claim.
        </p>
      )}
    </figure>
  );
}

const WORDS = { side: "air beside the tongue", end: "under it", shoulder: "at the shoulder" } as const;
