import { edgeNames, panelsOf, withItem, without } from "@dryfit/joinery";
import type { JSX } from "preact";
import { ChoiceField } from "../figures/choice-field.tsx";
import { FigureField } from "../figures/figure-field.tsx";
import type { SheetProps } from "../state/sheet-props.ts";
import { Act } from "../tables/act.tsx";
import { inFile } from "../tables/in-file.ts";

/** The edges that are rounded over. */
export function EdgeSchedule(props: SheetProps): JSX.Element {
  const { design } = props.board.drawable!;
  const panels = panelsOf(design).filter((panel) => edgeNames(panel).length > 0);
  return (
    <table class="table schedule">
      <caption>Rounded edges</caption>
      {design.edges.length > 0 && (
        <thead>
          <tr>
            <th scope="col">panel</th>
            <th scope="col">edge</th>
            <th scope="col">radius</th>
            <th scope="col">
              <span class="heard">take out</span>
            </th>
          </tr>
        </thead>
      )}
      <tbody>
        {design.edges.map(({ panel, edge, radius }, i) => {
          const path = `edges[${i}]`;
          const name = `Rounded edge ${i + 1}`;
          return (
            <tr key={path}>
              <td>
                <ChoiceField
                  path={`${path}.panel`}
                  label={`${name}: panel`}
                  value={panel}
                  choices={panels.map((each) => [each, each] as const)}
                  {...props}
                />
              </td>
              <td>
                <ChoiceField
                  path={`${path}.edge`}
                  label={`${name}: edge`}
                  value={edge}
                  choices={edgeNames(panel).map((each) => [each, each] as const)}
                  {...props}
                />
              </td>
              <td>
                <FigureField
                  path={`${path}.radius`}
                  label={`${name}: radius`}
                  measure="length"
                  value={radius}
                  {...props}
                />
              </td>
              <td>
                <Act
                  {...props}
                  words="take out"
                  label={`take out ${name.toLowerCase()}`}
                  next={(text) => without(text, path)}
                />
              </td>
            </tr>
          );
        })}
        <tr>
          <td colSpan={4}>
            <Act
              {...props}
              words="round an edge"
              next={(text) =>
                withItem(text, "edges", {
                  panel: "cheek-left",
                  edge: "crest",
                  radius: inFile(props, 3) || 0.125,
                })
              }
            />
          </td>
        </tr>
      </tbody>
    </table>
  );
}
