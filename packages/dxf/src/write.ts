import type { Part } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import { type Mark, type MarkOptions, partMarks, sheetMarks } from "./marks.ts";
import { r12 } from "./r12.ts";
import { r2000 } from "./r2000.ts";

export interface DxfOptions {
  /**
   * Radius of the cutter that clears recesses, mm: how far one that lies open at the part's edge is drawn
   * beyond it. At 0 its edge lies on the outline, which a service may take for a doubled contour.
   */
  readonly runOut: number;
  /** Whether the sheet's own edge is drawn; leave it out for a service that cuts all it sees. Drawn by default. */
  readonly sheetEdge?: boolean;
  /** Whether parts are labelled. They are by default. */
  readonly labels?: boolean;
  /** Our layer's name to the one that a service wants; layers not named here keep theirs. */
  readonly layerNames?: Readonly<Record<string, string>>;
  /** A comment at the top of the file: units, and who allows for kerf. */
  readonly note?: string;
}

/** A nested sheet as R2000 text, seen from face A, origin at the sheet's lower left. */
export function sheetDxf(sheet: Sheet, parts: readonly Part[], options: DxfOptions): string {
  return write(r2000, options, (all) => sheetMarks(sheet, parts, all));
}

/** The same sheet as R12 text, for readers that want it. */
export function sheetDxfR12(sheet: Sheet, parts: readonly Part[], options: DxfOptions): string {
  return write(r12, options, (all) => sheetMarks(sheet, parts, all));
}

/** One part as R2000 text, in its panel frame. */
export function partDxf(part: Part, options: DxfOptions): string {
  return write(r2000, options, (all) => partMarks(part, all));
}

/** One part as R12 text, in its panel frame. */
export function partDxfR12(part: Part, options: DxfOptions): string {
  return write(r12, options, (all) => partMarks(part, all));
}

const DEFAULTS: Required<Omit<DxfOptions, "runOut">> = {
  sheetEdge: true,
  labels: true,
  layerNames: {},
  note: "Units: millimetres. Geometry is nominal, no kerf applied.",
};

function write(
  print: (marks: readonly Mark[], note: string) => string,
  options: DxfOptions,
  marksFor: (options: MarkOptions) => readonly Mark[],
): string {
  const all = { ...DEFAULTS, ...options };
  const marks = marksFor(all).map((mark) => ({ ...mark, layer: renamed(mark.layer, all.layerNames) }));
  return print(marks.map(inAscii), ascii(all.note));
}

/** R12 allows 31 letters, digits, `$`, `-` and `_`; what R12 allows, all later releases read. */
function renamed(layer: string, names: Readonly<Record<string, string>>): string {
  const name = Object.hasOwn(names, layer) ? names[layer]! : layer;
  if (!/^[A-Za-z0-9$_-]{1,31}$/.test(name)) throw new RangeError(`"${name}" cannot name a DXF layer`);
  return name;
}

function inAscii(mark: Mark): Mark {
  return mark.kind === "text" ? { ...mark, text: ascii(mark.text) } : mark;
}

/** One line of plain ASCII: neither release says how else its bytes are to be read. */
function ascii(text: string): string {
  return text.replace(/[^\x20-\x7e]/g, "?");
}
