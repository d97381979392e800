import type { Leftover, NotRead, Stroke, Strokes } from "./drawing.ts";
import { type Affine, after, IDENTITY, movedPiece, type Piece } from "./piece.ts";
import { pathPieces } from "./svg-path.ts";
import { transformOf } from "./svg-transform.ts";
import { readXml, type XmlElement } from "./xml.ts";

/** The strokes of an SVG file, transforms and uses carried out, y turned up. Source: SVG 1.1. */
export function svgStrokes(text: string): Strokes | NotRead {
  const root = readXml(text);
  if ("reason" in root) return root;
  if (nameOf(root) !== "svg") return { line: root.line, reason: `its root is <${root.name}>, not <svg>` };
  const byId = new Map<string, XmlElement>();
  const collect = (element: XmlElement): void => {
    if (element.attributes.id !== undefined) byId.set(element.attributes.id, element);
    element.children.forEach(collect);
  };
  collect(root);
  const strokes: Stroke[] = [];
  const leftovers: Leftover[] = [];
  const draw = (element: XmlElement, outer: Affine, layer: string, depth: number): void => {
    const { attributes, line } = element;
    const name = nameOf(element);
    if (UNDRAWN.has(name) || isHidden(element)) return;
    const own = transformOf(attributes.transform ?? "");
    if (own === null) {
      leftovers.push({
        what: element.name,
        layer,
        line,
        matters: true,
        reason: `its transform cannot be read`,
      });
      return;
    }
    const by = after(outer, own);
    if (CONTAINERS.has(name)) {
      const here = attributes.id ?? layer;
      for (const child of element.children) draw(child, by, here, depth);
      return;
    }
    if (name === "use") {
      const target = byId.get((attributes.href ?? attributes["xlink:href"] ?? "").replace(/^#/, ""));
      if (target === undefined || depth >= DEEPEST) {
        leftovers.push({
          what: "use",
          layer,
          line,
          matters: true,
          reason: "what it uses is not in the file",
        });
        return;
      }
      const shift: Affine = [1, 0, 0, 1, number(attributes.x), number(attributes.y)];
      draw(
        nameOf(target) === "symbol" ? { ...target, name: "g" } : target,
        after(by, shift),
        layer,
        depth + 1,
      );
      return;
    }
    const found = piecesOfShape(name, attributes);
    if ("reason" in found) leftovers.push({ what: element.name, layer, line, ...found });
    else for (const piece of found.pieces) strokes.push({ piece: movedPiece(by, piece), layer, line });
  };
  // SVG's y runs down.
  for (const child of root.children) draw(child, after([1, 0, 0, -1, 0, 0], IDENTITY), "", 0);
  return { strokes, leftovers, mmPerUnit: mmPerUserUnit(root) };
}

const DEEPEST = 16;
const CONTAINERS: ReadonlySet<string> = new Set(["g", "a", "svg", "switch"]);
const UNDRAWN: ReadonlySet<string> = new Set([
  "defs",
  "symbol",
  "style",
  "title",
  "desc",
  "metadata",
  "script",
  "clipPath",
  "mask",
  "pattern",
  "marker",
  "linearGradient",
  "radialGradient",
  "filter",
  "namedview",
]);

function nameOf({ name }: XmlElement): string {
  return name.replace(/^.*:/, "");
}

function isHidden({ attributes }: XmlElement): boolean {
  const style = attributes.style ?? "";
  return attributes.display === "none" || /display\s*:\s*none/.test(style);
}

type Shape = { readonly pieces: readonly Piece[] } | { readonly matters: boolean; readonly reason: string };

function piecesOfShape(name: string, attributes: Readonly<Record<string, string>>): Shape {
  const n = (key: string): number => number(attributes[key]);
  switch (name) {
    case "path": {
      const { pieces, broken } = pathPieces(attributes.d ?? "");
      return broken === null ? { pieces } : { matters: true, reason: `its data cannot be read: ${broken}` };
    }
    case "line":
      return data(`M${n("x1")} ${n("y1")}L${n("x2")} ${n("y2")}`);
    case "polyline":
    case "polygon":
      return data(`M${attributes.points ?? ""}${name === "polygon" ? "Z" : ""}`);
    case "circle":
      return round(n("cx"), n("cy"), n("r"), n("r"));
    case "ellipse":
      return round(n("cx"), n("cy"), n("rx"), n("ry"));
    case "rect":
      return rect(attributes);
    case "text":
    case "image":
    case "foreignObject":
      return { matters: false, reason: "it is no contour; turn words into paths where they should be cut" };
    default:
      return { matters: false, reason: "it is no shape that is drawn" };
  }
}

function data(d: string): Shape {
  const { pieces, broken } = pathPieces(d);
  return broken === null ? { pieces } : { matters: true, reason: `its points cannot be read: ${broken}` };
}

function round(x: number, y: number, rx: number, ry: number): Shape {
  if (!(rx > 0 && ry > 0)) return { matters: false, reason: "its radius is not above 0" };
  const ellipse: Piece = {
    kind: "ellipse",
    centre: { x, y },
    u: { x: rx, y: 0 },
    v: { x: 0, y: ry },
    from: 0,
    sweep: 2 * Math.PI,
  };
  return { pieces: [ellipse] };
}

function rect(attributes: Readonly<Record<string, string>>): Shape {
  const [x, y, w, h] = ["x", "y", "width", "height"].map((key) => number(attributes[key])) as [
    number,
    number,
    number,
    number,
  ];
  if (!(w > 0 && h > 0)) return { matters: false, reason: "it has no width or no height" };
  const given = { rx: attributes.rx, ry: attributes.ry };
  const rx = Math.min(number(given.rx ?? given.ry), w / 2);
  const ry = Math.min(number(given.ry ?? given.rx), h / 2);
  if (rx <= 0 || ry <= 0) return data(`M${x} ${y}h${w}v${h}h${-w}Z`);
  const arc = (dx: number, dy: number): string => `a${rx} ${ry} 0 0 1 ${dx} ${dy}`;
  const [across, up] = [w - 2 * rx, h - 2 * ry];
  return data(
    `M${x + rx} ${y}${across > 0 ? `h${across}` : ""}${arc(rx, ry)}${up > 0 ? `v${up}` : ""}${arc(-rx, ry)}` +
      `${across > 0 ? `h${-across}` : ""}${arc(-rx, -ry)}${up > 0 ? `v${-up}` : ""}${arc(rx, -ry)}`,
  );
}

/** A bare number or one in px; NaN for anything else. */
function number(text: string | undefined): number {
  if (text === undefined) return 0;
  const found = /^\s*([-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?)\s*(px)?\s*$/.exec(text);
  return found ? Number(found[1]) : Number.NaN;
}

/** By the drawing's own width or height where that is told in a real unit; CSS counts 96 px to the inch. */
function mmPerUserUnit({ attributes }: XmlElement): number | null {
  const box = (attributes.viewBox ?? "")
    .trim()
    .split(/[\s,]+/)
    .map(Number);
  const hasBox = box.length === 4 && box.every(Number.isFinite) && box[2]! > 0 && box[3]! > 0;
  const across = lengthMm(attributes.width);
  const up = lengthMm(attributes.height);
  if (across === null && up === null) return null;
  if (!hasBox) return 25.4 / 96;
  const scales = [across === null ? null : across / box[2]!, up === null ? null : up / box[3]!].filter(
    (s) => s !== null,
  );
  return Math.min(...scales);
}

function lengthMm(text: string | undefined): number | null {
  const found = /^\s*((?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?)\s*(mm|cm|in|pt|pc|q)\s*$/i.exec(text ?? "");
  return found ? Number(found[1]) * MM[found[2]!.toLowerCase()]! : null;
}

const MM: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 10,
  in: 25.4,
  pt: 25.4 / 72,
  pc: 25.4 / 6,
  q: 0.25,
};
