import type { Assembly, Units } from "@dryfit/joinery";
import type { JointProof } from "@dryfit/verify";
import type { JSX } from "preact";
import { gapText, spanText, unitWord, volumeText } from "./joint-figure.ts";

/** Every joint with its figures, over all readings of the sheet's thickness; one of them may be chosen. */
export function JointsTable({
  joints,
  chosen,
  titleOf,
  units,
  onChoose,
}: {
  readonly joints: readonly JointProof[];
  readonly chosen: string | null;
  readonly titleOf: (part: string) => string;
  readonly units: Units;
  readonly onChoose: (id: string) => void;
}): JSX.Element {
  return (
    <table class="table joints">
      <caption>Joints as cut, {unitWord(units)}</caption>
      <thead>
        <tr>
          <th scope="col">tongue in housing</th>
          <th scope="col">air beside</th>
          <th scope="col">under</th>
          <th scope="col">shoulder</th>
          <th scope="col">wood in wood</th>
        </tr>
      </thead>
      <tbody>
        {joints.map((joint) => (
          <tr key={joint.id} class={joint.id === chosen ? "chosen" : undefined}>
            <th scope="row">
              <button
                type="button"
                class="lettered"
                aria-pressed={joint.id === chosen}
                onClick={() => onChoose(joint.id)}
              >
                {jointTitle(joint, joints, titleOf)}
              </button>
            </th>
            <td>{spanText(joint.sideClearance, units)}</td>
            <td>{gapText(joint.endGap, units)}</td>
            <td>{gapText(joint.shoulderGap, units)}</td>
            <td>
              {joint.interference > 0 ? (
                <strong class="clashes">{volumeText(joint.interference, units)}</strong>
              ) : (
                "none"
              )}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** "Base in left cheek"; where one part stands in the other by several tongues, with their number. */
export function jointTitle(
  { id, tongue, housing }: JointProof,
  joints: readonly JointProof[],
  titleOf: (part: string) => string,
): string {
  const alike = joints.filter((other) => other.tongue === tongue && other.housing === housing);
  const number = alike.findIndex((other) => other.id === id) + 1;
  const pair = `${titleOf(tongue)} in ${titleOf(housing).toLowerCase()}`;
  return alike.length === 1 ? pair : `${pair}, ${number} of ${alike.length}`;
}

export function titlesOf({ parts }: Assembly): (part: string) => string {
  const titles = new Map(parts.map(({ id, title }) => [id, title]));
  return (part) => titles.get(part) ?? part;
}
