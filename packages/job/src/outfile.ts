import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";

/** One file of the folder that a job leaves; `file` is relative to it, with forward slashes. */
export interface OutFile {
  readonly file: string;
  readonly text: string;
}

/** Hexadecimal SHA-256 of a text in UTF-8. */
export function sha256Of(text: string): string {
  return bytesToHex(sha256(utf8ToBytes(text)));
}
