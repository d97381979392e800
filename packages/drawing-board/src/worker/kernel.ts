import solidModeller from "virtual:solid-modeller";
import { loadSolidKernel, type SolidKernel } from "@dryfit/verify";
import { unpackedBytes } from "../unpack.ts";

/** The solid modeller out of the page itself: nothing is fetched. */
export function loadKernel(): Promise<SolidKernel> {
  return loadSolidKernel({ wasmBinary: unpackedBytes(solidModeller).buffer as ArrayBuffer });
}
