import {
  apartBound,
  areaBound,
  type Bin,
  type Budget,
  cutSheet,
  dualFeasibleBound,
  type Obstacle,
  type Peer,
  packBoxBins,
  packBoxStrip,
  packSheets,
  packStrip,
  piecesOf,
  problemOf,
  STRIP_COARSE,
} from "@dryfit/nest";
import {
  areaOf,
  boxOf,
  type Instance,
  type InstanceItem,
  isBox,
  itemArea,
  type Point,
  type Solution,
  type SolutionPlacement,
  turned,
} from "./nest-instance.ts";

/** Lays out one instance with what the nest package offers for its kind. */
export function solve(
  instance: Instance,
  seed: number,
  budget: Budget,
  now: () => number,
  peer?: Peer,
): Solution {
  const boxes = instance.items.every((item) => isBox(item.polygon));
  switch (instance.kind) {
    case "strip":
      return boxes ? boxStrip(instance, seed, budget) : strip(instance, seed, budget, now, peer);
    case "bin":
    case "variable-size-bins":
      return boxes ? boxBins(instance, seed, budget) : sheets(instance, seed, budget, now);
    case "irregular-sheets":
      return sheets(instance, seed, budget, now);
    case "guillotine-knapsack":
      return guillotine(instance, seed, budget);
    case "keep-out":
      return aroundKeepOuts(instance, seed, budget);
  }
}

/** Smaller is better, and comparable between two solutions of one instance. */
export function costOf(instance: Instance, solution: Solution): number {
  const placed = solution.sheets.reduce((sum, sheet) => sum + sheet.placements.length, 0);
  const lost = instance.items.reduce((sum, item) => sum + item.demand, 0) - placed;
  if (instance.kind === "strip") return solution.sheets[0]!.size[0] + lost * 1e12;
  if (instance.kind === "guillotine-knapsack" || instance.kind === "keep-out")
    return -worthOf(instance, solution);
  return sheetsCost(instance, solution) + lost * 1e12;
}

export function worthOf(instance: Instance, solution: Solution): number {
  const values = new Map(instance.items.map((item) => [item.id, item.value ?? areaOf(item.polygon)]));
  return solution.sheets.flatMap((s) => s.placements).reduce((sum, p) => sum + values.get(p.id)!, 0);
}

/** Number of sheets, or what they cost where sizes differ. */
export function sheetsCost(instance: Instance, solution: Solution): number {
  const sizes = instance.sheetSizes;
  if (!sizes) return solution.sheets.length;
  return solution.sheets.reduce(
    (sum, { size }) => sum + sizes.find((s) => s.width === size[0] && s.height === size[1])!.cost,
    0,
  );
}

function copies(instance: Instance): InstanceItem[] {
  return instance.items.flatMap((item) => new Array<InstanceItem>(item.demand).fill(item));
}

function typesOf(instance: Instance) {
  return {
    types: instance.items.map((item) => ({
      polygon: [item.polygon.flat()],
      turns: item.allowedRotationsDeg.map((degrees) => (degrees * Math.PI) / 180),
    })),
    items: instance.items.flatMap((item, type) => new Array<number>(item.demand).fill(type)),
  };
}

/** A box's sizes for each of its turns; `across`: y first, as a strip wants its length along x anyway. */
function sizesOf(item: InstanceItem): { degrees: number[]; sizes: [number, number][] } {
  const degrees: number[] = [];
  const sizes: [number, number][] = [];
  for (const turn of item.allowedRotationsDeg) {
    const [x0, y0, x1, y1] = boxOf(turned(item.polygon, turn));
    if (sizes.some(([w, h]) => w === x1 - x0 && h === y1 - y0)) continue;
    degrees.push(turn);
    sizes.push([x1 - x0, y1 - y0]);
  }
  return { degrees, sizes };
}

/** The placement that puts the turned item's box with its least corner at x, y. */
function corner(item: InstanceItem, degrees: number, x: number, y: number): SolutionPlacement {
  const [x0, y0] = boxOf(turned(item.polygon, degrees));
  return { id: item.id, rotationDeg: degrees, x: x - x0, y: y - y0 };
}

function strip(instance: Instance, seed: number, budget: Budget, now: () => number, peer?: Peer): Solution {
  const width = instance.stripWidth!;
  const { types, items } = typesOf(instance);
  const bin: Bin = { x0: 0, y0: 0, x1: Infinity, y1: width, obstacles: [] };
  const problem = problemOf({ types, items, gap: 0, bins: [bin], coarse: STRIP_COARSE });
  const curve: [number, number][] = [];
  const area = itemArea(instance);
  const found = packStrip(problem, {
    types,
    seed,
    budget,
    ...(peer ? { peer } : {}),
    onProgress: ({ length }) => curve.push([now(), (100 * area) / (length * width)]),
  });
  const order = copies(instance);
  const { layout } = found;
  const placements = order.map((item, i) => ({
    id: item.id,
    rotationDeg: item.allowedRotationsDeg[problem.shapes[layout.shape[i]!]!.turn]!,
    x: layout.x[i]!,
    y: layout.y[i]!,
  }));
  return { sheets: [{ size: [found.length, width], placements }], steps: found.steps, curve };
}

function boxStrip(instance: Instance, seed: number, budget: Budget): Solution {
  const width = instance.stripWidth!;
  const order = copies(instance);
  const sizes = order.map(sizesOf);
  const bound = itemArea(instance) / width;
  const found = packBoxStrip(sizes, width, { seed, budget, bound });
  const placements = found.spots.map(({ turn, x, y }, i) =>
    corner(order[i]!, sizes[i]!.degrees[turn]!, x, y),
  );
  return { sheets: [{ size: [found.length, width], placements }], steps: 0, curve: [] };
}

function boxBins(instance: Instance, seed: number, budget: Budget): Solution {
  const order = copies(instance);
  const sizes = order.map(sizesOf);
  const kinds = instance.sheetSizes ?? [{ ...instance.bin!, cost: 1 }];
  const types = kinds.map(({ width, height, cost }) => ({
    w: width,
    h: height,
    cost,
    count: null,
    taken: [],
  }));
  const turning = sizes.some((s) => s.sizes.length > 1);
  const bound = instance.sheetSizes
    ? Math.min(...kinds.map((k) => k.cost / (k.width * k.height))) * itemArea(instance)
    : turning
      ? areaBound([itemArea(instance)], types[0]!.w * types[0]!.h)
      : unturnedBound(
          sizes.map((s) => s.sizes[0]!),
          [types[0]!.w, types[0]!.h],
        );
  const found = packBoxBins(sizes, types, { seed, budget, bound });
  const sheets = found.bins.map((bin) => ({
    size: [types[bin.type]!.w, types[bin.type]!.h] as const,
    placements: bin.spots.map((s) => corner(order[s.box]!, sizes[s.box]!.degrees[s.turn]!, s.x, s.y)),
  }));
  return { sheets, steps: 0, curve: [] };
}

function unturnedBound(sizes: (readonly [number, number])[], sheet: readonly [number, number]): number {
  return Math.max(dualFeasibleBound(sizes, sheet), apartBound(sizes, sheet));
}

function guillotine(instance: Instance, seed: number, budget: Budget): Solution {
  const { width, height } = instance.bin!;
  const sizes = instance.items.map(sizesOf);
  const pieces = instance.items.map((item, i) => ({
    sizes: sizes[i]!.sizes,
    value: item.value ?? areaOf(item.polygon),
    demand: item.demand,
  }));
  const { tree } = cutSheet(pieces, [width, height], { seed, budget });
  const placements = piecesOf(tree).map(({ piece, turn, x, y }) =>
    corner(instance.items[piece!]!, sizes[piece!]!.degrees[turn]!, x, y),
  );
  return { sheets: [{ size: [width, height], placements }], steps: 0, curve: [] };
}

function aroundKeepOuts(instance: Instance, seed: number, budget: Budget): Solution {
  const { width: w, height: h } = instance.bin!;
  const taken = instance.keepOuts!.map(({ polygon }) => {
    const [x0, y0, x1, y1] = boxOf(polygon);
    return { x: x0, y: y0, w: x1 - x0, h: y1 - y0 };
  });
  const order = copies(instance);
  const sizes = order.map(sizesOf);
  const found = packBoxBins(sizes, [{ w, h, cost: 1, count: 1, taken }], { seed, budget, bound: 0 });
  const placements = found.bins.flatMap(({ spots }) =>
    spots.map((s) => corner(order[s.box]!, sizes[s.box]!.degrees[s.turn]!, s.x, s.y)),
  );
  return { sheets: [{ size: [w, h], placements }], steps: 0, curve: [] };
}

function sheets(instance: Instance, seed: number, budget: Budget, now: () => number): Solution {
  const { types, items } = typesOf(instance);
  const kinds = instance.sheets
    ? instance.sheets.map((sheet) => {
        const { bin, area } = irregularBin(sheet.polygon, sheet.holes ?? []);
        return { bin, area, cost: area, count: sheet.stock ?? 1 };
      })
    : [plainKind(instance.bin!.width, instance.bin!.height)];
  const bound = instance.sheets ? 0 : areaBound([itemArea(instance)], kinds[0]!.area);
  const curve: [number, number][] = [];
  const found = packSheets(
    { types, items, gap: 0, kinds },
    { seed, budget, bound, onProgress: (r) => curve.push([now(), r.sheets.length]) },
  );
  const order = copies(instance);
  return {
    sheets: found.sheets.map((kind, k) => ({
      size: [kinds[kind]!.bin.x1, kinds[kind]!.bin.y1] as const,
      ...(instance.sheets ? { sheet: instance.sheets[kind]!.id } : {}),
      placements: found.spots
        .filter((spot) => spot.sheet === k)
        .map(({ item, turn, x, y }) => ({
          id: order[item]!.id,
          rotationDeg: order[item]!.allowedRotationsDeg[turn]!,
          x,
          y,
        })),
    })),
    steps: found.steps,
    curve,
  };
}

function plainKind(width: number, height: number) {
  const bin: Bin = { x0: 0, y0: 0, x1: width, y1: height, obstacles: [] };
  return { bin, area: width * height, cost: 1, count: null };
}

/** All around the outline within a frame, and every hole, is an obstacle. */
function irregularBin(
  polygon: readonly Point[],
  holes: readonly (readonly Point[])[],
): { bin: Bin; area: number } {
  const [x0, y0, x1, y1] = boxOf(polygon);
  const pad = 0.05 * Math.max(x1 - x0, y1 - y0);
  const frame = [x0 - pad, y0 - pad, x1 + pad, y0 - pad, x1 + pad, y1 + pad, x0 - pad, y1 + pad];
  const obstacles: Obstacle[] = [
    { polygon: [frame, [...polygon].reverse().flat()], gap: 0 },
    ...holes.map((hole) => ({
      polygon: [(areaOf(hole) > 0 ? [...hole] : [...hole].reverse()).flat()],
      gap: 0,
    })),
  ];
  const area = areaOf(polygon) - holes.reduce((sum, hole) => sum + Math.abs(areaOf(hole)), 0);
  return { bin: { x0, y0, x1, y1, obstacles }, area };
}
