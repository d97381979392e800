import type { ComponentChildren, JSX } from "preact";

/** A small table on the sheet: what is named on the left, its figure on the right. */
export function Table({
  title,
  children,
}: {
  readonly title: string;
  readonly children: ComponentChildren;
}): JSX.Element {
  return (
    <table class="table">
      <caption>{title}</caption>
      <tbody>{children}</tbody>
    </table>
  );
}

export function Row({
  label,
  children,
}: {
  readonly label: string;
  readonly children: ComponentChildren;
}): JSX.Element {
  return (
    <tr>
      <th scope="row">{label}</th>
      <td>{children}</td>
    </tr>
  );
}
