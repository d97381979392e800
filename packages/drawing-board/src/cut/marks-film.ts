import { positionAt } from "@dryfit/verify";
import type { Colours } from "../page-colours.ts";
import { drawBlock, MM } from "./path-layer.ts";
import type { NotePlace, Scene } from "./scene.ts";
import { momentAt, motionsOfBlock } from "./timeline.ts";
import { type Place, toPixel } from "./window.ts";

/** What moves over the sheet: the section's line, the block in hand, balloons, a place to look at, the cutter. */
export function paintMarks(context: CanvasRenderingContext2D, scene: Scene): void {
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
