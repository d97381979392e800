import type { JSX, RefObject } from "preact";
import { useEffect, useLayoutEffect, useMemo, useRef } from "preact/hooks";
import type { Colours } from "../page-colours.ts";
import { type CutterPath, passingAt } from "./path-layer.ts";
import type { Player } from "./player.ts";
import type { NotePlace } from "./scene.ts";
import type { SectionLine } from "./section.ts";
import { SectionEnds } from "./section-ends.tsx";
import { createStage } from "./stage.ts";
import { endOfLine, type Timeline } from "./timeline.ts";
import { usePainter } from "./use-player.ts";
import { type Place, panned, resized, toMm, type Window, wholeSheet, zoomed } from "./window.ts";
import type { Wood } from "./wood.ts";

interface StageProps {
  readonly wood: Wood;
  readonly timeline: Timeline;
  readonly player: Player;
  readonly colours: Colours;
  readonly path: CutterPath | null;
  readonly section: SectionLine;
  readonly setSection: (line: SectionLine) => void;
  readonly mark: Place | null;
  readonly notes: readonly NotePlace[];
  readonly view: Window | null;
  readonly setView: (change: (view: Window | null) => Window | null) => void;
  /** What is said of the place that the pointer is over. */
  readonly wordsAt: (at: Place) => string;
}

/** The sheet from above, while it is cut. It can be looked at closer, moved, and asked which line cuts a place. */
export function StageView(props: StageProps): JSX.Element {
  const { wood, timeline, player, colours, path, section, setSection, mark, notes, view, setView, wordsAt } =
    props;
  const { program } = wood;
  const frame = useRef<HTMLDivElement>(null);
  const films = [
    useRef<HTMLCanvasElement>(null),
    useRef<HTMLCanvasElement>(null),
    useRef<HTMLCanvasElement>(null),
  ];
  const words = useRef<HTMLParagraphElement>(null);
  const pointed = useRef<Place | null>(null);
  const stage = useRef<ReturnType<typeof createStage> | null>(null);
  useFit(frame, program, setView);
  usePainter(player, ({ seconds, isPlaying }) => {
    words.current!.textContent = pointed.current && wordsAt(pointed.current);
    const [woodFilm, pathFilm, marksFilm] = films.map(({ current }) => current);
    if (!view || !woodFilm || !pathFilm || !marksFilm) return true;
    stage.current ??= createStage({ wood: woodFilm, path: pathFilm, marks: marksFilm });
    return stage.current({
      wood,
      timeline,
      seconds,
      isPlaying,
      window: view,
      colours,
      path,
      section,
      mark,
      notes,
    });
  });
  const zoom = (factor: number, at?: Place): void =>
    setView((now) => now && zoomed(now, factor, at ?? { x: now.width / 2, y: now.height / 2 }, program));
  const keys = useMemo(() => keysOf(player, setView, program), [player, setView, program]);
  const drag = useDrag(props, frame, (at) => {
    pointed.current = at;
    player.repaint();
  });
  useEffect(() => {
    const element = frame.current!;
    // Not passive: the page would zoom.
    const onWheel = (event: WheelEvent): void => {
      if (!event.ctrlKey && !event.metaKey) return;
      event.preventDefault();
      zoom(Math.exp(-event.deltaY / 200), placeIn(element, event));
    };
    element.addEventListener("wheel", onWheel, { passive: false });
    return () => element.removeEventListener("wheel", onWheel);
  });
  const isWhole = view !== null && view.scale <= wholeSheet(program, view.width, view.height).scale;
  return (
    <div class="cut-frame">
      <div
        ref={frame}
        class="cut-stage"
        role="application"
        aria-label="The sheet from above. Arrow keys move it, plus and minus bring it nearer, 0 shows all of it, the space bar plays."
        // biome-ignore lint/a11y/noNoninteractiveTabindex: it takes keys of its own
        tabIndex={0}
        style={{
          "--sheet-ratio": String((program.size[0] + 60) / (program.size[1] + 60)),
          touchAction: isWhole ? "pan-y" : "none",
        }}
        data-window={view ? [view.left, view.bottom, view.scale].join(" ") : undefined}
        onKeyDown={keys}
        {...drag}
      >
        {films.map((film, i) => (
          <canvas key={String(i)} ref={film} class="film" />
        ))}
      </div>
      {view && <SectionEnds view={view} section={section} setSection={setSection} program={program} />}
      <p ref={words} class="cut-pointed" />
      <div class="cut-nearer">
        <button type="button" class="lettered" onClick={() => zoom(1.6)}>
          nearer
        </button>
        <button type="button" class="lettered" onClick={() => zoom(1 / 1.6)} disabled={isWhole}>
          farther
        </button>
        <button type="button" class="lettered" onClick={() => zoom(0)} disabled={isWhole}>
          whole sheet
        </button>
      </div>
    </div>
  );
}

type Sheet = Parameters<typeof wholeSheet>[0];
type SetView = StageProps["setView"];

/** The window follows the size of its frame: what is in its middle stays there. */
function useFit(frame: RefObject<HTMLElement | null>, sheet: Sheet, setView: SetView): void {
  useLayoutEffect(() => {
    const element = frame.current!;
    const fit = (): void => {
      const { clientWidth: width, clientHeight: height } = element;
      if (width > 0 && height > 0) setView((now) => resized(now, width, height, sheet));
    };
    setView(() => null);
    fit();
    const observer = new ResizeObserver(fit);
    observer.observe(element);
    return () => observer.disconnect();
  }, [frame, sheet, setView]);
}

function keysOf(player: Player, setView: SetView, sheet: Sheet): (event: KeyboardEvent) => void {
  return (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const step = event.shiftKey ? 200 : 50;
    const way = { ArrowLeft: [step, 0], ArrowRight: [-step, 0], ArrowUp: [0, step], ArrowDown: [0, -step] }[
      event.key
    ];
    const factor = { "+": 1.6, "=": 1.6, "-": 1 / 1.6, "0": 0 }[event.key];
    if (way) setView((now) => now && panned(now, way[0]!, way[1]!));
    else if (factor !== undefined)
      setView((now) => now && zoomed(now, factor, { x: now.width / 2, y: now.height / 2 }, sheet));
    else if (event.key === " ") player.toggle();
    else return;
    event.preventDefault();
  };
}

type PointerHandlers = Readonly<
  Record<
    "onPointerDown" | "onPointerMove" | "onPointerUp" | "onPointerCancel" | "onPointerLeave",
    (event: PointerEvent) => void
  >
>;

/** A drag moves the sheet, a click asks for the line that cuts there; two fingers bring it nearer. */
function useDrag(
  { view, setView, player, timeline, wood }: StageProps,
  frame: RefObject<HTMLElement | null>,
  onPoint: (at: Place | null) => void,
): PointerHandlers {
  const held = useRef(new Map<number, Place>());
  const hasMoved = useRef(false);
  const letGo = (event: PointerEvent): void => {
    held.current.delete(event.pointerId);
  };
  return {
    onPointerDown(event) {
      if (event.button !== 0) return;
      if (held.current.size === 0) hasMoved.current = false;
      frame.current!.setPointerCapture(event.pointerId);
      held.current.set(event.pointerId, placeIn(frame.current!, event));
    },
    onPointerMove(event) {
      const at = placeIn(frame.current!, event);
      if (view) onPoint(toMm(view, at));
      const before = held.current.get(event.pointerId);
      if (!before) return;
      const [dx, dy] = [at.x - before.x, at.y - before.y];
      if (!hasMoved.current && Math.hypot(dx, dy) < DRAG_PX) return;
      hasMoved.current = true;
      const other = [...held.current].find(([id]) => id !== event.pointerId)?.[1];
      held.current.set(event.pointerId, at);
      if (!other) return setView((now) => now && panned(now, dx, dy));
      const spread = (p: Place): number => Math.max(1, Math.hypot(p.x - other.x, p.y - other.y));
      setView((now) => now && zoomed(now, spread(at) / spread(before), other, wood.program));
    },
    onPointerUp(event) {
      const isClick = held.current.has(event.pointerId) && !hasMoved.current;
      letGo(event);
      if (!isClick || !view) return;
      const { index } = player.shot();
      const asked = passingAt(timeline.motions, toMm(view, placeIn(frame.current!, event)), {
        within: PICK_PX / view.scale,
        after: index,
      });
      if (asked) player.seek(endOfLine(timeline, asked.index));
    },
    onPointerCancel: letGo,
    onPointerLeave: () => onPoint(null),
  };
}

/** A pointer that goes less far than this has clicked. */
const DRAG_PX = 4;
/** How far from a line a click still means it. */
const PICK_PX = 9;

function placeIn(element: HTMLElement, { clientX, clientY }: MouseEvent): Place {
  const { left, top } = element.getBoundingClientRect();
  return { x: clientX - left - element.clientLeft, y: clientY - top - element.clientTop };
}
