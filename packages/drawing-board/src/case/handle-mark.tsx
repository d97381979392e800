import type { JSX } from "preact";
import { useRef } from "preact/hooks";
import { mmPerPixel } from "../measure.ts";
import { type Edit, edit, preview, unpreview } from "../state/edit.ts";
import type { SheetProps } from "../state/sheet-props.ts";
import { lengthForFile } from "../state/type-in.ts";
import type { Handle } from "./view-spec.ts";

/** A place on the drawing to drag, or to push with the arrow keys: 1 mm (1/16 in) a press, ten with Shift. */
export function HandleMark({
  handle,
  scale,
  board,
  set,
}: SheetProps & { readonly handle: Handle; readonly scale: number }): JSX.Element {
  const held = useRef<{ x: number; y: number; handle: Handle; edits: readonly Edit[] } | null>(null);
  const frame = useRef(0);
  const step = board.units === "mm" ? 1 : 25.4 / 16;
  /** What the design becomes when the handle `from` is moved by so much wood. */
  const moved = (from: Handle, dx: number, up: number): readonly Edit[] =>
    [
      from.across && { path: from.across.path, mm: from.across.value + dx, by: dx },
      from.up && { path: from.up.path, mm: from.up.value + from.up.sense * up, by: up },
    ].flatMap((each) =>
      each && Math.abs(each.by) > 1e-9
        ? [{ path: each.path, value: lengthForFile(Math.max(0, Math.round(each.mm / step) * step), board) }]
        : [],
    );
  const letGo = (): void => {
    cancelAnimationFrame(frame.current);
    const edits = held.current?.edits ?? [];
    held.current = null;
    set(edits.length > 0 ? edit(...edits) : unpreview);
  };
  return (
    <button
      type="button"
      class="handle"
      data-handle={handle.id}
      aria-label={`${handle.label}. Drag it, or push it with the arrow keys.`}
      title={handle.label}
      style={{ left: `${handle.at.x.toFixed(2)}mm`, top: `${handle.at.y.toFixed(2)}mm` }}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        held.current = { x: event.clientX, y: event.clientY, handle, edits: [] };
      }}
      onPointerMove={(event) => {
        const from = held.current;
        if (!from) return;
        const perPixel = mmPerPixel() / scale;
        from.edits = moved(
          from.handle,
          (event.clientX - from.x) * perPixel,
          (from.y - event.clientY) * perPixel,
        );
        cancelAnimationFrame(frame.current);
        frame.current = requestAnimationFrame(() => held.current && set(preview(...held.current.edits)));
      }}
      onPointerUp={letGo}
      onPointerCancel={() => {
        held.current = null;
        set(unpreview);
      }}
      onKeyDown={(event) => {
        if (event.key === "Escape" && held.current) {
          held.current = null;
          return set(unpreview);
        }
        const by = step * (event.shiftKey ? 10 : 1);
        const way = { ArrowLeft: [-by, 0], ArrowRight: [by, 0], ArrowUp: [0, by], ArrowDown: [0, -by] }[
          event.key
        ];
        if (!way) return;
        event.preventDefault();
        const edits = moved(handle, way[0]!, way[1]!);
        if (edits.length > 0) set(edit(...edits));
      }}
    />
  );
}
