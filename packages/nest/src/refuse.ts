import type { Finding, Part } from "@dryfit/joinery";
import { boxed } from "./boxes.ts";
import type { NestJob, Stock } from "./layout.ts";
import { type Ring, ringArea, ringOf } from "./ring.ts";
import { turnsFor } from "./turns.ts";

/** Less wood than this is no part: an outline drawn there and back, mm². */
const LEAST_AREA_MM2 = 1e-3;

/** Parts that no search could place, and why: each with a finding that names it. */
export function refusals(job: NestJob): { placeable: Part[]; refused: string[]; findings: Finding[] } {
  const placeable: Part[] = [];
  const refused: string[] = [];
  const findings: Finding[] = [];
  const ids = new Set<string>();
  for (const part of job.parts) {
    const finding = ids.has(part.id)
      ? error(
          "part_named_twice",
          part.id,
          `Two parts are called ${part.id}.`,
          {},
          "Give every part its own name.",
        )
      : refusal(job, part);
    ids.add(part.id);
    if (!finding) {
      placeable.push(part);
      continue;
    }
    findings.push(finding);
    refused.push(part.id);
  }
  return { placeable, refused, findings };
}

/** Parts that are sound but found no wood. */
export function noStockLeft(part: Part): Finding {
  return error(
    "no_stock_left",
    part.id,
    `${part.id} found no place: the sheets of ${part.material} are used up.`,
    {},
    "Add a sheet, or take a part out of this job.",
  );
}

/** Parts for which there are sheets enough, but that no search could lay. */
export function noPlaceFound(part: Part): Finding {
  return error(
    "no_place_found",
    part.id,
    `${part.id} found no place on any sheet of ${part.material}, though it is no larger than they are.`,
    {},
    "Look for knots and clamps to be avoided that leave no room for it, or use a larger sheet.",
  );
}

function refusal(job: NestJob, part: Part): Finding | null {
  const ring = ringOf(part.outline);
  if (!ring.every(Number.isFinite) || ring.length < 6 || Math.abs(ringArea(ring)) < LEAST_AREA_MM2)
    return error(
      "zero_area_outline",
      part.id,
      `${part.id} has an outline without area.`,
      { area: Math.abs(ringArea(ring)) || 0 },
      "Draw its outline as one closed line around the wood.",
    );
  const crossing = selfCrossing(ring);
  if (crossing)
    return error(
      "self_crossing_outline",
      part.id,
      `The outline of ${part.id} crosses itself near ${Math.round(crossing[0])}, ${Math.round(crossing[1])} mm.`,
      { x: crossing[0], y: crossing[1] },
      "Redraw its outline so that it meets itself nowhere.",
    );
  const stocks = job.stocks.filter((stock) => stock.material === part.material);
  if (stocks.every((stock) => stock.count === 0)) return noStockLeft(part);
  return stocks.some((stock) => fits(job, part, stock)) ? null : tooLarge(job, part, stocks);
}

function fits(job: NestJob, part: Part, stock: Stock, grain: Part["grain"] = part.grain): boolean {
  const turns = turnsFor({ ...part, grain }, stock, job.turns?.[part.id]);
  const room = stock.size.map((side) => side - 2 * job.rules.margin);
  return boxed(part, turns).turns.some(({ size }) => size.every((side, axis) => side <= room[axis]! + 1e-9));
}

function tooLarge(job: NestJob, part: Part, stocks: readonly Stock[]): Finding {
  const [width, height] = boxed(part, [{ quarters: 0, angle: 0 }]).turns[0]!.size;
  if (part.grain !== "free" && stocks.some((stock) => fits(job, part, stock, "free")))
    return error(
      "contradictory_grain",
      part.id,
      `${part.id} (${side(width)} × ${side(height)} mm) fits its sheet only across the grain, which it must follow.`,
      { width, height },
      "Free its grain, or use a sheet whose grain runs the other way.",
    );
  const largest = stocks.reduce((a, b) => (a.size[0] * a.size[1] >= b.size[0] * b.size[1] ? a : b));
  return error(
    "part_larger_than_sheet",
    part.id,
    `${part.id} (${side(width)} × ${side(height)} mm) is larger than any sheet of ${part.material}, ${job.rules.margin} mm off its edges.`,
    { width, height, sheetWidth: largest.size[0], sheetHeight: largest.size[1], margin: job.rules.margin },
    "Use a larger sheet, or make the part smaller.",
  );
}

/** Where two edges that are no neighbours meet; null where none do. */
function selfCrossing(ring: Ring): [number, number] | null {
  const n = ring.length / 2;
  for (let i = 0; i < n; i++)
    for (let j = i + 1; j < n; j++) {
      const neighbours = j === i + 1 || (i === 0 && j === n - 1);
      const at = neighbours ? foldsBack(ring, i, j, n) : meeting(ring, i, j, n);
      if (at) return at;
    }
  return null;
}

/** Sine below which two sides run one way: far above what rounding does, far below any bend. */
const PARALLEL = 1e-12;

function meeting(ring: Ring, i: number, j: number, n: number): [number, number] | null {
  const [px, py, dx, dy] = edge(ring, i, n);
  const [qx, qy, ex, ey] = edge(ring, j, n);
  const turn = dx * ey - dy * ex;
  // Two feet stand on one line: what rounding leaves of its bends is no crossing.
  if (Math.abs(turn) <= PARALLEL * Math.hypot(dx, dy) * Math.hypot(ex, ey)) return null;
  const t = ((qx - px) * ey - (qy - py) * ex) / turn;
  const u = ((qx - px) * dy - (qy - py) * dx) / turn;
  return t >= 0 && t <= 1 && u >= 0 && u <= 1 ? [px + t * dx, py + t * dy] : null;
}

/** Neighbouring edges that run back over each other. */
function foldsBack(ring: Ring, i: number, j: number, n: number): [number, number] | null {
  const [first, second] = j === i + 1 ? [i, j] : [j, i];
  const [, , dx, dy] = edge(ring, first, n);
  const [qx, qy, ex, ey] = edge(ring, second, n);
  const flat = Math.abs(dx * ey - dy * ex) <= PARALLEL * Math.hypot(dx, dy) * Math.hypot(ex, ey);
  return flat && dx * ex + dy * ey < 0 ? [qx, qy] : null;
}

function edge(ring: Ring, i: number, n: number): [number, number, number, number] {
  const [x, y] = [ring[2 * i]!, ring[2 * i + 1]!];
  const k = (i + 1) % n;
  return [x, y, ring[2 * k]! - x, ring[2 * k + 1]! - y];
}

function side(length: number): string {
  return String(Math.round(length * 10) / 10);
}

function error(
  code: string,
  path: string,
  message: string,
  numbers: Record<string, number>,
  wayOut: string,
): Finding {
  return { code, severity: "error", path, message, numbers, wayOut };
}
