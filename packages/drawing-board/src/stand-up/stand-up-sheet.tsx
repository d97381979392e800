import type { JSX } from "preact";
import { useEffect, useRef } from "preact/hooks";
import type { SheetProps } from "../state/sheet-props.ts";
import { unpackedModule } from "../unpack.ts";
import type * as Scene from "./scene.ts";
import packedScene from "./scene.ts?packed";

/** The parts as cut, standing as the case. */
export function StandUpSheet({ board }: SheetProps): JSX.Element {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => unpackedModule<typeof Scene>(packedScene).createScene(canvas.current!).dispose, []);
  const parts = board.made?.made.shown?.proof?.cutParts ?? [];
  return (
    <div>
      <canvas ref={canvas} />
      <ul>
        {parts.map(({ part }) => (
          <li key={part}>{part}</li>
        ))}
      </ul>
    </div>
  );
}
