import type { OutFile } from "@dryfit/job";
import { deflateSync, inflateSync, strFromU8, strToU8 } from "fflate";
import { GEAR_ROWS, type GearItem, PLUG_PLACES } from "../gear/gear.ts";
import type { Work } from "./work.ts";

/** What a link carries behind `#`, and the drawings that are too much for it. */
export interface Address {
  readonly hash: string;
  readonly leftOut: readonly string[];
}

/** The work as a link carries it: deflated, in letters that an address may hold; without drawings where it grows too long. */
export function addressOf({ file, text, gear, drawings }: Work): Address {
  const hashWith = (carried: Work["drawings"]): string => {
    const said = { v: VERSION, file, text, gear, ...(carried.length > 0 ? { drawings: carried } : {}) };
    return `${HEAD}${toBase64Url(deflateSync(strToU8(JSON.stringify(said)), { level: 9 }))}`;
  };
  const letters = drawings.reduce((sum, drawing) => sum + drawing.text.length, 0);
  const whole = letters > TEXT_MAX / 2 ? null : hashWith(drawings);
  if (whole !== null && (drawings.length === 0 || whole.length <= LINK_MAX))
    return { hash: whole, leftOut: [] };
  return { hash: hashWith([]), leftOut: drawings.map((drawing) => drawing.file) };
}

/** Longer links with drawings are cut by the programs that people send them with. Common practice, no source. */
const LINK_MAX = 16_000;

/** Null where the address carries nothing of ours; "broken" where it is cut short or changed. */
export function workIn(address: string): Work | "broken" | null {
  const hash = address.replace(/^#/, "");
  if (!hash.startsWith(HEAD)) return null;
  try {
    const bytes = fromBase64Url(hash.slice(HEAD.length));
    // A few bytes may inflate to a heap: the room given is the most that is read.
    const said: unknown = JSON.parse(strFromU8(inflateSync(bytes, { out: new Uint8Array(TEXT_MAX) })));
    return workFrom(said) ?? "broken";
  } catch {
    return "broken";
  }
}

/** Work as a page of this version wrote it; null: it is none. Pages wrote no drawings before there were any. */
export function workFrom(said: unknown): Work | null {
  if (typeof said !== "object" || said === null) return null;
  const { v, file, text, gear, drawings = [] } = said as Record<string, unknown>;
  if (v !== VERSION || typeof file !== "string" || typeof text !== "string") return null;
  if (!Array.isArray(gear) || !gear.every(isGear)) return null;
  if (!Array.isArray(drawings) || !drawings.every(isFile)) return null;
  return { file, text, gear, drawings };
}

/** The shape of what is kept; raised whenever an older page could not read it. */
export const VERSION = 1;

/** More than this is no design file. */
export const TEXT_MAX = 1_000_000;

const HEAD = "design=";

function isFile(item: unknown): item is OutFile {
  const { file, text } = (item ?? {}) as Record<string, unknown>;
  return typeof file === "string" && typeof text === "string";
}

function isGear(item: unknown): item is GearItem {
  if (typeof item !== "object" || item === null) return false;
  const { name, width, depth, height, count, row, plugs } = item as Record<string, unknown>;
  return (
    typeof name === "string" &&
    [width, depth, height, count].every((n) => typeof n === "number" && Number.isFinite(n) && n >= 0) &&
    GEAR_ROWS.some((each) => each === row) &&
    PLUG_PLACES.some((each) => each === plugs)
  );
}

function toBase64Url(bytes: Uint8Array): string {
  let text = "";
  for (const byte of bytes) text += String.fromCharCode(byte);
  return btoa(text).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
}

function fromBase64Url(text: string): Uint8Array {
  const bytes = atob(text.replaceAll("-", "+").replaceAll("_", "/"));
  return Uint8Array.from(bytes, (letter) => letter.charCodeAt(0));
}
