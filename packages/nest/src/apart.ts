/**
 * Least number of equal sheets for rectangles that may not be turned, by those of which no two share a sheet: two that
 * are together wider and together higher than it fit neither beside nor above one another.
 *
 * The largest set found by branching with colours as the bound counts; stopped early, it is a bound all the same.
 * Source: E. Tomita, T. Seki, "An efficient branch-and-bound algorithm for finding a maximum clique", 2003.
 */
export function apartBound(
  sizes: readonly (readonly [number, number])[],
  sheet: readonly [number, number],
): number {
  const slack = 1e-9 * (sheet[0] + sheet[1]);
  const apart = sizes.map(([w, h], i) =>
    Uint8Array.from(sizes, ([u, v], j) =>
      i !== j && w + u > sheet[0] + slack && h + v > sheet[1] + slack ? 1 : 0,
    ),
  );
  const count = apart.map((row) => row.reduce((sum, one) => sum + one, 0));
  const order = sizes.map((_, i) => i).sort((a, b) => count[b]! - count[a]! || a - b);
  const search = { apart, most: 0, nodesLeft: MOST_NODES };
  grow(search, 0, order);
  return search.most;
}

const MOST_NODES = 500;

interface Search {
  readonly apart: readonly Uint8Array[];
  most: number;
  nodesLeft: number;
}

/** `have` are chosen; all of `free` go with each of them. */
function grow(search: Search, have: number, free: readonly number[]): void {
  search.most = Math.max(search.most, have);
  if (search.nodesLeft-- <= 0) return;
  const coloured = colours(search.apart, free);
  for (let k = coloured.length - 1; k >= 0; k--) {
    const { item, colour } = coloured[k]!;
    if (have + colour <= search.most) return;
    const rest = coloured.slice(0, k).filter((other) => search.apart[item]![other.item] === 1);
    grow(
      search,
      have + 1,
      rest.map((other) => other.item),
    );
  }
}

/** Of each colour at most one can be chosen; least colours first. */
function colours(
  apart: readonly Uint8Array[],
  free: readonly number[],
): { readonly item: number; readonly colour: number }[] {
  const classes: number[][] = [];
  for (const item of free) {
    const own = classes.find((others) => others.every((other) => apart[item]![other] === 0));
    if (own) own.push(item);
    else classes.push([item]);
  }
  return classes.flatMap((items, k) => items.map((item) => ({ item, colour: k + 1 })));
}
