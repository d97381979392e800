import type { Block, Letter } from "./block.ts";
import { type Problem, problem } from "./problem.ts";

/** Modal groups of NISTIR 6556, table 4: of each group one code at most may stand on a line. G codes times ten. */
const G_GROUPS: readonly (readonly [group: number, codes: readonly number[]])[] = [
  [0, [40, 100, 280, 300, 530, 920, 921, 922, 923]],
  [1, [0, 10, 20, 30, 382, 800, 810, 820, 830, 840, 850, 860, 870, 880, 890]],
  [2, [170, 180, 190]],
  [3, [900, 910]],
  [5, [930, 940]],
  [6, [200, 210]],
  [7, [400, 410, 420]],
  [8, [430, 490]],
  [10, [980, 990]],
  [12, [540, 550, 560, 570, 580, 590, 591, 592, 593]],
  [13, [610, 611, 640]],
];
const M_GROUPS: readonly (readonly [group: number, codes: readonly number[]])[] = [
  [4, [0, 1, 2, 30, 60]],
  [6, [6]],
  [7, [3, 4, 5]],
  [8, [7, 8, 9]],
  [9, [48, 49]],
];
const GROUP_OF_G: ReadonlyMap<number, number> = byCode(G_GROUPS);
const GROUP_OF_M: ReadonlyMap<number, number> = byCode(M_GROUPS);

const M_CODES_MAX = 4;
const MOTION_GROUP = 1;
const TAKES_AXES: ReadonlySet<number> = new Set([100, 280, 300, 920]);

/** The codes of one line, sorted by what they set; null where the line sets nothing of the kind. */
export interface Codes {
  readonly motion: number | null;
  readonly nonModal: number | null;
  readonly plane: number | null;
  readonly distance: number | null;
  readonly feedMode: number | null;
  readonly units: number | null;
  readonly compensation: number | null;
  readonly lengthOffset: number | null;
  readonly retract: number | null;
  readonly workOffset: number | null;
  readonly stop: number | null;
  readonly cutterChange: boolean;
  readonly spindle: number | null;
}

/** The line's codes, or what forbids them together (NISTIR 6556, 3.3.1, 3.4). */
export function codesOf({ g, m, words }: Block): Codes | Problem {
  if (g.length === 0 && m.length === 0) return NO_CODES;
  const gs = grouped("G", g, GROUP_OF_G, 10);
  if (!(gs instanceof Map)) return gs;
  const ms = grouped("M", m, GROUP_OF_M, 1);
  if (!(ms instanceof Map)) return ms;
  if (m.length > M_CODES_MAX)
    return problem("too_many_m_codes", `A line may hold ${M_CODES_MAX} M codes, this one holds ${m.length}.`);
  const nonModal = gs.get(0) ?? null;
  const motion = gs.get(MOTION_GROUP) ?? null;
  if (nonModal !== null && TAKES_AXES.has(nonModal) && motion !== null)
    return problem(
      "axis_words_disputed",
      `G${nonModal / 10} and G${motion / 10} both want the axis words of one line.`,
    );
  if (nonModal === 530 && motion !== 0 && motion !== 10 && motion !== null && hasAxes(words))
    return problem("unknown_code", "G53 goes with G0 or G1 only.");
  return {
    motion,
    nonModal,
    plane: gs.get(2) ?? null,
    distance: gs.get(3) ?? null,
    feedMode: gs.get(5) ?? null,
    units: gs.get(6) ?? null,
    compensation: gs.get(7) ?? null,
    lengthOffset: gs.get(8) ?? null,
    retract: gs.get(10) ?? null,
    workOffset: gs.get(12) ?? null,
    stop: ms.get(4) ?? null,
    cutterChange: ms.has(6),
    spindle: ms.get(7) ?? null,
  };
}

/** Whether the axis words of a line belong to its non-modal code, so that no motion takes them. */
export function takesAxes(nonModal: number | null): boolean {
  return nonModal !== null && TAKES_AXES.has(nonModal);
}

export function hasAxes(words: Block["words"]): boolean {
  return words.x !== undefined || words.y !== undefined || words.z !== undefined;
}

/** A word that nothing on its line or in force makes use of, or null. */
export function unusedWord(block: Block, codes: Codes, motion: number): Letter | null {
  const { words } = block;
  const { nonModal } = codes;
  const arc = motion === 20 || motion === 30;
  const cycle = motion >= 810 && motion <= 890;
  const uses: readonly (readonly [Letter, boolean])[] = [
    ["d", codes.compensation === 410 || codes.compensation === 420],
    ["h", codes.lengthOffset === 430],
    ["i", arc || motion === 870],
    ["j", arc || motion === 870],
    ["k", arc || motion === 870],
    ["l", cycle || nonModal === 100],
    ["p", nonModal === 40 || nonModal === 100 || [820, 860, 880, 890].includes(motion)],
    ["q", motion === 830],
    ["r", arc || cycle],
  ];
  return uses.find(([letter, used]) => words[letter] !== undefined && !used)?.[0] ?? null;
}

const NO_CODES: Codes = {
  motion: null,
  nonModal: null,
  plane: null,
  distance: null,
  feedMode: null,
  units: null,
  compensation: null,
  lengthOffset: null,
  retract: null,
  workOffset: null,
  stop: null,
  cutterChange: false,
  spindle: null,
};

function byCode(groups: readonly (readonly [number, readonly number[]])[]): Map<number, number> {
  return new Map(groups.flatMap(([group, codes]) => codes.map((code) => [code, group] as const)));
}

function grouped(
  letter: "G" | "M",
  codes: readonly number[],
  groupOf: ReadonlyMap<number, number>,
  scale: number,
): Map<number, number> | Problem {
  const found = new Map<number, number>();
  for (const code of codes) {
    const group = groupOf.get(code);
    if (group === undefined)
      return problem("unknown_code", `${letter}${code / scale} is not a code of the language.`, {
        code: code / scale,
      });
    const other = found.get(group);
    if (other !== undefined)
      return problem(
        "same_modal_group",
        `${letter}${other / scale} and ${letter}${code / scale} exclude each other on one line.`,
        { first: other / scale, second: code / scale },
      );
    found.set(group, code);
  }
  return found;
}
