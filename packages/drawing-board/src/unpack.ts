import { inflateSync, strFromU8 } from "fflate";

/** What the build packed into a text: deflated bytes in base64. */
export function unpackedBytes(packed: string): Uint8Array {
  const letters = atob(packed);
  const bytes = new Uint8Array(letters.length);
  for (let i = 0; i < letters.length; i++) bytes[i] = letters.charCodeAt(i);
  return inflateSync(bytes);
}

export function unpackedText(packed: string): string {
  return strFromU8(unpackedBytes(packed));
}

/** Runs a script that the build packed and gives back what it exports. */
export function unpackedModule<Exports>(packed: string): Exports {
  return new Function(`${unpackedText(packed)};return packed;`)() as Exports;
}
