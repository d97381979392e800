import type { Colours } from "../page-colours.ts";
import type { CutterPath } from "./path-layer.ts";
import type { SectionLine } from "./section.ts";
import type { Timeline } from "./timeline.ts";
import type { Place, Window } from "./window.ts";
import type { Wood } from "./wood.ts";

/** Everything that is to be seen at one moment. */
export interface Scene {
  readonly wood: Wood;
  readonly timeline: Timeline;
  readonly seconds: number;
  /** While it plays, shading takes its share of a frame and no more. */
  readonly isPlaying: boolean;
  readonly window: Window;
  readonly colours: Colours;
  /** Null: the path is not drawn. */
  readonly path: CutterPath | null;
  readonly section: SectionLine;
  /** A place to look at, marked. */
  readonly mark: Place | null;
  /** Places with something to say, by the number of their note. */
  readonly notes: readonly NotePlace[];
}

export interface NotePlace {
  readonly number: number;
  readonly severity: "error" | "warning" | "note";
  readonly at: Place;
}
