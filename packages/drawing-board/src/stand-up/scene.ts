import { Scene } from "three";

/** Everything that needs `three`. Packed: unpacked and run when the sheet is first turned to. */
export function createScene(canvas: HTMLCanvasElement): { readonly dispose: () => void } {
  new Scene();
  return { dispose: () => canvas.remove() };
}
