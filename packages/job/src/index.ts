export type { OutFile } from "./outfile.ts";
export { sha256Of } from "./outfile.ts";
