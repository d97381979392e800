import { edgesOn, panelsOf, presetNames, presets, withItem, without } from "@dryfit/joinery";
import type { JSX } from "preact";
import { ChoiceField } from "../figures/choice-field.tsx";
import { FigureField } from "../figures/figure-field.tsx";
import { TextField } from "../figures/text-field.tsx";
import type { SheetProps } from "../state/sheet-props.ts";
import { Act } from "../tables/act.tsx";
import { inFile } from "../tables/in-file.ts";

/** Every opening of the case in a table: what, where, how large. */
export function OpeningSchedule(props: SheetProps): JSX.Element {
  const { design } = props.board.drawable!;
  const { width } = design.inside;
  return (
    <table class="table schedule">
      <caption>Openings</caption>
      {design.openings.length > 0 && (
        <thead>
          <tr>
            <th scope="col">name</th>
            <th scope="col">what</th>
            <th scope="col">panel</th>
            <th scope="col">middle from</th>
            <th scope="col">measures</th>
            <th scope="col">
              <span class="heard">take out</span>
            </th>
          </tr>
        </thead>
      )}
      <tbody>
        {design.openings.map((opening, i) => {
          const path = `openings[${i}]`;
          return (
            <tr key={path}>
              <td>
                <TextField
                  path={`${path}.id`}
                  label={`Opening ${i + 1}: name`}
                  value={opening.id}
                  {...props}
                />
              </td>
              <td>
                <ChoiceField
                  path={`${path}.shape`}
                  label={`Opening ${opening.id}: what`}
                  value={opening.shape}
                  choices={presetNames.map((name) => [name, presets[name].title] as const)}
                  {...props}
                />
              </td>
              <td>
                <ChoiceField
                  path={`${path}.panel`}
                  label={`Opening ${opening.id}: panel`}
                  value={opening.panel}
                  choices={panelsOf(design).map((panel) => [panel, panel] as const)}
                  {...props}
                />
              </td>
              <td>
                {Object.entries(opening.from).map(([edge, value]) => (
                  <span class="pair" key={edge}>
                    {edge}{" "}
                    <FigureField
                      path={`${path}.from.${edge}`}
                      label={`Opening ${opening.id}: from the ${edge}`}
                      measure="length"
                      value={value}
                      {...props}
                    />
                  </span>
                ))}
              </td>
              <td>
                {Object.entries(opening.size).map(([name, value]) => (
                  <span class="pair" key={name}>
                    {name}{" "}
                    <FigureField
                      path={`${path}.size.${name}`}
                      label={`Opening ${opening.id}: ${name}`}
                      measure={name === "count" ? "count" : "length"}
                      value={value}
                      {...props}
                    />
                  </span>
                ))}
              </td>
              <td>
                <Act
                  {...props}
                  words="take out"
                  label={`take out opening ${opening.id}`}
                  next={(text) => without(text, path)}
                />
              </td>
            </tr>
          );
        })}
        <tr>
          <td colSpan={6}>
            <Act
              {...props}
              words="add an opening"
              next={(text) =>
                withItem(text, "openings", {
                  id: freeName(design.openings.map(({ id }) => id)),
                  panel: "rail-back",
                  shape: "cable-hole",
                  from: {
                    [edgesOn("rail-back")[0]![0]!]: inFile(props, Math.round(width / 2)),
                    floor: inFile(props, 25),
                  },
                })
              }
            />
          </td>
        </tr>
      </tbody>
    </table>
  );
}

function freeName(taken: readonly string[]): string {
  let n = taken.length + 1;
  while (taken.includes(`opening-${n}`)) n++;
  return `opening-${n}`;
}
