import { flatten, type Loop, lengthOf, pointAt, signedArea, tangentAt } from "@dryfit/geometry";
import type { Face } from "@dryfit/joinery";
import { hatchId } from "./hatch.ts";
import { pathData, spot, toPaper, type View } from "./outline.ts";
import type { SheetPicture } from "./picture.ts";
import { el, group, type Markup } from "./svg.ts";
import type { DrawnBore, DrawnRecess, Wood } from "./wood.ts";

/** Hatched by its depth; dashed where it lies on the face that is down. */
export function recessMark(
  view: View,
  { depth, face, region }: DrawnRecess,
  up: Face,
  prefix: string,
): Markup {
  const classes = ["recess", face === "B" ? "face-b" : "", face === up ? "" : "hidden"]
    .filter(Boolean)
    .join(" ");
  return el("path", {
    class: classes,
    "fill-rule": "evenodd",
    fill: `url(#${hatchId(prefix, { depth, face })})`,
    d: pathData(view, [region.outer, ...region.holes]),
    "data-depth": depth,
  });
}

/** A continuous line with short ticks to the inside, where nothing is left. */
export function openingMark(view: View, loop: Loop): Markup {
  const inward = Math.sign(signedArea(loop));
  const round = lengthOf(loop) * view.scale;
  const count = Math.max(4, Math.round(round / TICK_STEP));
  const ticks = Array.from({ length: count }, (_, i) => {
    const s = (lengthOf(loop) * (i + 0.5)) / count;
    const [p, way] = [toPaper(view, pointAt(loop, s)), tangentAt(loop, s)];
    const end = { x: p.x - way.y * inward * TICK, y: p.y - way.x * inward * TICK };
    return `M${spot(p)}L${spot(end)}`;
  });
  return group(
    "through",
    el("path", { class: "opening", d: pathData(view, [loop]) }),
    el("path", { class: "waste", d: pathData(view, [loop]) }),
    el("path", { class: "tick", d: ticks.join("") }),
  );
}

const TICK_STEP = 12;
const TICK = 1.3;

export function boreMark(view: View, bore: DrawnBore, up: Face): Markup {
  const at = toPaper(view, bore.centre);
  const reach = (bore.diameter / 2) * view.scale + 1.2;
  const hidden = bore.depth !== null && bore.face !== up;
  return (
    el("path", { class: hidden ? "bore hidden" : "bore", d: pathData(view, [bore.loop]) }) +
    el("path", {
      class: "centre",
      d: `M${spot({ x: at.x - reach, y: at.y })}h${(2 * reach).toFixed(3)}M${spot({ x: at.x, y: at.y - reach })}v${(2 * reach).toFixed(3)}`,
    })
  );
}

/** A broken outline with a diagonal cross: nothing may be cut here. */
export function keepOutMark(view: View, loop: Loop): Markup {
  const points = flatten(loop, 0.1).map((p) => toPaper(view, p));
  const [xs, ys] = [points.map((p) => p.x), points.map((p) => p.y)];
  const [x0, x1, y0, y1] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const cross = `M${spot({ x: x0, y: y0 })}L${spot({ x: x1, y: y1 })}M${spot({ x: x0, y: y1 })}L${spot({ x: x1, y: y0 })}`;
  return el("path", { class: "keep-out", d: `${pathData(view, [loop])} ${cross}` });
}

/** Faint lines along the face grain, at uneven distances as wood has them, on the parts alone. */
export function grainLines(
  picture: Pick<SheetPicture, "size" | "grain">,
  wood: { readonly parts: readonly Pick<Wood["parts"][number], "outline">[] },
  view: View,
  id: string,
): Markup {
  const [width, height] = picture.size;
  const upright = picture.grain === "y";
  const across = upright ? width : height;
  const clip = el(
    "clipPath",
    { id: `${id}-parts` },
    el("path", {
      d: pathData(
        view,
        wood.parts.map((part) => part.outline),
      ),
      "clip-rule": "evenodd",
    }),
  );
  const uneven = [1, 0.55, 1.3, 0.8, 0.4, 1.1, 0.7];
  const lines: string[] = [];
  for (let at = 0, i = 0; at < across; i++) {
    at += (uneven[i % uneven.length]! * 5) / view.scale;
    const [a, b] = upright
      ? [
          { x: at, y: 0 },
          { x: at, y: height },
        ]
      : [
          { x: 0, y: at },
          { x: width, y: at },
        ];
    lines.push(`M${spot(toPaper(view, a))}L${spot(toPaper(view, b))}`);
  }
  return clip + el("path", { class: "grain", d: lines.join(""), "clip-path": `url(#${id}-parts)` });
}
