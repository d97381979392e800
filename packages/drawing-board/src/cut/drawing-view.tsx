import type { View } from "@dryfit/drawing";
import type { DxfReading } from "@dryfit/dxf";
import type { OutFile } from "@dryfit/job";
import type { Finding } from "@dryfit/joinery";
import type { JSX } from "preact";
import { useCallback, useMemo, useRef, useState } from "preact/hooks";
import { mmPerPixel, useWidthMm } from "../measure.ts";
import type { SheetProps } from "../state/sheet-props.ts";
import { Row, Table } from "../tables/table.tsx";
import { linesOf } from "./cut-program.ts";
import { boxOf, drawingMarks, layerWords } from "./drawing-marks.ts";
import type { Meanings } from "./judge-file.ts";
import { lengthWords } from "./lengths.ts";
import { Listing } from "./listing.tsx";
import { notedOf } from "./noted.ts";
import { ThingsFound } from "./things-found.tsx";

interface DrawingViewProps extends Pick<SheetProps, "board"> {
  readonly file: OutFile;
  readonly reading: DxfReading;
  readonly findings: readonly Finding[];
  readonly meanings: Meanings;
}

/** A DXF file as a cutting service reads it: its contours by layer, and its text, each tied to the other. */
export function DrawingView({ file, reading, findings, meanings, board }: DrawingViewProps): JSX.Element {
  const paper = useRef<HTMLDivElement>(null);
  const width = useWidthMm(paper);
  const [zoom, setZoom] = useState(1);
  const [line, setLine] = useState(0);
  const lines = useMemo(() => linesOf(file.text), [file]);
  const box = useMemo(() => boxOf(reading), [reading]);
  const noted = useMemo(() => notedOf(findings), [findings]);
  const noteLines = useMemo(() => new Map(noted.map((each) => [each.line, each.number])), [noted]);
  const shape = useMemo(() => (box && width ? shapeFor(box, width * zoom) : null), [box, width, zoom]);
  const marks = useMemo(
    () => (shape ? drawingMarks(shape.view, reading, meanings) : ""),
    [shape, reading, meanings],
  );
  const starts = useMemo(
    () =>
      [...reading.loops, ...reading.paths, ...reading.texts, ...reading.unread]
        .map((each) => each.line)
        .sort((a, b) => a - b),
    [reading],
  );
  const showLine = useRef<(line: number) => void>(() => {});
  const hold = useCallback((show: (line: number) => void) => {
    showLine.current = show;
  }, []);
  // A line of the text belongs to the thing that began last before it.
  const toLine = (to: number): void => setLine(starts.findLast((start) => start <= to) ?? 0);
  const length = (mm: number): string => lengthWords(mm, board.units);
  return (
    <div class="cut-view">
      <div class="cut-plan">
        <section
          class="cut-paper"
          ref={paper}
          // biome-ignore lint/a11y/noNoninteractiveTabindex: it is scrolled by keyboard
          tabIndex={0}
          aria-label={`The contours of ${file.file}`}
        >
          {shape ? (
            // biome-ignore lint/a11y/useKeyWithClickEvents: by keyboard the text beside it leads to each contour
            <svg
              class="drawing contours"
              style={{ width: `${shape.width}mm`, height: `${shape.height}mm` }}
              viewBox={`0 0 ${shape.width} ${shape.height}`}
              role="img"
              aria-label={`${reading.loops.length} closed contours, ${reading.paths.length} open lines`}
              onClick={(event) => {
                const asked = (event.target as Element).closest("[data-line]")?.getAttribute("data-line");
                if (!asked) return;
                setLine(Number(asked));
                showLine.current(Number(asked));
              }}
            >
              {/* Figures only: no text of the file stands in it. */}
              <g dangerouslySetInnerHTML={{ __html: marks }} />
              {line > 0 && <Chosen marks={marks} line={line} />}
            </svg>
          ) : (
            <p class="waiting">There is nothing in it that can be drawn.</p>
          )}
        </section>
        <div class="row">
          <button type="button" class="lettered" onClick={() => setZoom(zoom * 1.6)} disabled={zoom > 20}>
            nearer
          </button>
          <button
            type="button"
            class="lettered"
            onClick={() => setZoom(Math.max(1, zoom / 1.6))}
            disabled={zoom === 1}
          >
            farther
          </button>
          <button type="button" class="lettered" onClick={() => setZoom(1)} disabled={zoom === 1}>
            all of it
          </button>
        </div>
      </div>
      <div class="cut-text">
        <ThingsFound
          noted={noted}
          fine="Fit to cut: every contour is closed, single and free of the others."
          onLine={(to) => {
            showLine.current(to);
            toLine(to);
          }}
        />
        <Table title={file.file}>
          <Row label="release">{reading.release ?? "not stated"}</Row>
          <Row label="units">{unitWords(reading)}</Row>
          {box && (
            <Row label="extents">
              {length(box.max.x - box.min.x)} × {length(box.max.y - box.min.y)}
            </Row>
          )}
          {reading.layers.map((layer) => (
            <Row key={layer} label={layer}>
              {countsOn(layer, reading)}; {layerWords(meanings[layer] ?? null, length)}
            </Row>
          ))}
        </Table>
        <Listing
          label={`Text of ${file.file}. Arrow keys go from line to line.`}
          lines={lines}
          kindOf={() => "none"}
          noted={noteLines}
          onChoose={toLine}
          hold={hold}
        />
      </div>
    </div>
  );
}

/** The contour in hand once more, heavier. */
function Chosen({ marks, line }: { readonly marks: string; readonly line: number }): JSX.Element | null {
  const d = new RegExp(`data-line="${line}"[^>]*>.*? d="([^"]*)"`).exec(marks)?.[1];
  return d ? <path class="block" d={d} /> : null;
}

interface Shape {
  readonly view: View;
  readonly width: number;
  readonly height: number;
}

function shapeFor({ min, max }: NonNullable<ReturnType<typeof boxOf>>, width: number): Shape {
  const room = 4;
  const span = Math.max(max.x - min.x, 1e-3);
  const tallest = (0.6 * window.innerHeight * mmPerPixel() * width) / Math.max(width, 1);
  const scale = Math.min(
    (width - 2 * room) / span,
    (Math.max(tallest, 60) * 4) / Math.max(max.y - min.y, 1e-3),
  );
  const height = (max.y - min.y) * scale + 2 * room;
  return {
    view: { origin: { x: room - min.x * scale, y: height - room + min.y * scale }, scale },
    width,
    height,
  };
}

function countsOn(layer: string, { loops, paths, texts, unread }: DxfReading): string {
  const kinds = [
    [loops, "closed"],
    [paths, "open"],
    [texts, "texts"],
    [unread, "not read"],
  ] as const;
  return kinds
    .map(([things, words]) => [things.filter((each) => each.layer === layer).length, words] as const)
    .filter(([count]) => count > 0)
    .map(([count, words]) => `${count} ${words}`)
    .join(", ");
}

function unitWords({ unitCode, release }: DxfReading): string {
  if (unitCode === 4) return "mm";
  if (unitCode === 1) return "inches";
  if (unitCode !== null && unitCode !== 0) return `unit ${unitCode} of the header`;
  return release === "AC1009" ? "not stated, as R12 cannot; read as mm" : "not stated; read as mm";
}
