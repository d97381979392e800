import type { JSX } from "preact";
import { useRef } from "preact/hooks";
import type { CutProgram } from "./cut-program.ts";
import type { SectionLine } from "./section.ts";
import { type Place, toMm, toPixel, type Window } from "./window.ts";

interface EndsProps {
  readonly view: Window;
  readonly section: SectionLine;
  readonly setSection: (line: SectionLine) => void;
  readonly program: CutProgram;
}

/** Handles at the ends of the section's line and in its middle: dragged, or pushed with the arrow keys. */
export function SectionEnds({ view, section, setSection, program }: EndsProps): JSX.Element {
  const { from, to } = section;
  const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
  const moved = (line: SectionLine, ends: readonly ("from" | "to")[], by: Place): SectionLine => {
    const [dx, dy] = (["x", "y"] as const).map((axis, i) => {
      const [low, high] = [program.corner[i]!, program.corner[i]! + program.size[i]!];
      const at = ends.map((end) => line[end][axis]);
      // All that moves stays on the sheet, and keeps its shape.
      return Math.min(high - Math.max(...at), Math.max(low - Math.min(...at), by[axis]));
    }) as [number, number];
    const put = (p: Place): Place => ({ x: tenths(p.x + dx), y: tenths(p.y + dy) });
    return {
      from: ends.includes("from") ? put(line.from) : line.from,
      to: ends.includes("to") ? put(line.to) : line.to,
    };
  };
  return (
    <>
      {(
        [
          ["from", from, ["from"], "The section's left end"],
          ["middle", middle, ["from", "to"], "The whole section line"],
          ["to", to, ["to"], "The section's right end"],
        ] as const
      ).map(([name, at, ends, label]) => (
        <SectionHandle
          key={name}
          view={view}
          at={at}
          label={label}
          section={section}
          put={(line, by) => setSection(moved(line, ends, by))}
        />
      ))}
    </>
  );
}

function SectionHandle({
  view,
  at,
  label,
  section,
  put,
}: {
  readonly view: Window;
  readonly at: Place;
  readonly label: string;
  readonly section: SectionLine;
  readonly put: (line: SectionLine, by: Place) => void;
}): JSX.Element | null {
  const held = useRef<{ readonly x: number; readonly y: number; readonly line: SectionLine } | null>(null);
  const { x, y } = toPixel(view, at);
  const isSeen = x >= 0 && y >= 0 && x <= view.width && y <= view.height;
  if (!isSeen && !held.current) return null;
  const letGo = (): void => {
    held.current = null;
  };
  return (
    <button
      type="button"
      class="handle"
      aria-label={`${label}. Drag it, or push it with the arrow keys.`}
      title={label}
      style={{ left: `${x}px`, top: `${y}px` }}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        held.current = { x: event.clientX, y: event.clientY, line: section };
      }}
      onPointerMove={(event) => {
        if (!held.current) return;
        const [a, b] = [toMm(view, held.current), toMm(view, { x: event.clientX, y: event.clientY })];
        put(held.current.line, { x: b.x - a.x, y: b.y - a.y });
      }}
      onPointerUp={letGo}
      onPointerCancel={letGo}
      onKeyDown={(event) => {
        const by = event.shiftKey ? 10 : 1;
        const way = { ArrowLeft: [-by, 0], ArrowRight: [by, 0], ArrowUp: [0, by], ArrowDown: [0, -by] }[
          event.key
        ];
        if (!way) return;
        event.preventDefault();
        put(section, { x: way[0]!, y: way[1]! });
      }}
    />
  );
}

function tenths(mm: number): number {
  return Math.round(10 * mm) / 10;
}
