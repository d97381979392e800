import { positionAt } from "@dryfit/verify";
import { type Colours, rgb } from "../page-colours.ts";
import { type CutterPath, drawBlock, drawPath, MM } from "./path-layer.ts";
import type { SectionLine } from "./section.ts";
import { type Patch, type Picture, patchOf, type Shading, shade } from "./shade.ts";
import { momentAt, motionsOfBlock, type Timeline } from "./timeline.ts";
import { type Place, toPixel, type Window } from "./window.ts";
import type { Wood } from "./wood.ts";

/** Everything that is to be seen at one moment. */
export interface Scene {
  readonly wood: Wood;
  readonly timeline: Timeline;
  readonly seconds: number;
  /** While it plays, shading takes its share of a frame and no more. */
  readonly isPlaying: boolean;
  readonly window: Window;
  readonly colours: Colours;
  /** Null: the path is not drawn. */
  readonly path: CutterPath | null;
  readonly section: SectionLine;
  /** A place to look at, marked. */
  readonly mark: Place | null;
  /** Places with something to say, by the number of their note. */
  readonly notes: readonly NotePlace[];
}

export interface NotePlace {
  readonly number: number;
  readonly severity: "error" | "warning" | "note";
  readonly at: Place;
}

/** Three sheets of film over each other: the wood, the path, and what moves. */
export interface Films {
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
    paintMarks(films.marks, scene);
    last = scene;
    return turn === null;
  };
}

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

function shadingOf({ wood, colours }: Scene): Shading {
  const { corner, thickness, grain, face } = wood.program;
  const inks = {
    paper: rgb(colours.paper),
    ink: rgb(colours.ink),
    hatch: rgb(face === "A" ? colours.recess : colours.faceB),
  };
  return { raster: wood.replay.raster, under: wood.under, corner, thickness, grain, face, inks };
}

function paintAll(
  context: CanvasRenderingContext2D,
  image: ImageData,
  picture: Picture,
  shading: Shading,
): void {
  const { width, height } = picture;
  shade(picture, shading, { x: 0, y: 0, width, height });
  shading.raster.dirty.fill(0);
  context.putImageData(image, 0, 0);
}

/** Shades the dirty tiles from one on, for some time at most. Null where all is done, else the tile to go on with. */
function paintChanged(
  context: CanvasRenderingContext2D,
  image: ImageData,
  picture: Picture,
  shading: Shading,
  { from, most }: { readonly from: number; readonly most: number },
): number | null {
  const { tiles, dirty } = shading.raster;
  const started = performance.now();
  let next: number | null = null;
  let whole: Patch | null = null;
  for (let i = 0; i < tiles.length; i++) {
    const tile = (from + i) % tiles.length;
    if (dirty[tile] === 0) continue;
    if (performance.now() - started > most) {
      next = tile;
      break;
    }
    dirty[tile] = 0;
    const patch = patchOf(picture, shading, tile);
    if (patch === null) continue;
    shade(picture, shading, patch);
    whole = whole ? around(whole, patch) : patch;
  }
  // One piece: many small ones take longer than the pixels between them.
  if (whole) context.putImageData(image, 0, 0, whole.x, whole.y, whole.width, whole.height);
  return next;
}

function around(a: Patch, b: Patch): Patch {
  const [x, y] = [Math.min(a.x, b.x), Math.min(a.y, b.y)];
  return {
    x,
    y,
    width: Math.max(a.x + a.width, b.x + b.width) - x,
    height: Math.max(a.y + a.height, b.y + b.height) - y,
  };
}

/** How much of a frame's 16.7 ms goes into shading at most; the rest follows in the next frame. */
const SHADING_MS = 6;

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

function paintMarks(canvas: HTMLCanvasElement, scene: Scene): void {
  const context = cleared(canvas);
  const { window, timeline, seconds, colours } = scene;
  paintSection(context, scene);
  const { index } = momentAt(timeline, seconds);
  drawBlock(context, window, motionsOfBlock(timeline, index), colours);
  for (const note of scene.notes) paintNote(context, toPixel(window, note.at), note, colours);
  if (scene.mark) paintPlace(context, toPixel(window, scene.mark), colours);
  paintCutter(context, scene);
}

/** Long dashes and dots with arrows at both ends that look the way the section is seen (ISO 128). */
function paintSection(context: CanvasRenderingContext2D, { window, colours, section }: Scene): void {
  const [a, b] = [toPixel(window, section.from), toPixel(window, section.to)];
  const length = Math.hypot(b.x - a.x, b.y - a.y) || 1;
  const [ux, uy] = [(b.x - a.x) / length, (b.y - a.y) / length];
  for (const [colour, more] of [
    [colours.paper, 0.5],
    [colours.ink, 0],
  ] as const) {
    context.strokeStyle = colour;
    context.fillStyle = colour;
    context.lineWidth = (0.25 + more) * MM;
    context.setLineDash([6 * MM, 1 * MM, 0.5 * MM, 1 * MM]);
    line(context, a, b);
    context.setLineDash([]);
    context.lineWidth = (0.5 + more) * MM;
    for (const [end, letterAt] of [
      [a, -1],
      [b, 1],
    ] as const) {
      // Seen from the right hand of its direction: on the screen, where y points down, that is (uy, -ux) ahead.
      const tip = { x: end.x + uy * 5 * MM, y: end.y - ux * 5 * MM };
      line(context, end, tip);
      if (more > 0) continue;
      context.beginPath();
      context.moveTo(tip.x, tip.y);
      context.lineTo(tip.x - uy * 8 + ux * 3, tip.y + ux * 8 + uy * 3);
      context.lineTo(tip.x - uy * 8 - ux * 3, tip.y + ux * 8 - uy * 3);
      context.fill();
      letter(context, "A", { x: tip.x + ux * letterAt * 3 * MM, y: tip.y + uy * letterAt * 3 * MM }, colours);
    }
  }
}

function letter(context: CanvasRenderingContext2D, text: string, { x, y }: Place, colours: Colours): void {
  context.font = `600 ${3.5 * MM}px system-ui, sans-serif`;
  context.textAlign = "center";
  context.textBaseline = "middle";
  context.lineJoin = "round";
  context.strokeStyle = colours.paper;
  context.lineWidth = 0.9 * MM;
  context.strokeText(text, x, y);
  context.fillStyle = colours.ink;
  context.fillText(text, x, y);
}

/** A balloon: filled for an error, ringed for a warning, plain for a note. */
function paintNote(
  context: CanvasRenderingContext2D,
  to: Place,
  { number, severity }: NotePlace,
  colours: Colours,
): void {
  const at = { x: to.x + 6 * MM, y: to.y - 6 * MM };
  const isError = severity === "error";
  context.strokeStyle = colours.ink;
  context.lineWidth = 0.25 * MM;
  line(context, to, at);
  context.fillStyle = colours.ink;
  disc(context, to, 0.5 * MM);
  context.fill();
  context.fillStyle = isError ? colours.ink : colours.paper;
  disc(context, at, 2.7 * MM);
  context.fill();
  context.stroke();
  if (severity === "warning") {
    disc(context, at, 3.3 * MM);
    context.stroke();
  }
  context.font = `600 ${3 * MM}px system-ui, sans-serif`;
  context.textAlign = "center";
  context.textBaseline = "middle";
  context.fillStyle = isError ? colours.paper : colours.ink;
  context.fillText(String(number), at.x, at.y);
}

function disc(context: CanvasRenderingContext2D, { x, y }: Place, radius: number): void {
  context.beginPath();
  context.arc(x, y, radius, 0, 2 * Math.PI);
}

function paintPlace(context: CanvasRenderingContext2D, { x, y }: Place, colours: Colours): void {
  for (const [colour, width] of [
    [colours.paper, 1.2],
    [colours.error, 0.5],
  ] as const) {
    context.strokeStyle = colour;
    context.lineWidth = width * MM;
    context.beginPath();
    context.arc(x, y, 4 * MM, 0, 2 * Math.PI);
    context.stroke();
    for (const turn of [0, 1, 2, 3]) {
      const [dx, dy] = [Math.cos((turn * Math.PI) / 2), Math.sin((turn * Math.PI) / 2)];
      line(
        context,
        { x: x + dx * 2.5 * MM, y: y + dy * 2.5 * MM },
        { x: x + dx * 6 * MM, y: y + dy * 6 * MM },
      );
    }
  }
}

/** The cutter at true size: filled where it stands in wood, dashed on a rapid. */
function paintCutter(
  context: CanvasRenderingContext2D,
  { wood, timeline, seconds, window, colours }: Scene,
): void {
  const { index, share } = momentAt(timeline, seconds);
  const motion = timeline.motions[index];
  if (!motion) return;
  const { program } = wood;
  const tip = positionAt(motion, share);
  const { x, y } = toPixel(window, tip);
  const radius = Math.max(2, (program.diameterOf(motion) / 2) * window.scale);
  const isIn = motion.kind === "feed" && program.tooling.depthOf(tip.z) > 0;
  context.beginPath();
  context.arc(x, y, radius, 0, 2 * Math.PI);
  context.globalAlpha = isIn ? 0.85 : 0.25;
  context.fillStyle = colours.path;
  context.fill();
  context.globalAlpha = 1;
  context.setLineDash(isIn ? [] : [3, 2]);
  for (const [colour, width] of [
    [colours.paper, 1.1],
    [colours.ink, 0.4],
  ] as const) {
    context.strokeStyle = colour;
    context.lineWidth = width * MM;
    context.stroke();
  }
  context.setLineDash([]);
  const reach = radius + 2 * MM;
  context.lineWidth = 0.25 * MM;
  line(context, { x: x - reach, y }, { x: x + reach, y });
  line(context, { x, y: y - reach }, { x, y: y + reach });
}

function line(context: CanvasRenderingContext2D, a: Place, b: Place): void {
  context.beginPath();
  context.moveTo(a.x, a.y);
  context.lineTo(b.x, b.y);
  context.stroke();
}

function cleared(canvas: HTMLCanvasElement): CanvasRenderingContext2D {
  const context = contextOf(canvas);
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.clearRect(0, 0, canvas.width, canvas.height);
  context.scale(devicePixelRatio, devicePixelRatio);
  return context;
}
