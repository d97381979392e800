import type { ComponentChildren, JSX } from "preact";
import { useCallback, useEffect, useMemo, useRef, useState } from "preact/hooks";
import { useColours } from "../page-colours.ts";
import type { SheetProps } from "../state/sheet-props.ts";
import { blocksOf } from "./blocks.ts";
import type { CutProgram } from "./cut-program.ts";
import { Facts } from "./facts.tsx";
import { Legend } from "./legend.tsx";
import { lengthWords } from "./lengths.ts";
import { Listing } from "./listing.tsx";
import { notedOf } from "./noted.ts";
import { cutterPathOf } from "./path-layer.ts";
import type { SectionLine } from "./section.ts";
import { SectionView } from "./section-view.tsx";
import { StageView } from "./stage-view.tsx";
import { tabsIn } from "./tabs-in.ts";
import { ThingsFound } from "./things-found.tsx";
import { endOfLine, momentAt, momentPosition, motionOfLine, startOf, timelineOf } from "./timeline.ts";
import { Transport } from "./transport.tsx";
import { usePainter, usePlayer } from "./use-player.ts";
import { around, type Place, showing, type Window } from "./window.ts";
import { woodFor, woodWords } from "./wood.ts";

/** Where to look first: a line of the program, or a place on the sheet with its wood cut. */
export type Look = { readonly line: number } | { readonly place: Place };

interface ProgramViewProps extends SheetProps {
  readonly program: CutProgram;
  readonly look: Look | null;
  /** The verdict where nothing was found. */
  readonly fine: string;
  /** What else stands between the facts and the text. */
  readonly children?: ComponentChildren;
}

/** One program: the sheet while it is cut, a section through it, and the text that cuts it. */
export function ProgramView({ program, look, fine, children, board, set }: ProgramViewProps): JSX.Element {
  const { units } = board;
  const timeline = useMemo(() => timelineOf(program.read.motions), [program]);
  const wood = useMemo(() => woodFor(program, timeline), [program, timeline]);
  const path = useMemo(() => cutterPathOf(program), [program]);
  const tabs = useMemo(() => tabsIn(program.read.motions, program.tooling.depthOf), [program]);
  const blocks = useMemo(
    () =>
      blocksOf(
        program.lines,
        program.read.motions,
        tabs.map(({ line }) => line),
      ),
    [program, tabs],
  );
  const noted = useMemo(() => notedOf(program.findings), [program]);
  const [player, isPlaying] = usePlayer(timeline);
  const colours = useColours();
  const [view, setView] = useState<Window | null>(null);
  const [section, setSection] = useState<SectionLine>(() => middleOf(program));
  const [mark, setMark] = useState<Place | null>(null);
  const [showsPath, setShowsPath] = useState(true);
  const showLine = useRef<(line: number) => void>(() => {});
  const shownLine = useRef(0);
  const hold = useCallback((show: (line: number) => void) => {
    showLine.current = show;
  }, []);
  useEffect(() => setSection(middleOf(program)), [program.corner.join(), program.size.join()]);
  usePainter(player, ({ line }) => {
    if (line !== shownLine.current) showLine.current(line);
    shownLine.current = line;
    return true;
  });

  const toLine = useCallback(
    (line: number): void => {
      const index = motionOfLine(timeline, line);
      const motion = timeline.motions[index];
      if (!motion) return;
      // A line that moves nothing: just before the next that does, or after them all.
      const seconds = motion.line <= line ? endOfLine(timeline, index) : startOf(timeline, index);
      const moment = momentAt(timeline, seconds);
      // The text stays at the line that was asked for.
      shownLine.current = timeline.motions[moment.index]!.line;
      player.seek(seconds);
      const at = momentPosition(timeline, moment);
      setView((now) => now && showing(now, at));
    },
    [timeline, player],
  );
  useEffect(() => {
    if (!look || !view) return;
    if ("line" in look) {
      showLine.current(look.line);
      toLine(look.line);
    } else {
      setMark(look.place);
      player.seek(timeline.seconds);
      setView(
        (now) => now && around(look.place, Math.max(now.scale, WORST_PX_PER_MM), now.width, now.height),
      );
    }
    // Only once there is a window to look through.
  }, [look, view === null, timeline]);

  const noteLines = useMemo(
    () => new Map(noted.filter(({ line }) => line > 0).map(({ line, number }) => [line, number])),
    [noted],
  );
  const notePlaces = useMemo(
    () =>
      noted
        .filter(({ line }) => line > 0 && timeline.motions.length > 0)
        .slice(0, BALLOONS_MAX)
        .map(({ number, finding, line }) => ({
          number,
          severity: finding.severity,
          at: timeline.motions[motionOfLine(timeline, line)]!.to,
        })),
    [noted, timeline],
  );
  return (
    <div class="cut-view">
      <div class="cut-plan">
        <StageView
          {...{ wood, timeline, player, colours, section, setSection, mark, view, setView }}
          path={showsPath ? path : null}
          notes={notePlaces}
          wordsAt={(at) => woodWords(wood, at, (mm) => lengthWords(mm, units))}
        />
        <Transport {...{ player, isPlaying, timeline, blocks, units, showsPath, setShowsPath }} />
        <SectionView {...{ wood, player, colours, section, setSection, board, set }} />
        <Legend />
      </div>
      <div class="cut-text">
        <ThingsFound
          noted={noted}
          fine={fine}
          onLine={(line) => {
            showLine.current(line);
            toLine(line);
          }}
        />
        {children}
        <Facts program={program} timeline={timeline} tabs={tabs.length} units={units} />
        {blocks.headings.length > 1 && (
          <label>
            Go to{" "}
            <select
              class="figure choice"
              value=""
              onChange={(event) => {
                const line = Number(event.currentTarget.value);
                event.currentTarget.value = "";
                showLine.current(line);
                toLine(line);
              }}
            >
              <option value="">a block…</option>
              {blocks.headings.map(({ line, words }) => (
                <option key={line} value={String(line)}>
                  {words}
                </option>
              ))}
            </select>
          </label>
        )}
        <Listing
          label={`Text of ${program.file}. Arrow keys go from line to line, the space bar plays.`}
          lines={program.lines}
          kindOf={blocks.kindOf}
          noted={noteLines}
          onChoose={toLine}
          onPlay={player.toggle}
          hold={hold}
        />
      </div>
    </div>
  );
}

/** How near the worst place is looked at. */
const WORST_PX_PER_MM = 8;
/** More balloons than this hide the drawing. */
const BALLOONS_MAX = 40;

/** From left to right through the middle of the sheet. */
function middleOf({ corner: [x, y], size: [width, height] }: CutProgram): SectionLine {
  return { from: { x, y: y + height / 2 }, to: { x: x + width, y: y + height / 2 } };
}
