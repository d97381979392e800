import type { Colours } from "../page-colours.ts";
import { paintMarks } from "./marks-film.ts";
import { drawPath, MM } from "./path-layer.ts";
import type { Scene } from "./scene.ts";
import type { Picture } from "./shade.ts";
import { type Place, toPixel, type Window } from "./window.ts";
import { paintAll, paintChanged, shadingOf } from "./wood-film.ts";

/** Three sheets of film over each other: the wood, the path, and what moves. */
interface Films {
  readonly wood: HTMLCanvasElement;
  readonly path: HTMLCanvasElement;
  readonly marks: HTMLCanvasElement;
}

/**
 * Paints scenes; of each next one only what has changed. Says false where shading took its share of a frame and
 * something is left to be shaded: then the scene wants painting again.
 */
export function createStage(films: Films): (scene: Scene) => boolean {
  let last: Scene | null = null;
  let picture: Picture | null = null;
  let image: ImageData | null = null;
  let turn: number | null = null;
  return (scene) => {
    const { wood, window, colours, path, seconds } = scene;
    const isMoved = last?.window !== window || last.colours !== colours || last.wood !== wood;
    if (last?.window.width !== window.width || last.window.height !== window.height || !picture || !image) {
      const ratio = ratioFor(window);
      for (const film of Object.values(films))
        resize(film, window, film === films.wood ? ratio : devicePixelRatio);
      image = contextOf(films.wood).createImageData(films.wood.width, films.wood.height);
      const { width, height } = image;
      picture = { window, ratio, width, height, pixels: new Uint32Array(image.data.buffer) };
    }
    picture = { ...picture, window };
    wood.replay.seek(seconds);
    const context = contextOf(films.wood);
    const shading = shadingOf(scene);
    if (isMoved) {
      paintAll(context, image, picture, shading);
      turn = null;
    } else {
      const most = scene.isPlaying ? SHADING_MS : Number.POSITIVE_INFINITY;
      turn = paintChanged(context, image, picture, shading, { from: turn ?? 0, most });
    }
    if (isMoved || last?.path !== path) paintPath(films.path, scene);
    paintMarks(cleared(films.marks), scene);
    last = scene;
    return turn === null;
  };
}

/** How much of a frame's 16.7 ms goes into shading at most; the rest follows in the next frame. */
const SHADING_MS = 6;

/** So many device pixels that a picture is sharp, and not more than are shaded in good time. */
function ratioFor({ width, height }: Window): number {
  const most = Math.sqrt(PIXELS_MAX / Math.max(1, width * height));
  return Math.max(1, Math.min(devicePixelRatio, most));
}

const PIXELS_MAX = 2_000_000;

function resize(canvas: HTMLCanvasElement, { width, height }: Window, ratio: number): void {
  canvas.width = Math.round(width * ratio);
  canvas.height = Math.round(height * ratio);
}

function contextOf(canvas: HTMLCanvasElement): CanvasRenderingContext2D {
  return canvas.getContext("2d")!;
}

function paintPath(canvas: HTMLCanvasElement, { window, path, colours, wood }: Scene): void {
  const context = cleared(canvas);
  const { corner, size } = wood.program;
  const [a, b] = [
    toPixel(window, { x: corner[0], y: corner[1] + size[1] }),
    toPixel(window, { x: corner[0] + size[0], y: corner[1] }),
  ];
  context.strokeStyle = colours.ink;
  context.lineWidth = 0.35 * MM;
  context.strokeRect(a.x, a.y, b.x - a.x, b.y - a.y);
  if (path) drawPath(context, window, path, colours);
  paintZero(context, toPixel(window, { x: 0, y: 0 }), colours);
}

/** Where the program has its zero: a disc with two quarters filled, and its axes. */
function paintZero(context: CanvasRenderingContext2D, { x, y }: Place, colours: Colours): void {
  const r = 1.6 * MM;
  context.fillStyle = colours.paper;
  context.strokeStyle = colours.ink;
  context.lineWidth = 0.25 * MM;
  context.beginPath();
  context.arc(x, y, r, 0, 2 * Math.PI);
  context.fill();
  context.stroke();
  context.fillStyle = colours.ink;
  for (const start of [0, Math.PI]) {
    context.beginPath();
    context.moveTo(x, y);
    context.arc(x, y, r, start, start + Math.PI / 2);
    context.fill();
  }
}

function cleared(canvas: HTMLCanvasElement): CanvasRenderingContext2D {
  const context = contextOf(canvas);
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.clearRect(0, 0, canvas.width, canvas.height);
  context.scale(devicePixelRatio, devicePixelRatio);
  return context;
}
