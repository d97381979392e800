import { type DxfRecord, wordOf } from "./groups.ts";

/** mm for one unit of the file, by its $INSUNITS; null where that names none. */
export function mmPerUnitOf(code: string | null): number | null {
  return code === null ? null : (MM_PER_UNIT[Number(code)] ?? null);
}

/** Source: DXF Reference, $INSUNITS. */
const MM_PER_UNIT: Readonly<Record<number, number>> = {
  1: 25.4,
  2: 304.8,
  4: 1,
  5: 10,
  6: 1000,
  8: 25.4e-6,
  9: 0.0254,
  10: 914.4,
  13: 0.001,
  14: 100,
};

/** The value that follows `9 / name` in the header. */
export function headerVariable(records: readonly DxfRecord[], name: string): string | null {
  const header = records.find((r) => r.type === "SECTION" && wordOf(r, 2) === "HEADER");
  const at = header?.groups.findIndex((group) => group.code === 9 && group.value === name) ?? -1;
  return at < 0 ? null : (header!.groups[at + 1]?.value ?? null);
}
