import { boundsOf, type Curve, cosine, type Point, sine } from "@dryfit/geometry";
import type { PdfColour, PdfMark } from "./mark.ts";
import { curvesOf } from "./svg-path.ts";
import { colourOf, type Look, lookOf, PLAIN_LOOK } from "./svg-style.ts";
import { type SvgNode, svgTree } from "./svg-tree.ts";
import { line } from "./write.ts";

/** A drawing of ours in print: its size, and its marks with the lower left as origin, mm. */
export interface Printed {
  readonly size: readonly [number, number];
  readonly marks: readonly PdfMark[];
}

/**
 * A drawing of ours, from the SVG that the page shows: one drawing, two ways to look at it.
 *
 * It knows what our drawings are made of and no more: groups, paths of lines and arcs, circles, rectangles, words,
 * hatches of parallel lines, clips. Errors: RangeError for anything else.
 */
export function printed(svg: string): Printed {
  const root = svgTree(svg);
  const [left = 0, top = 0, width = 0, height = 0] = (root.attributes.viewBox ?? "").split(" ").map(Number);
  const named = new Map(
    everyNode(root).flatMap((node) => (node.attributes.id ? [[node.attributes.id, node]] : [])),
  );
  const flip: Move = { turn: 0, mirrored: true, shift: { x: -left, y: height + top } };
  const marks = root.children.flatMap((child) =>
    marksOf(child, { within: [root], look: PLAIN_LOOK, move: flip, named }),
  );
  return { size: [width, height], marks };
}

/** From where an element is written to the page: turned about the origin, mirrored in the level line, shifted. */
interface Move {
  readonly turn: number;
  readonly mirrored: boolean;
  readonly shift: Point;
}

interface Around {
  readonly within: readonly SvgNode[];
  readonly look: Look;
  readonly move: Move;
  readonly named: ReadonlyMap<string, SvgNode>;
}

const UNSEEN: ReadonlySet<string> = new Set(["title", "desc", "style", "defs", "clipPath", "pattern"]);

function marksOf(node: SvgNode, around: Around): readonly PdfMark[] {
  if (UNSEEN.has(node.name)) return [];
  const look = lookOf(node, around.within, around.look);
  const move = around.move;
  const inner = { ...around, look, within: [...around.within, node] };
  if (node.name === "text") return [wordsOf(node, look, move, around.within)];
  if (node.name === "g") {
    const moved = after(move, node.attributes.transform);
    const inside = node.children.flatMap((child) => marksOf(child, { ...inner, move: moved }));
    return clipped(node, inside, { ...around, move: moved });
  }
  const curves = curvesOf(node);
  if (curves.length === 0 && !DRAWN.has(node.name)) throw new RangeError(`a drawing has <${node.name}>`);
  const placed = curves.map((curve) => movedCurve(after(move, node.attributes.transform), curve));
  return clipped(node, shapeMarks(placed, look, around), around);
}

const DRAWN: ReadonlySet<string> = new Set(["path", "line", "circle", "rect"]);

function shapeMarks(curves: readonly Curve[], look: Look, around: Around): readonly PdfMark[] {
  const stroke = colourOf(look.stroke, look.strokeOpacity);
  const marks: PdfMark[] = [];
  const pattern = /^url\(#(.+)\)$/.exec(look.fill)?.[1];
  const fill = colourOf(look.fill, look.fillOpacity);
  if (pattern !== undefined)
    marks.push({ kind: "within", curves, marks: hatchMarks(pattern, curves, around) });
  else if (fill !== null) marks.push({ kind: "fill", curves, colour: fill });
  if (stroke !== null && look.width > 0)
    marks.push({ kind: "stroke", curves, style: { width: look.width, dash: look.dash, colour: stroke } });
  return marks;
}

/** Parallel lines over all that the curves hold. */
function hatchMarks(
  id: string,
  curves: readonly Curve[],
  { named, within, look }: Around,
): readonly PdfMark[] {
  const pattern = named.get(id);
  const [stripe] = pattern?.children ?? [];
  if (!pattern || !stripe || curves.length === 0) return [];
  const spacing = Number(pattern.attributes.width);
  const own = lookOf(stripe, [...within, pattern], look);
  const colour = colourOf(own.stroke, own.strokeOpacity) ?? ([0, 0, 0] satisfies PdfColour);
  // The pattern's lines are upright before it is turned; on the page, y up, the turn goes the other way.
  const degrees = Number(/rotate\((-?[\d.]+)/.exec(pattern.attributes.patternTransform ?? "")?.[1] ?? 0);
  const angle = Math.PI / 2 - (degrees * Math.PI) / 180;
  const along = { x: cosine(angle), y: sine(angle) };
  const across = { x: -along.y, y: along.x };
  const { min, max } = boundsOf(curves);
  const middle = { x: (min.x + max.x) / 2, y: (min.y + max.y) / 2 };
  const reach = Math.hypot(max.x - min.x, max.y - min.y) / 2;
  const start = Math.ceil((dot(middle, across) - reach) / spacing);
  const count = Math.floor((dot(middle, across) + reach) / spacing) - start + 1;
  return Array.from({ length: Math.max(0, count) }, (_, i) => {
    const off = (start + i) * spacing - dot(middle, across);
    const at = { x: middle.x + off * across.x, y: middle.y + off * across.y };
    const style = { width: own.width, colour };
    return line(
      at.x - reach * along.x,
      at.y - reach * along.y,
      at.x + reach * along.x,
      at.y + reach * along.y,
      style,
    );
  });
}

/** Marks of which a clip path shows a part. */
function clipped(node: SvgNode, marks: readonly PdfMark[], { named, move }: Around): readonly PdfMark[] {
  const id = /^url\(#(.+)\)$/.exec(node.attributes["clip-path"] ?? "")?.[1];
  const clip = id === undefined ? undefined : named.get(id);
  if (!clip) return marks;
  const curves = clip.children.flatMap(curvesOf).map((curve) => movedCurve(move, curve));
  return [{ kind: "within", curves, marks }];
}

function wordsOf(node: SvgNode, look: Look, move: Move, within: readonly SvgNode[]): PdfMark {
  const { x = "0", y = "0", transform } = node.attributes;
  const placed = after(move, transform);
  const at = moved(placed, { x: Number(x), y: Number(y) });
  const halo = look.stroke === "none" ? 0 : look.width;
  return {
    kind: "text",
    text: node.text,
    at,
    size: look.size,
    anchor: look.anchor,
    bold: look.bold,
    angle: placed.turn,
    colour: colourOf(look.fill, look.fillOpacity) ?? [0, 0, 0],
    ...(within.length > 0 && halo > 0 ? { halo } : {}),
  };
}

/** What stands in a `transform` comes first: rotate(degrees x y) and translate(x y), one after the other. */
function after(move: Move, transform: string | undefined): Move {
  const calls = [...(transform ?? "").matchAll(/(\w+)\(([^)]*)\)/g)];
  return calls.reduce((now, [, name, inside]) => {
    const numbers = inside!
      .trim()
      .split(/[\s,]+/)
      .map(Number);
    return afterOne(now, name!, numbers);
  }, move);
}

function afterOne(move: Move, name: string, [a = 0, b = 0, c = 0]: readonly number[]): Move {
  if (name === "translate") return { ...move, shift: moved(move, { x: a, y: b }) };
  if (name !== "rotate") throw new RangeError(`a drawing has the transform ${name}`);
  const turn = move.turn + (move.mirrored ? -1 : 1) * ((a * Math.PI) / 180);
  const centre = moved(move, { x: b, y: c });
  const turned = { ...move, turn, shift: { x: 0, y: 0 } };
  const back = moved(turned, { x: b, y: c });
  return { ...turned, shift: { x: centre.x - back.x, y: centre.y - back.y } };
}

function moved(move: Move, at: Point): Point {
  return moverOf(move)(at);
}

/** For many points: a sine takes longer than a point. */
function moverOf({ turn, mirrored, shift }: Move): (at: Point) => Point {
  const [cos, sin] = [cosine(turn), sine(turn)];
  return ({ x, y }) => {
    const up = mirrored ? -y : y;
    return { x: cos * x - sin * up + shift.x, y: sin * x + cos * up + shift.y };
  };
}

function movedCurve(move: Move, curve: Curve): Curve {
  const mover = moverOf(move);
  const vertices = curve.vertices.map((v) => {
    const { x, y } = mover(v);
    return { x, y, bulge: move.mirrored ? -v.bulge : v.bulge };
  });
  return curve.closed ? { closed: true, vertices } : { closed: false, vertices };
}

function everyNode(node: SvgNode): readonly SvgNode[] {
  return [node, ...node.children.flatMap(everyNode)];
}

function dot(a: Point, b: Point): number {
  return a.x * b.x + a.y * b.y;
}
