import { type Placement, placeRegion, type Region, SAME_POINT_MM } from "@dryfit/geometry";
import type { Finding, Part } from "@dryfit/joinery";
import { type Edge, edgeBox, edgeDistance, edgesOf } from "./clearance.ts";
import type { Layout, NestJob, Sheet } from "./layout.ts";
import { type Polygon, polygonOf, ringOf } from "./ring.ts";
import { runsAt, shareWood } from "./scan.ts";
import { turnAllowed } from "./turns.ts";

/**
 * Everything wrong with a layout: wood shared, spacing, margins, keep-outs, grain, stock counts, parts lost or doubled.
 *
 * Shares no algorithm with the search: distances are taken edge to edge on the true arcs, overlap by scan lines.
 */
export function checkLayout(job: NestJob, layout: Layout): Finding[] {
  const parts = new Map(job.parts.map((part) => [part.id, part]));
  return [...checkCounts(job, layout), ...layout.sheets.flatMap((sheet) => checkSheet(job, parts, sheet))];
}

function checkCounts(job: NestJob, layout: Layout): Finding[] {
  const found: Finding[] = [];
  const seen = new Map<string, number>();
  for (const id of [...layout.sheets.flatMap((s) => s.parts.map((p) => p.part)), ...layout.unplaced])
    seen.set(id, (seen.get(id) ?? 0) + 1);
  for (const id of new Set(job.parts.map((part) => part.id))) {
    const times = seen.get(id) ?? 0;
    if (times !== job.parts.filter((part) => part.id === id).length)
      found.push(
        wrong("part_count", id, `${id} appears ${times} times in the layout, not as often as in the job.`, {
          times,
        }),
      );
  }
  for (const stock of job.stocks) {
    const used = layout.sheets.filter((s) => s.stock.id === stock.id).length;
    if (stock.count !== null && used > stock.count)
      found.push(
        wrong("stock_overdrawn", stock.id, `${used} of ${stock.id} are used, ${stock.count} are there.`, {
          used,
          count: stock.count,
        }),
      );
  }
  return found;
}

/** A placed part as the check sees it. */
interface Laid {
  readonly id: string;
  readonly edges: readonly Edge[];
  readonly polygon: Polygon;
  readonly box: Box;
}

type Box = readonly [number, number, number, number];

function checkSheet(job: NestJob, parts: ReadonlyMap<string, Part>, sheet: Sheet): Finding[] {
  const found: Finding[] = [];
  const { stock } = sheet;
  const laid: Laid[] = [];
  for (const placed of sheet.parts) {
    const part = parts.get(placed.part);
    if (!part) {
      found.push(wrong("part_count", placed.part, `${placed.part} is not a part of this job.`, {}));
      continue;
    }
    if (part.material !== stock.material)
      found.push(
        wrong(
          "wrong_material",
          part.id,
          `${part.id} is of ${part.material}, ${sheet.id} of ${stock.material}.`,
          {},
        ),
      );
    if (!turnAllowed(part, stock, placed.placement))
      found.push(wrong("grain_turned", part.id, `${part.id} lies across the grain of ${sheet.id}.`, {}));
    laid.push(lay(part.id, regionOfPart(part), placed.placement));
  }
  const { margin, spacing } = job.rules;
  for (const part of laid) found.push(...checkEdge(part, sheet, margin));
  for (const [i, a] of laid.entries())
    for (const b of laid.slice(i + 1)) {
      const gap = clearance(a, b, spacing);
      if (gap < spacing - SAME_POINT_MM)
        found.push(
          wrong(
            "parts_too_close",
            a.id,
            gap < 0
              ? `${a.id} and ${b.id} lie on the same wood of ${sheet.id}.`
              : `${a.id} and ${b.id} are ${mm(gap)} mm apart on ${sheet.id}, not ${spacing}.`,
            {
              gap,
              spacing,
            },
          ),
        );
    }
  for (const [k, keepOut] of stock.keepOuts.entries()) {
    const zone = lay(`keep-out ${k + 1}`, keepOut, STAY);
    for (const part of laid) {
      const gap = clearance(part, zone, spacing);
      if (gap < spacing - SAME_POINT_MM)
        found.push(
          wrong(
            "keep_out_hit",
            part.id,
            gap < 0
              ? `${part.id} lies on ${zone.id} of ${sheet.id}.`
              : `${part.id} is ${mm(gap)} mm from ${zone.id} of ${sheet.id}, not ${spacing}.`,
            {
              gap,
              spacing,
            },
          ),
        );
    }
  }
  return found;
}

function checkEdge(part: Laid, sheet: Sheet, margin: number): Finding[] {
  const { size, outline } = sheet.stock;
  const [x0, y0, x1, y1] = part.box;
  let gap = Math.min(x0, y0, size[0] - x1, size[1] - y1);
  if (outline && gap >= margin - SAME_POINT_MM) {
    const edge = lay("edge", outline, STAY);
    const inside = shareWood(
      part.polygon,
      [frame(part.box), ...edge.polygon.map(reversedRing)],
      SAME_POINT_MM,
    );
    gap = inside ? -1 : Math.min(gap, edgeGap(part, edge, margin));
  }
  if (gap >= margin - SAME_POINT_MM) return [];
  return [
    wrong(
      "margin_cut",
      part.id,
      gap < 0
        ? `${part.id} reaches over the edge of ${sheet.id}.`
        : `${part.id} is ${mm(gap)} mm from the edge of ${sheet.id}, not ${margin}.`,
      { gap, margin },
    ),
  ];
}

/** A box well around the part, so that with an outline reversed inside it, it is everything but the sheet. */
function frame([x0, y0, x1, y1]: Box): number[] {
  const far = 1e5;
  return [x0 - far, y0 - far, x1 + far, y0 - far, x1 + far, y1 + far, x0 - far, y1 + far];
}

function reversedRing(ring: readonly number[]): number[] {
  const out: number[] = [];
  for (let i = ring.length - 2; i >= 0; i -= 2) out.push(ring[i]!, ring[i + 1]!);
  return out;
}

/** Wood between two parts, mm; −1 where they share some. Anything from `enough` on is as good as any other. */
function clearance(a: Laid, b: Laid, enough: number): number {
  const apart = boxGap(a.box, b.box);
  if (apart >= Math.max(enough, SAME_POINT_MM)) return apart;
  if (nested(a, b) || nested(b, a)) return -1;
  const gap = edgeGap(a, b, Math.max(enough, SAME_POINT_MM));
  if (gap > 0 || !shareWood(a.polygon, b.polygon, SAME_POINT_MM)) return gap;
  return -1;
}

function edgeGap(a: Laid, b: Laid, enough: number): number {
  let least = enough;
  for (const e of a.edges) {
    const box = edgeBox(e);
    if (boxGap(box, b.box) >= least) continue;
    for (const f of b.edges) if (boxGap(box, edgeBox(f)) < least) least = Math.min(least, edgeDistance(e, f));
  }
  return least;
}

/** Does a point deep inside `a` lie in the wood of `b`? Told apart from contact because it is inside, not on an edge. */
function nested(a: Laid, b: Laid): boolean {
  const [x, y] = insidePoint(a.polygon, a.box);
  if (x < b.box[0] || x > b.box[2] || y < b.box[1] || y > b.box[3]) return false;
  const runs = runsAt(b.polygon, y);
  for (let i = 0; i + 1 < runs.length; i += 2)
    if (x > runs[i]! + SAME_POINT_MM && x < runs[i + 1]! - SAME_POINT_MM) return true;
  return false;
}

/** The middle of the widest run on a line at an odd height, so that no corner is met. */
function insidePoint(polygon: Polygon, box: Box): [number, number] {
  const y = box[1] + (box[3] - box[1]) * 0.4871;
  const runs = runsAt(polygon, y);
  let [x, widest] = [0, -1];
  for (let i = 0; i + 1 < runs.length; i += 2) {
    if (runs[i + 1]! - runs[i]! <= widest) continue;
    widest = runs[i + 1]! - runs[i]!;
    x = (runs[i]! + runs[i + 1]!) / 2;
  }
  return [x, y];
}

const STAY: Placement<"sheet", "sheet"> = { flip: false, quarters: 0, angle: 0, shift: { x: 0, y: 0 } };

function lay<From extends string>(id: string, region: Region<From>, at: Placement<"sheet", From>): Laid {
  const placed = placeRegion(at, region as Region<NoInfer<From>>);
  const edges = [placed.outer, ...placed.holes].flatMap(edgesOf);
  const boxes = edges.map(edgeBox);
  return {
    id,
    edges,
    polygon: polygonOf(placed),
    box: [
      Math.min(...boxes.map((b) => b[0])),
      Math.min(...boxes.map((b) => b[1])),
      Math.max(...boxes.map((b) => b[2])),
      Math.max(...boxes.map((b) => b[3])),
    ],
  };
}

/** The wood of a part: its outline less its openings. */
export function regionOfPart(part: Part): Region<"panel"> {
  const holes = part.features.flatMap((f) => (f.kind === "opening" ? [clockwise(f.loop)] : []));
  return { outer: part.outline, holes };
}

function clockwise(loop: Region<"panel">["outer"]): Region<"panel">["outer"] {
  const ring = ringOf(loop);
  let area = 0;
  for (let i = 0; i < ring.length; i += 2) {
    const j = (i + 2) % ring.length;
    area += ring[i]! * ring[j + 1]! - ring[j]! * ring[i + 1]!;
  }
  if (area < 0) return loop;
  const n = loop.vertices.length;
  return {
    closed: true,
    vertices: loop.vertices.map((_, i) => {
      const here = loop.vertices[n - 1 - i]!;
      return { ...here, bulge: 0 - loop.vertices[(2 * n - 2 - i) % n]!.bulge };
    }),
  };
}

function boxGap(a: Box, b: Box): number {
  const across = Math.max(a[0] - b[2], b[0] - a[2], 0);
  const up = Math.max(a[1] - b[3], b[1] - a[3], 0);
  return Math.hypot(across, up);
}

function mm(length: number): string {
  return String(Math.round(length * 1000) / 1000);
}

function wrong(code: string, path: string, message: string, numbers: Record<string, number>): Finding {
  return { code, severity: "error", path, message, numbers };
}
