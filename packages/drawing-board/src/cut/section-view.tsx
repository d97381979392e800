import type { JSX } from "preact";
import { useRef } from "preact/hooks";
import { FigureInput } from "../figures/figure-input.tsx";
import type { Colours } from "../page-colours.ts";
import type { SheetProps } from "../state/sheet-props.ts";
import { valueIn, WANTED } from "../state/type-in.ts";
import { lengthWords } from "./lengths.ts";
import { MM } from "./path-layer.ts";
import type { Player } from "./player.ts";
import { leftIn, lengthOf, type SectionLine, type Stretch, sectionThrough, sectionWords } from "./section.ts";
import { usePainter } from "./use-player.ts";
import type { Wood } from "./wood.ts";

interface SectionProps extends SheetProps {
  readonly wood: Wood;
  readonly player: Player;
  readonly colours: Colours;
  readonly section: SectionLine;
  readonly setSection: (line: SectionLine) => void;
}

/** Section A–A: the wood along the line, heights drawn larger where it is long. */
export function SectionView(props: SectionProps): JSX.Element {
  const { wood, player, colours, section, board } = props;
  const canvas = useRef<HTMLCanvasElement>(null);
  const words = useRef<HTMLParagraphElement>(null);
  const heights = useRef<HTMLSpanElement>(null);
  const { thickness } = wood.program;
  usePainter(player, ({ isPlaying }) => {
    const stretches = sectionThrough(wood, section);
    const times = paintSection(canvas.current!, stretches, {
      length: lengthOf(section),
      thickness,
      colours,
    });
    heights.current!.textContent =
      times < 1.05 ? "true to scale" : `heights ${times.toFixed(1)} times as large`;
    if (!isPlaying)
      words.current!.textContent = sectionWords(stretches, thickness, (mm) => lengthWords(mm, board.units));
    return true;
  });
  return (
    <figure class="cut-section">
      <figcaption>
        <b>A–A</b> <span class="scale" ref={heights} />
        <SectionFigures {...props} />
      </figcaption>
      <canvas ref={canvas} role="img" aria-label="The section through the wood, in words below" />
      <p ref={words} />
    </figure>
  );
}

/** Where the line begins and ends, to be typed. */
function SectionFigures({ section, setSection, board, set }: SectionProps): JSX.Element {
  const field = (end: "from" | "to", axis: "x" | "y"): JSX.Element => (
    <span class="pair">
      {axis.toUpperCase()}{" "}
      <FigureInput
        board={board}
        set={set}
        path={`section.${end}.${axis}`}
        label={`The section's ${end === "from" ? "left" : "right"} end, ${axis.toUpperCase()}`}
        measure="length"
        value={section[end][axis]}
        typeIn={(text) => {
          const typed = valueIn(text, "length", board.units, "mm");
          if (!typed) return { ok: false, why: WANTED.length };
          setSection({ ...section, [end]: { ...section[end], [axis]: typed.mm } });
          return { ok: true, change: null };
        }}
      />
    </span>
  );
  return (
    <span class="row cut-ends">
      from {field("from", "x")} {field("from", "y")} to {field("to", "x")} {field("to", "y")}
    </span>
  );
}

interface Drawn {
  readonly length: number;
  readonly thickness: number;
  readonly colours: Colours;
}

/** Draws the wood, hatched where it is cut by the plane (ISO 128). Says how many times heights are enlarged. */
function paintSection(canvas: HTMLCanvasElement, stretches: readonly Stretch[], drawn: Drawn): number {
  const { length, thickness, colours } = drawn;
  const { clientWidth: width, clientHeight: height } = canvas;
  const [wide, high] = [Math.round(width * devicePixelRatio), Math.round(height * devicePixelRatio)];
  if (canvas.width !== wide || canvas.height !== high) Object.assign(canvas, { width: wide, height: high });
  const context = canvas.getContext("2d")!;
  context.setTransform(devicePixelRatio, 0, 0, devicePixelRatio, 0, 0);
  context.clearRect(0, 0, width, height);
  const room = height - 2 * ROOM_PX;
  const scale = Math.min((width - 2 * ROOM_PX) / length, room / thickness);
  const tall = room / thickness;
  const left = (width - length * scale) / 2;
  const at = (mm: number): number => left + mm * scale;
  const down = (mm: number): number => ROOM_PX + mm * tall;
  const wood = new Path2D();
  const edges = new Path2D();
  let [top, bottom] = [0, 0];
  let isOpen = false;
  const close = (x: number): void => {
    if (isOpen) line(edges, x, down(top), x, down(bottom));
    isOpen = false;
  };
  for (const stretch of stretches) {
    const [x0, x1] = [at(stretch.from), at(stretch.to)];
    const isWood = leftIn(stretch, thickness) > 0;
    if (!isWood) {
      close(x0);
      continue;
    }
    const [newTop, newBottom] = [stretch.depth!, thickness - stretch.under];
    if (!isOpen) line(edges, x0, down(newTop), x0, down(newBottom));
    else {
      line(edges, x0, down(top), x0, down(newTop));
      line(edges, x0, down(bottom), x0, down(newBottom));
    }
    [top, bottom, isOpen] = [newTop, newBottom, true];
    wood.rect(x0, down(top), x1 - x0, down(bottom) - down(top));
    line(edges, x0, down(top), x1, down(top));
    line(edges, x0, down(bottom), x1, down(bottom));
  }
  close(at(length));
  context.strokeStyle = colours.pencil;
  context.lineWidth = 0.18 * MM;
  context.setLineDash([2 * MM, MM]);
  context.strokeRect(left, down(0), length * scale, down(thickness) - down(0));
  context.setLineDash([]);
  hatch(context, wood, colours.ink, width, height);
  context.strokeStyle = colours.ink;
  context.lineWidth = 0.4 * MM;
  context.lineCap = "round";
  context.stroke(edges);
  return tall / scale;
}

const ROOM_PX = 6;

function hatch(
  context: CanvasRenderingContext2D,
  area: Path2D,
  ink: string,
  width: number,
  height: number,
): void {
  context.save();
  context.clip(area);
  context.strokeStyle = ink;
  context.lineWidth = 0.18 * MM;
  context.beginPath();
  for (let x = -height; x < width; x += 2 * MM) {
    context.moveTo(x, height);
    context.lineTo(x + height, 0);
  }
  context.stroke();
  context.restore();
}

function line(path: Path2D, x0: number, y0: number, x1: number, y1: number): void {
  path.moveTo(x0, y0);
  path.lineTo(x1, y1);
}
