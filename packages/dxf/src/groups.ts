/** One pair of lines of a DXF file: a code that says what the value means. `line` is the value's, from 1. */
export interface Group {
  readonly code: number;
  readonly value: string;
  readonly line: number;
}

/** A group with code 0 and all that follows up to the next one: an entity, a table entry, a section's mark. */
export interface DxfRecord {
  readonly type: string;
  readonly groups: readonly Group[];
  readonly line: number;
}

/** Where the text stops being a DXF file, and why. */
export interface NotDxf {
  readonly line: number;
  readonly reason: string;
}

/** The file's records in order; comments are left out. */
export function recordsOf(text: string): readonly DxfRecord[] | NotDxf {
  const groups = groupsOf(text);
  if (!Array.isArray(groups)) return groups as NotDxf;
  const records: { type: string; groups: Group[]; line: number }[] = [];
  for (const group of groups as readonly Group[]) {
    if (group.code === 999) continue;
    if (group.code === 0) records.push({ type: group.value, groups: [], line: group.line });
    else if (records.length > 0) records.at(-1)!.groups.push(group);
    else return { line: group.line, reason: "the file must begin with a section" };
  }
  if (!records.some((record) => record.type === "SECTION"))
    return { line: 1, reason: "no section was found" };
  return records;
}

/** The last value with this code, as entities are read: a later group overrules an earlier one. */
export function wordOf(record: DxfRecord, code: number): string | undefined {
  return record.groups.findLast((group) => group.code === code)?.value;
}

/** The value as a number; `otherwise` where the record does not hold it, NaN where it is no number. */
export function numberOf(record: DxfRecord, code: number, otherwise: number): number {
  const value = wordOf(record, code);
  return value === undefined ? otherwise : toNumber(value);
}

/** NaN for anything but a plain decimal number. */
export function toNumber(value: string): number {
  return /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(value) ? Number(value) : Number.NaN;
}

function groupsOf(text: string): readonly Group[] | NotDxf {
  if (text.includes("\u0000")) return { line: 1, reason: "this is a binary file; only text DXF is read" };
  const lines = text.split(/\r\n|\r|\n/);
  if (lines.at(-1)?.trim() === "") lines.pop();
  const groups: Group[] = [];
  for (let i = 0; i < lines.length; i += 2) {
    const code = lines[i]!.trim();
    if (!/^-?\d{1,4}$/.test(code))
      return {
        line: i + 1,
        reason: `"${code.slice(0, 40)}" is no group code; a whole number must stand here`,
      };
    const value = lines[i + 1];
    if (value === undefined) return { line: i + 1, reason: `group code ${code} has no value after it` };
    groups.push({ code: Number(code), value: value.trim(), line: i + 2 });
    if (code === "0" && value.trim() === "EOF") return groups;
  }
  return { line: lines.length, reason: "the file ends before its EOF mark; it is not whole" };
}
