/** What we use of it; the package brings no types of its own. */
declare module "gcode-parser" {
  export function parseStringSync(text: string): readonly {
    readonly line: string;
    readonly words: readonly (readonly [letter: string, value: number])[];
  }[];
}
