import { type Design, numbersOf } from "@dryfit/joinery";
import { AIR_MM, FINGER_MM, GEAR_ROWS, type GearItem, type GearRow, PLUG_MM } from "./gear.ts";

/** What a row asks for and what the case gives it, mm. */
export interface RowRoom {
  readonly row: GearRow;
  readonly needs: { readonly width: number; readonly depth: number; readonly height: number };
  /** Null: nothing limits it, or the case has no such row. */
  readonly has: { readonly width: number; readonly depth: number; readonly height: number | null } | null;
  /** How the width comes about: "2 × (66 + 2 × 14) + 8". */
  readonly widthSum: string;
  readonly fits: boolean;
}

/** Whether the gear fits its rows, row by row; rows without gear are left out. */
export function roomFor(gear: readonly GearItem[], design: Design): readonly RowRoom[] {
  return GEAR_ROWS.flatMap((row): readonly RowRoom[] => {
    const items = gear.filter((item) => item.row === row && item.count > 0);
    if (items.length === 0) return [];
    const needs = {
      width: widthOf(items),
      depth: Math.max(...items.map(depthOf)),
      height: Math.max(...items.map(({ height }) => height)) + (row === "under" ? AIR_MM : 0),
    };
    const has = roomIn(row, design);
    const fits =
      has !== null &&
      needs.width <= has.width &&
      needs.depth <= has.depth &&
      (has.height === null || needs.height <= has.height);
    return [{ row, needs, has, widthSum: widthSum(items), fits }];
  });
}

/** The least inside measures that hold the gear; nothing is changed by asking. */
export function insideFor(
  gear: readonly GearItem[],
  design: Design,
): { readonly width: number; readonly depth: number } | null {
  const rows = roomFor(gear, design);
  if (rows.length === 0) return null;
  const need = (row: GearRow) => rows.find((each) => each.row === row)?.needs.depth ?? 0;
  const { tier } = design;
  const raised = tier
    ? Math.max(numbersOf(design).tierDepth ?? 0, need("tier"), need("under")) + airBehind(design)
    : 0;
  return {
    width: Math.ceil(Math.max(...rows.map(({ needs }) => needs.width))),
    depth: Math.ceil(need("floor") + raised),
  };
}

function roomIn(row: GearRow, design: Design): RowRoom["has"] {
  const { inside, tier, sheet } = design;
  const tierDepth = numbersOf(design).tierDepth;
  const width = inside.width;
  if (row === "floor") {
    const depth = tier && tierDepth !== null ? inside.depth - tierDepth - airBehind(design) : inside.depth;
    return { width, depth, height: null };
  }
  if (!tier || tierDepth === null) return null;
  if (row === "tier") return { width, depth: tierDepth, height: null };
  return { width, depth: tierDepth, height: tier.height - sheet.thickness.mean };
}

function airBehind({ tier }: Design): number {
  return tier ? (tier.swing > 0 ? tier.pin : tier.clearance) : 0;
}

function widthOf(items: readonly GearItem[]): number {
  const all = items.reduce((sum, item) => sum + item.count * (item.width + besides(item)), 0);
  return all + FINGER_MM * Math.max(0, gapsOf(items));
}

/** Where no plug stands between neighbours, a finger's room does. */
function gapsOf(items: readonly GearItem[]): number {
  const bare = items.filter((item) => besides(item) === 0).reduce((sum, { count }) => sum + count, 0);
  return bare - 1;
}

function widthSum(items: readonly GearItem[]): string {
  const terms = items.map((item) => {
    const beside = besides(item) > 0 ? `(${item.width} + 2 × ${PLUG_MM})` : String(item.width);
    return item.count === 1 ? beside : `${item.count} × ${beside}`;
  });
  const gaps = gapsOf(items);
  return [...terms, ...(gaps > 0 ? [`${gaps} × ${FINGER_MM}`] : [])].join(" + ");
}

function besides({ plugs }: GearItem): number {
  return plugs === "sides" || plugs === "both" ? 2 * PLUG_MM : 0;
}

function depthOf({ depth, plugs }: GearItem): number {
  return depth + (plugs === "back" || plugs === "both" ? PLUG_MM : 0);
}
