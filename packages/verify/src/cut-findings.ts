import { boundsOf, CUT_MM, contains, distance, distanceTo, offset } from "@dryfit/geometry";
import type { Finding } from "@dryfit/joinery";
import type { Allowances } from "./cut/allowed.ts";
import type { Bench } from "./cut/bench.ts";
import type { Gouge } from "./cut/gouge.ts";
import type { Uncut } from "./cut/uncut.ts";

export function gougeFinding({ part }: Bench, { width, at, stroke, depth }: Gouge): Finding {
  const { line, program } = stroke;
  return {
    code: "gouge",
    severity: "error",
    path: `${program.file}:${line}`,
    message: `${part.title} loses wood that should stay: ${mm(width)} at ${place(at)}, ${mm(depth)} deep.`,
    numbers: { line, gouge: width, x: at.x, y: at.y, depth },
  };
}

/**
 * Wood that stands, as one finding for what stands in the part and one for what stands beside it, by what it
 * is: a tab that nobody declared, a declared one too large, a cut that does not go through, or plainly uncut.
 */
export function uncutFindings(
  bench: Bench,
  uncuts: readonly Uncut[],
  allowed: Allowances,
  thickness: number,
): Finding[] {
  const isInPart = ({ at }: Uncut) => bench.body.some((region) => contains(region, at) === "inside");
  const within = uncuts.filter(isInPart);
  const beside = uncuts.filter((uncut) => !isInPart(uncut));
  return [
    ...(within.length === 0 ? [] : [finding(bench, within, "uncut", "keeps wood that should go")]),
    ...(beside.length === 0 ? [] : [finding(bench, beside, ...whatStands(beside, allowed, thickness))]),
  ];
}

function whatStands(
  uncuts: readonly Uncut[],
  { tabs, skins }: Allowances,
  thickness: number,
): [code: string, what: string] {
  const { from, to } = span(uncuts);
  const { at, piece } = widest(uncuts);
  const isWhole = from === 0 && to === thickness;
  const isShort = reachOf(piece, at) <= LONGEST_TAB_MM;
  if (!isWhole && isShort && tabs.some((tab) => distance(tab.at, at) <= tab.length))
    return ["tab_too_large", "has a tab larger than declared"];
  if (!isWhole && !isShort && skins.length > 0)
    return ["skin_too_thick", "hangs on more than its declared skin"];
  if (isWhole || (from > 0 && to < thickness)) return ["uncut", "keeps wood that should go"];
  return isShort
    ? ["undeclared_tab", "has a tab that is not declared"]
    : ["not_cut_through", "is not cut free"];
}

function finding({ part }: Bench, uncuts: readonly Uncut[], code: string, what: string): Finding {
  const { width, atSheet } = widest(uncuts);
  const { from, to } = span(uncuts);
  return {
    code,
    severity: "error",
    path: part.id,
    message: `${part.title} ${what}: ${mm(width)} at ${place(atSheet)}, between ${mm(from)} and ${mm(to)} deep.`,
    numbers: { uncut: width, x: atSheet.x, y: atSheet.y, from, to },
  };
}

const widest = (uncuts: readonly Uncut[]): Uncut => uncuts.reduce((a, b) => (b.width > a.width ? b : a));

function span(uncuts: readonly Uncut[]): { from: number; to: number } {
  return {
    from: Math.min(...uncuts.map(({ from }) => from)),
    to: Math.max(...uncuts.map(({ to }) => to)),
  };
}

/** A bridge longer than this is not meant as a tab, mm. */
const LONGEST_TAB_MM = 60;

/** How long the piece is, without the slivers that may run out of it. */
function reachOf(piece: Uncut["piece"], at: Uncut["at"]): number {
  const cores = offset([piece], -CUT_MM);
  if (cores.length === 0) return 0;
  const core = cores.reduce((a, b) => (distanceTo(a.outer, at) <= distanceTo(b.outer, at) ? a : b));
  const { min, max } = boundsOf(core.outer);
  return distance(min, max);
}

const mm = (value: number) => `${Number(value.toFixed(3))} mm`;
const place = ({ x, y }: { x: number; y: number }) => `(${x.toFixed(1)}, ${y.toFixed(1)})`;
