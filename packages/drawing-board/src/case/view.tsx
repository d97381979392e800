import { arrowhead, type OnPaper, spot } from "@dryfit/drawing";
import type { JSX } from "preact";
import { memo } from "preact/compat";
import { DerivedFigure } from "../figures/derived-figure.tsx";
import { FigureField } from "../figures/figure-field.tsx";
import type { Pin } from "../notes/pins.ts";
import { sameDesign } from "../state/board-state.ts";
import type { SheetProps } from "../state/sheet-props.ts";
import { HandleMark } from "./handle-mark.tsx";
import type { Figure, ViewSpec } from "./view-spec.ts";

interface ViewProps extends SheetProps {
  readonly view: ViewSpec;
  readonly pins: readonly Pin[];
}

/** One view: the drawing, and on it the figures to type on, the handles to drag and the balloons to read. */
export const View: (props: ViewProps) => JSX.Element = memo(
  Paper,
  (before, after) =>
    before.view === after.view && before.pins === after.pins && sameDesign(before.board, after.board),
);

function Paper({ view, pins, ...board }: ViewProps): JSX.Element {
  const { width, height } = view.size;
  return (
    <figure class={`view view-${view.id}`} style={{ width: `${width}mm` }}>
      <figcaption>
        {view.title} <span class="scale">{scaleWords(view.scale)}</span>
      </figcaption>
      <div class="paper" style={{ width: `${width}mm`, height: `${height}mm` }}>
        <Lines view={view} />
        <svg class="leaders" viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
          {pins.map(({ note, at, to }) => (
            <g key={note.number}>
              <path d={`M${spot(at)}L${spot(to)}`} />
              <g dangerouslySetInnerHTML={{ __html: arrowhead(to, unit(at, to), 1.8) }} />
            </g>
          ))}
        </svg>
        {view.handles.map((handle) => (
          <HandleMark key={handle.id} handle={handle} scale={view.scale} {...board} />
        ))}
        {view.figures.map((figure) => (
          <span key={keyOf(figure)} class={`at ${figure.kind}`} style={placed(figure.at)}>
            <FigureOn figure={figure} {...board} />
          </span>
        ))}
        {pins.map(({ note, at }) => (
          <a
            key={note.number}
            class={`at balloon ${note.severity}`}
            style={placed(at)}
            href={`#note-${note.number}`}
            aria-label={`${note.severity} ${note.number}: ${note.message}`}
            title={[note.message, note.wayOut].filter(Boolean).join(" ")}
            onClick={(event) => {
              event.preventDefault();
              document.getElementById(`note-${note.number}`)?.focus();
            }}
          >
            {note.number}
          </a>
        ))}
      </div>
    </figure>
  );
}

/** The lines change only with the drawing, not with what is typed or told. */
const Lines = memo(
  ({ view }: { readonly view: ViewSpec }): JSX.Element => (
    <svg
      class="drawing"
      viewBox={`0 0 ${view.size.width} ${view.size.height}`}
      role="img"
      aria-label={`${view.title}. ${view.description}`}
      dangerouslySetInnerHTML={{ __html: view.body }}
    />
  ),
  (before, after) => before.view.body === after.view.body,
);

function FigureOn({ figure, board, set }: SheetProps & { readonly figure: Figure }): JSX.Element {
  if (figure.kind === "derived")
    return <DerivedFigure explanation={figure.explanation} units={board.units} />;
  const { path, label, measure, value, sign } = figure;
  return (
    <>
      {sign && <span class="sign">{sign}</span>}
      <FigureField path={path} label={label} measure={measure} value={value} board={board} set={set} />
    </>
  );
}

function keyOf(figure: Figure): string {
  return figure.kind === "driving" ? figure.path : figure.explanation.id;
}

function placed({ x, y }: OnPaper): { readonly left: string; readonly top: string } {
  return { left: `${x.toFixed(2)}mm`, top: `${y.toFixed(2)}mm` };
}

function unit(from: OnPaper, to: OnPaper): OnPaper {
  const span = Math.hypot(to.x - from.x, to.y - from.y) || 1;
  return { x: (to.x - from.x) / span, y: (to.y - from.y) / span };
}

function scaleWords(scale: number): string {
  const figure = (n: number): string => String(Number(n.toFixed(2)));
  return scale >= 1 ? `${figure(scale)} : 1` : `1 : ${figure(1 / scale)}`;
}
