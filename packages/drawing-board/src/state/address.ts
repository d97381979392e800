import { deflateSync, inflateSync, strFromU8, strToU8 } from "fflate";
import { GEAR_ROWS, PLUG_PLACES } from "../gear/gear.ts";
import type { Work } from "./work.ts";

/** The work as a link carries it behind `#`: deflated, in letters that an address may hold. */
export function addressOf({ file, text, gear }: Work): string {
  const bytes = deflateSync(strToU8(JSON.stringify({ v: VERSION, file, text, gear })), { level: 9 });
  return `${HEAD}${toBase64Url(bytes)}`;
}

/** Null where the address carries nothing of ours; "broken" where it is cut short or changed. */
export function workIn(address: string): Work | "broken" | null {
  const hash = address.replace(/^#/, "");
  if (!hash.startsWith(HEAD)) return null;
  try {
    const bytes = fromBase64Url(hash.slice(HEAD.length));
    // A few bytes may inflate to a heap: the room given is the most that is read.
    const said: unknown = JSON.parse(strFromU8(inflateSync(bytes, { out: new Uint8Array(TEXT_MAX) })));
    return isWork(said) ? { file: said.file, text: said.text, gear: said.gear } : "broken";
  } catch {
    return "broken";
  }
}

/** Whether this is work as a page of this version wrote it. */
export function isWork(said: unknown): said is Work {
  if (typeof said !== "object" || said === null) return false;
  const { v, file, text, gear } = said as Record<string, unknown>;
  return (
    v === VERSION &&
    typeof file === "string" &&
    typeof text === "string" &&
    Array.isArray(gear) &&
    gear.every(isGear)
  );
}

/** The shape of what is kept; raised whenever an older page could not read it. */
export const VERSION = 1;

/** More than this is no design file. */
export const TEXT_MAX = 1_000_000;

const HEAD = "design=";

function isGear(item: unknown): boolean {
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
