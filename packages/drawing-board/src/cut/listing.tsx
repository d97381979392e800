import type { JSX } from "preact";
import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import type { Blocks } from "./blocks.ts";

interface ListingProps {
  readonly label: string;
  readonly lines: readonly string[];
  /** How each line is marked in the margin. */
  readonly kindOf: Blocks["kindOf"];
  /** Lines with something to say, and the number of its note. */
  readonly noted: ReadonlyMap<number, number>;
  /** Told of a line that was chosen. */
  readonly onChoose: (line: number) => void;
  readonly onPlay?: () => void;
  /** Called with the function that shows a line. */
  readonly hold: (show: (line: number) => void) => void;
}

/** The program's text. Only the lines in sight are on the page: programs are long. */
export function Listing({ label, lines, kindOf, noted, onChoose, onPlay, hold }: ListingProps): JSX.Element {
  const box = useRef<HTMLDivElement>(null);
  const [active, setActive] = useState(1);
  const [top, setTop] = useState(0);
  const [height, setHeight] = useState(300);
  useLayoutEffect(() => {
    const element = box.current!;
    const look = (): void => setHeight(element.clientHeight);
    look();
    const observer = new ResizeObserver(look);
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  useEffect(() => {
    hold((line) => {
      if (line === 0) return;
      setActive(line);
      setTop(keptInSight(box.current!, line));
    });
  }, [hold]);
  const go = (line: number): void => {
    const to = Math.min(lines.length, Math.max(1, line));
    setActive(to);
    setTop(keptInSight(box.current!, to));
    onChoose(to);
  };
  const first = Math.max(1, Math.floor(top / ROW_PX) - 3);
  const last = Math.min(lines.length, Math.ceil((top + height) / ROW_PX) + 3);
  const digits = String(lines.length).length;
  return (
    <div
      ref={box}
      class="cut-listing"
      role="listbox"
      aria-label={label}
      aria-activedescendant={active >= first && active <= last ? `line-${active}` : undefined}
      tabIndex={0}
      onScroll={(event) => setTop(event.currentTarget.scrollTop)}
      onKeyDown={(event) => {
        const page = Math.max(1, Math.floor(height / ROW_PX) - 1);
        const to = {
          ArrowDown: active + 1,
          ArrowUp: active - 1,
          PageDown: active + page,
          PageUp: active - page,
          Home: 1,
          End: lines.length,
        }[event.key];
        if (to !== undefined) go(to);
        else if (event.key === " " && onPlay) onPlay();
        else return;
        event.preventDefault();
      }}
    >
      <div class="cut-lines" role="presentation" style={{ height: `${lines.length * ROW_PX}px` }}>
        {Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => {
          const line = first + i;
          const number = noted.get(line);
          return (
            // biome-ignore lint/a11y/useKeyWithClickEvents: the list takes the keys
            // biome-ignore lint/a11y/useFocusableInteractive: the list holds the focus and names the line
            <div
              key={line}
              id={`line-${line}`}
              class={`cut-line ${kindOf(line)}`}
              role="option"
              aria-selected={line === active}
              aria-setsize={lines.length}
              aria-posinset={line}
              style={{ top: `${(line - 1) * ROW_PX}px` }}
              onClick={() => go(line)}
            >
              <span class="cut-number" style={{ width: `${digits + 1}ch` }}>
                {line}
              </span>
              <span class="cut-words">{lines[line - 1]}</span>
              {number !== undefined && <span class="balloon error">{number}</span>}
            </div>
          );
        })}
      </div>
    </div>
  );
}

/** Moves the text so that a line stands a third down, unless it is well in sight. Gives how far down the text is. */
function keptInSight(box: HTMLElement, line: number): number {
  const y = (line - 1) * ROW_PX;
  const isSeen = y >= box.scrollTop + 2 * ROW_PX && y <= box.scrollTop + box.clientHeight - 4 * ROW_PX;
  if (!isSeen) box.scrollTop = y - box.clientHeight / 3;
  return box.scrollTop;
}

/** As the style has it. */
const ROW_PX = 20;
