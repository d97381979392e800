import type { Point } from "@dryfit/geometry";
import type { Shown } from "@dryfit/job";
import type { JSX } from "preact";
import { memo } from "preact/compat";
import { useMemo, useRef, useState } from "preact/hooks";
import { figureText } from "../figures/figure-text.ts";
import { mmPerPixel, useWidthMm } from "../measure.ts";
import type { SheetProps } from "../state/sheet-props.ts";
import { conflictOf } from "./conflict.ts";
import {
  depthsOf,
  groundMarks,
  type LaidPaper,
  laidMarks,
  laidPaper,
  laidPatterns,
  namePlace,
} from "./laid-drawing.ts";
import { boxOf, type Place, turnedOn, turnsOf } from "./place.ts";

export interface LaidProps extends SheetProps {
  readonly shown: Shown;
  readonly sheet: Shown["layout"]["sheets"][number];
  readonly places: readonly Place[];
  readonly screws: readonly Point<"sheet">[];
  readonly chosen: string | null;
  /** Parts that the notes say cannot lie where they are. */
  readonly amiss: ReadonlySet<string>;
  readonly isStale: boolean;
  readonly onChoose: (part: string) => void;
  readonly onPut: (place: Place) => void;
  readonly onFree: (part: string) => void;
}

/** One sheet with its parts, each there to be dragged or pushed; what is put stays, the rest gives way. */
export function LaidSheet(props: LaidProps): JSX.Element {
  const { board, shown, sheet, places, screws, amiss, isStale } = props;
  const paper = useRef<HTMLDivElement>(null);
  const width = useWidthMm(paper);
  const [held, setHeld] = useState<Place | null>(null);
  const drawn = useMemo(() => (width === null ? null : laidPaper(sheet, width)), [sheet, width]);
  const prefix = `laid-${sheet.id}`;
  const parts = useMemo(
    () => shown.assembly.parts.filter(({ id }) => sheet.parts.some(({ part }) => part === id)),
    [shown, sheet],
  );
  const { design } = board.drawn;
  const wrong = held && design ? conflictOf(held, places, shown.assembly.parts, sheet, design) : null;
  const length = (mm: number): string => figureText(mm, "length", board.units);
  return (
    <div class="laid-place" ref={paper}>
      {drawn && (
        // biome-ignore lint/a11y/useSemanticElements: a fieldset is no drawing
        <svg
          class="drawing laid-sheet"
          viewBox={`0 0 ${drawn.width} ${drawn.height}`}
          style={{ width: `${drawn.width}mm`, height: `${drawn.height}mm` }}
          role="group"
          aria-label={`${sheet.id}, ${length(sheet.stock.size[0])} by ${length(sheet.stock.size[1])}, with ${parts.length} parts`}
        >
          <defs dangerouslySetInnerHTML={{ __html: laidPatterns(parts, sheet.stock.grain, prefix) }} />
          <Marks
            svg={useMemo(
              () => groundMarks(sheet, shown, isStale || held ? [] : screws, drawn, board.units),
              [sheet, shown, isStale, held === null, screws, drawn, board.units],
            )}
          />
          {parts.map((part) => {
            const place = places.find((each) => each.part === part.id);
            if (!place) return null;
            return (
              <LaidPart
                key={part.id}
                {...props}
                part={part}
                place={place}
                held={held?.part === part.id ? held : null}
                paper={drawn}
                prefix={prefix}
                isAmiss={!isStale && amiss.has(part.id)}
                onHold={setHeld}
              />
            );
          })}
          {held && (
            <HeldPart
              part={parts.find(({ id }) => id === held.part)!}
              held={held}
              paper={drawn}
              prefix={prefix}
              isAmiss={wrong !== null}
            />
          )}
        </svg>
      )}
      <p class="held-words" role="status">
        {held && words(held, wrong, length)}
      </p>
    </div>
  );
}

function words(held: Place, wrong: string | null, length: (mm: number) => string): string {
  const at = `x ${length(held.x)}, y ${length(held.y)}`;
  return wrong === null ? `${at}: it can lie here.` : `${at}: ${wrong}.`;
}

interface PartProps extends LaidProps {
  readonly part: Shown["assembly"]["parts"][number];
  readonly place: Place;
  readonly paper: LaidPaper;
  readonly prefix: string;
  readonly isAmiss: boolean;
  /** Where it is being dragged. */
  readonly held: Place | null;
  readonly onHold: (place: Place | null) => void;
}

function LaidPart(props: PartProps): JSX.Element {
  const { board, shown, sheet, part, place, paper, prefix, chosen, isStale, isAmiss, held } = props;
  const { onChoose, onPut, onFree, onHold } = props;
  const start = useRef<{ x: number; y: number; place: Place; isMoved: boolean } | null>(null);
  const step = board.units === "mm" ? 1 : 25.4 / 16;
  const length = (mm: number): string => figureText(mm, "length", board.units);
  const turns = turnsOf(part, sheet.stock.grain);
  const tabs = useMemo(
    () =>
      isStale
        ? []
        : shown.programs
            .filter((program) => program.sheet === sheet.id)
            .flatMap((program) => program.tabs)
            .filter((tab) => tab.part === part.id)
            .map(({ at: [x, y], length: long }) => ({ at: { x, y }, length: long })),
    [shown, sheet, part, isStale],
  );
  const nameAt = useMemo(() => namePlace(part), [part]);
  const svg = useMemo(
    () => laidMarks(part, place, tabs, paper, prefix, nameAt),
    [part, place.x, place.y, place.turn, tabs, paper, prefix, nameAt],
  );
  /** Whole steps from the sheet's corner, and never off its left or lower edge. */
  const onGrid = (mm: number): number => Math.max(0, Math.round(mm / step) * step);
  const box = boxOf(part, place);
  const deep = depthsOf(part);
  const label = [
    part.title,
    ...(deep === "" ? [] : [deep]),
    `${place.isLocked ? "locked" : "nested"} at x ${length(place.x)}, y ${length(place.y)}, turned ${place.turn}°`,
    ...(isAmiss ? ["it cannot lie here"] : []),
  ].join(", ");
  const corner = {
    x: paper.view.origin.x + box.min.x * paper.view.scale,
    y: paper.view.origin.y - box.max.y * paper.view.scale,
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: a button cannot stand in a drawing
    <g
      class={`laid ${place.isLocked ? "locked" : ""} ${isAmiss ? "amiss" : ""} ${chosen === part.id ? "chosen" : ""} ${held ? "left" : ""}`}
      role="button"
      tabIndex={0}
      aria-label={`${label}. The arrow keys move and lock it, R turns it, L locks or frees it.`}
      data-part={part.id}
      onFocus={() => onChoose(part.id)}
      onPointerDown={(event) => {
        if (event.button !== 0 || (event.pointerType === "touch" && chosen !== part.id)) return;
        event.currentTarget.setPointerCapture(event.pointerId);
        start.current = { x: event.clientX, y: event.clientY, place, isMoved: false };
      }}
      onPointerMove={(event) => {
        const from = start.current;
        if (!from) return;
        const perPixel = mmPerPixel() / paper.view.scale;
        const [dx, dy] = [event.clientX - from.x, from.y - event.clientY];
        if (!from.isMoved && Math.hypot(dx, dy) < LEAST_DRAG_PX) return;
        from.isMoved = true;
        onHold({
          ...from.place,
          x: onGrid(from.place.x + dx * perPixel),
          y: onGrid(from.place.y + dy * perPixel),
        });
      }}
      onPointerUp={() => {
        start.current = null;
        onHold(null);
        if (held) onPut(held);
      }}
      onPointerCancel={() => {
        start.current = null;
        onHold(null);
      }}
      onKeyDown={(event) => {
        if (event.ctrlKey || event.metaKey || event.altKey) return;
        if (event.key === "Escape" && start.current) {
          start.current = null;
          return onHold(null);
        }
        const by = step * (event.shiftKey ? 10 : 1);
        const moves: Readonly<Record<string, Partial<Place>>> = {
          ArrowLeft: { x: Math.max(0, place.x - by) },
          ArrowRight: { x: place.x + by },
          ArrowUp: { y: place.y + by },
          ArrowDown: { y: Math.max(0, place.y - by) },
          r: { turn: turnedOn(turns, place.turn) },
          l: {},
        };
        const move = moves[event.key] ?? moves[event.key.toLowerCase()];
        if (!move) return;
        event.preventDefault();
        if (event.key.toLowerCase() === "l" && place.isLocked) onFree(part.id);
        else onPut({ ...place, ...move });
      }}
    >
      <title>{label}</title>
      <Marks svg={svg} />
      {place.isLocked && <LockMark {...corner} />}
    </g>
  );
}

/** The part under the hand, over all others. */
function HeldPart({
  part,
  held,
  paper,
  prefix,
  isAmiss,
}: Pick<PartProps, "part" | "paper" | "prefix" | "isAmiss"> & { readonly held: Place }): JSX.Element {
  const nameAt = useMemo(() => namePlace(part), [part]);
  return (
    <g class={`laid held chosen ${isAmiss ? "amiss" : ""}`}>
      <Marks svg={laidMarks(part, held, [], paper, prefix, nameAt)} />
    </g>
  );
}

/** Less than this is a click, pixels. */
const LEAST_DRAG_PX = 4;

/** A closed padlock, drawn small in the part's upper left corner. */
function LockMark({ x, y }: { readonly x: number; readonly y: number }): JSX.Element {
  return (
    <g class="lock-mark" transform={`translate(${(x + 1.4).toFixed(2)} ${(y + 1.2).toFixed(2)})`}>
      <path d="M0.7 2V1.3a1.1 1.1 0 0 1 2.2 0V2" fill="none" />
      <rect x="0" y="2" width="3.6" height="2.6" />
    </g>
  );
}

const Marks = memo(
  ({ svg }: { readonly svg: string }): JSX.Element => <g dangerouslySetInnerHTML={{ __html: svg }} />,
);
