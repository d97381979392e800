import { useEffect, useState } from "preact/hooks";
import type { Rgb } from "./cut/shade.ts";

/** The page's colours of the moment, for what is painted rather than styled. */
export interface Colours {
  readonly paper: string;
  readonly ink: string;
  readonly pencil: string;
  readonly recess: string;
  readonly error: string;
  readonly faceB: string;
  readonly path: string;
}

function coloursOfPage(): Colours {
  const style = getComputedStyle(document.documentElement);
  const of = (name: string): string => style.getPropertyValue(`--${name}`).trim();
  return {
    paper: of("paper"),
    ink: of("ink"),
    pencil: of("pencil"),
    recess: of("recess"),
    error: of("error"),
    faceB: of("faceB"),
    path: of("path"),
  };
}

/** Follows the change from day to lamplight. */
export function useColours(): Colours {
  const [colours, setColours] = useState(coloursOfPage);
  useEffect(() => {
    const dark = matchMedia("(prefers-color-scheme: dark)");
    const look = (): void => setColours(coloursOfPage());
    dark.addEventListener("change", look);
    return () => dark.removeEventListener("change", look);
  }, []);
  return colours;
}

/** "#1C2B39" as red, green, blue. */
export function rgb(colour: string): Rgb {
  const at = (i: number): number => Number.parseInt(colour.slice(i, i + 2), 16);
  return [at(1), at(3), at(5)];
}
