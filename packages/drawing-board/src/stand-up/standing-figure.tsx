import { explodedDrawing } from "@dryfit/drawing";
import type { Assembly } from "@dryfit/joinery";
import type { JSX } from "preact";
import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import { useColours } from "../page-colours.ts";
import { unpackedModule } from "../unpack.ts";
import { type Eye, eyeAfterKey, eyeWords, orbited, PRESETS, zoomed } from "./eye.ts";
import { placedLabels } from "./labels.ts";
import type * as Scene from "./scene.ts";
import type { Look, PartsScene } from "./scene.ts";
import packedScene from "./scene.ts?packed";
import type { ScenePart } from "./scene-model.ts";

interface FigureProps {
  readonly assembly: Assembly;
  readonly parts: readonly ScenePart[];
  readonly look: Pick<Look, "offsets" | "swing" | "bold" | "clashes">;
  /** Parts whose names are written beside them. */
  readonly named: readonly string[];
  readonly titleOf: (part: string) => string;
  /** What the parts are doing, for people who hear the drawing. */
  readonly words: string;
}

/** The case in 3D, to be looked at from all round. It draws when something changed, and then rests. */
export function StandingFigure(props: FigureProps): JSX.Element {
  const { assembly, parts, look, named, titleOf, words } = props;
  const [eye, setEye] = useState<Eye>({ ...PRESETS[0]![1], zoom: 1 });
  const [isFlat, setFlat] = useState(false);
  const seen = eyeWords(eye);
  // A canvas keeps its first drawing's memory: other parts get another canvas.
  const canvasOf = useRef({ parts, number: 0 });
  if (canvasOf.current.parts !== parts) canvasOf.current = { parts, number: canvasOf.current.number + 1 };
  return (
    <figure class="standing">
      <figcaption class="row">
        {PRESETS.map(([title, { turnDeg, riseDeg }]) => (
          <button
            key={title}
            type="button"
            class="lettered"
            disabled={isFlat}
            aria-pressed={eye.turnDeg === turnDeg && eye.riseDeg === riseDeg}
            onClick={() => setEye({ turnDeg, riseDeg, zoom: 1 })}
          >
            {title}
          </button>
        ))}
        <button type="button" class="lettered" disabled={isFlat} onClick={() => setEye(zoomed(eye, 1.25))}>
          nearer
        </button>
        <button type="button" class="lettered" disabled={isFlat} onClick={() => setEye(zoomed(eye, 0.8))}>
          farther
        </button>
      </figcaption>
      {isFlat ? (
        <Flat assembly={assembly} />
      ) : (
        <Drawn
          key={canvasOf.current.number}
          parts={parts}
          look={{ ...look, eye }}
          named={named}
          titleOf={titleOf}
          label={`${seen}. ${words} The arrow keys turn it, plus and minus bring it nearer, Home puts it back.`}
          onEye={setEye}
          onFail={() => setFlat(true)}
        />
      )}
    </figure>
  );
}

/** Where the browser gives no 3D: the parts pulled apart, on paper. */
function Flat({ assembly }: { readonly assembly: Assembly }): JSX.Element {
  return (
    <>
      <p role="status">
        This browser draws nothing in 3D here, so the parts are drawn pulled apart, as they are designed. The
        order, the joints and their sections are those of the parts as cut.
      </p>
      <div class="flat" dangerouslySetInnerHTML={{ __html: explodedDrawing(assembly) }} />
    </>
  );
}

interface DrawnProps extends Omit<FigureProps, "assembly" | "look" | "words"> {
  readonly look: Omit<Look, "colours" | "size">;
  readonly label: string;
  readonly onEye: (next: (eye: Eye) => Eye) => void;
  readonly onFail: () => void;
}

function Drawn({ parts, look, named, titleOf, label, onEye, onFail }: DrawnProps): JSX.Element {
  const canvas = useRef<HTMLCanvasElement>(null);
  const names = useRef<HTMLDivElement>(null);
  const scene = useRef<PartsScene | null>(null);
  const held = useRef<{ x: number; y: number } | null>(null);
  const colours = useColours();
  const [size, setSize] = useState<Look["size"] | null>(null);

  useLayoutEffect(() => {
    const element = canvas.current!;
    scene.current = unpackedModule<typeof Scene>(packedScene).createScene(element, parts);
    if (!scene.current) return onFail();
    const lost = (event: Event): void => {
      event.preventDefault();
      onFail();
    };
    element.addEventListener("webglcontextlost", lost);
    const measure = (): void => setSize({ width: element.clientWidth, height: element.clientHeight });
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    measure();
    return () => {
      observer.disconnect();
      element.removeEventListener("webglcontextlost", lost);
      scene.current?.dispose();
      scene.current = null;
    };
  }, []);

  useEffect(() => {
    if (!size || size.width === 0) return;
    const frame = requestAnimationFrame(() => {
      const spots = scene.current?.draw({ ...look, colours, size });
      if (spots && names.current) placedLabels(names.current, spots, size);
    });
    return () => cancelAnimationFrame(frame);
  });

  return (
    <div class="stage">
      <canvas
        ref={canvas}
        role="img"
        tabIndex={0}
        aria-label={label}
        onKeyDown={(event) => {
          if (event.ctrlKey || event.metaKey || event.altKey) return;
          const next = eyeAfterKey(look.eye, event.key, event.shiftKey);
          if (!next) return;
          event.preventDefault();
          onEye(() => next);
        }}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          held.current = { x: event.clientX, y: event.clientY };
        }}
        onPointerMove={(event) => {
          const from = held.current;
          if (!from) return;
          held.current = { x: event.clientX, y: event.clientY };
          const [dx, dy] = [event.clientX - from.x, event.clientY - from.y];
          onEye((eye) => orbited(eye, -dx * DEG_PER_PIXEL, dy * DEG_PER_PIXEL));
        }}
        onPointerUp={() => {
          held.current = null;
        }}
        onPointerCancel={() => {
          held.current = null;
        }}
      />
      <div class="names" ref={names} aria-hidden="true">
        {named.map((part) => (
          <span key={part} data-part={part}>
            {titleOf(part)}
          </span>
        ))}
      </div>
    </div>
  );
}

const DEG_PER_PIXEL = 0.4;
