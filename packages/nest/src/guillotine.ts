import type { Budget } from "./budget.ts";
import { type Demand, demandOf } from "./demand.ts";
import { type Rng, rngFrom } from "./rng.ts";

/** A rectangle that may be cut `demand` times, in one of the sizes that its turns give it. */
export interface Piece {
  readonly sizes: readonly (readonly [number, number])[];
  readonly value: number;
  readonly demand: number;
}

/** A rectangle and the cuts through it: a leaf is a piece, or a rest where `piece` is null. */
export type CutTree = CutLeaf | CutNode;

export interface CutLeaf {
  readonly w: number;
  readonly h: number;
  readonly piece: number | null;
  /** Which of the piece's sizes. */
  readonly turn: number;
}

/** Cut edge to edge: at x (a cut up the sheet) or at y (a cut along it), measured from the near edge. */
export interface CutNode {
  readonly w: number;
  readonly h: number;
  readonly axis: "x" | "y";
  readonly at: number;
  readonly near: CutTree;
  readonly far: CutTree;
}

export interface CutSearch {
  readonly seed: number;
  readonly budget: Budget;
  /** A value that cannot be beaten: the search ends there. */
  readonly bound?: number;
}

/**
 * The most valuable set of pieces that edge-to-edge cuts can take from one sheet, as found: blocks are built from the
 * smallest up, two side by side or one on the other, so that every block is a tree of cuts already. Blocks whose waste
 * leaves no hope of a better sheet are dropped; of the rest the densest of every size go on, more of them each time
 * round.
 *
 * Source: P. Y. Wang, "Two algorithms for constrained two-dimensional cutting stock problems", 1983 (building up,
 * bound on waste).
 */
export function cutSheet(
  pieces: readonly Piece[],
  sheet: readonly [number, number],
  { seed, budget, bound = Infinity }: CutSearch,
): { value: number; tree: CutTree } {
  const rng = rngFrom(seed);
  const demand = demandOf(pieces.map((piece) => piece.demand));
  const search: Search = { pieces, sheet, demand, budget, dearest: dearest(pieces), steps: 0, best: null };
  const most = Math.min(bound, search.dearest * sheet[0] * sheet[1], total(pieces));
  for (let kept = 60; budget.spent(search.steps) < 1; kept = Math.ceil(kept * 1.7)) {
    const whole = build(search, kept, kept > 60 ? 0.05 : 0, rng);
    if (whole || (search.best?.value ?? 0) >= most - 1e-9) break;
  }
  const { best } = search;
  return { value: best?.value ?? 0, tree: best ? within(treeOf(best), sheet) : rest(...sheet) };
}

/** Every piece of a tree with its near corner. */
export function piecesOf(
  tree: CutTree,
  x = 0,
  y = 0,
): (CutLeaf & { readonly x: number; readonly y: number })[] {
  if (!("near" in tree)) return tree.piece === null ? [] : [{ ...tree, x, y }];
  const [fx, fy] = tree.axis === "x" ? [x + tree.at, y] : [x, y + tree.at];
  return [...piecesOf(tree.near, x, y), ...piecesOf(tree.far, fx, fy)];
}

interface Search {
  readonly pieces: readonly Piece[];
  readonly sheet: readonly [number, number];
  readonly demand: Demand;
  readonly budget: Budget;
  /** The most value of a piece by its area: no wood can bring more. */
  readonly dearest: number;
  steps: number;
  best: Block | null;
}

/** Pieces put together; how is told by `axis` and the two halves. */
interface Block {
  readonly w: number;
  readonly h: number;
  readonly value: number;
  readonly used: Int32Array;
  readonly piece: number;
  readonly turn: number;
  readonly axis: "x" | "y";
  readonly near: Block | null;
  readonly far: Block | null;
  score: number;
}

/** Blocks are compared with others of like size, so that small dense ones do not crowd large ones out. */
const SIZES = 8;

/** One round of building. True where nothing was dropped for want of room: the best is then the best there is. */
function build(search: Search, kept: number, noise: number, rng: Rng): boolean {
  const { pieces, sheet, demand } = search;
  const all: Block[] = pieces.flatMap(({ sizes, value, demand: most }, piece) =>
    sizes.flatMap(([w, h], turn) => {
      if (w > sheet[0] + SLACK || h > sheet[1] + SLACK || most < 1) return [];
      const leaf = { piece, turn, axis: "x" as const, near: null, far: null, score: 0 };
      return [{ w, h, value, used: demand.one(piece), ...leaf }];
    }),
  );
  for (const block of all) offer(search, block);
  let complete = true;
  let fresh = all.slice();
  while (fresh.length > 0) {
    const shelves = Array.from({ length: SIZES }, () => [] as Block[]);
    const before = all.length - fresh.length;
    for (let f = 0; f < fresh.length; f++) {
      for (let k = 0; k <= before + f; k++) join(search, all[k]!, fresh[f]!, shelves, kept, noise, rng);
      search.steps += before + f + 1;
      if (search.budget.spent(search.steps) >= 1) return false;
    }
    fresh = [];
    for (const shelf of shelves) {
      const { chosen, whole } = densest(shelf, kept);
      complete &&= whole && shelf.length <= 4 * kept;
      fresh.push(...chosen);
    }
    all.push(...fresh);
  }
  return complete && noise === 0;
}

const SLACK = 1e-7;

function join(
  search: Search,
  a: Block,
  b: Block,
  shelves: Block[][],
  kept: number,
  noise: number,
  rng: Rng,
): void {
  const { sheet, demand } = search;
  const beside = a.w + b.w <= sheet[0] + SLACK;
  const above = a.h + b.h <= sheet[1] + SLACK;
  if ((!beside && !above) || !demand.allows(a.used, b.used)) return;
  const value = a.value + b.value;
  for (const axis of AXES) {
    if (axis === "x" ? !beside : !above) continue;
    const w = axis === "x" ? a.w + b.w : Math.max(a.w, b.w);
    const h = axis === "x" ? Math.max(a.h, b.h) : a.h + b.h;
    const rest = sheet[0] * sheet[1] - w * h;
    if (value + search.dearest * rest <= (search.best?.value ?? 0) + 1e-9) continue;
    const score = (value / (w * h)) * (1 + noise * (rng() - 0.5));
    const used = demand.sum(a.used, b.used);
    const block: Block = { w, h, value, used, piece: -1, turn: 0, axis, near: a, far: b, score };
    offer(search, block);
    const shelf = shelves[Math.min(SIZES - 1, Math.floor((SIZES * w * h) / (sheet[0] * sheet[1])))]!;
    shelf.push(block);
    if (shelf.length > 8 * kept) {
      shelf.sort((p, q) => q.score - p.score);
      // One more than can be kept tells that some were dropped.
      shelf.length = 4 * kept + 1;
    }
  }
}

const AXES = ["x", "y"] as const;

function offer(search: Search, block: Block): void {
  if (!search.best || block.value > search.best.value) search.best = block;
}

/** The best of a shelf, none of which holds the same pieces as a smaller one. */
function densest(shelf: Block[], kept: number): { chosen: Block[]; whole: boolean } {
  const bySet = new Map<string, Block[]>();
  const chosen: Block[] = [];
  for (const block of shelf.sort((p, q) => q.score - p.score)) {
    const key = block.used.join();
    const same = bySet.get(key);
    if (same?.some((other) => other.w <= block.w + SLACK && other.h <= block.h + SLACK)) continue;
    if (chosen.length === kept) return { chosen, whole: false };
    if (same) same.push(block);
    else bySet.set(key, [block]);
    chosen.push(block);
  }
  return { chosen, whole: true };
}

function treeOf(block: Block): CutTree {
  const { w, h, axis, near, far } = block;
  if (!near || !far) return { w, h, piece: block.piece, turn: block.turn };
  const at = axis === "x" ? near.w : near.h;
  const half = (of: Block): CutTree => within(treeOf(of), axis === "x" ? [of.w, h] : [w, of.h]);
  return { w, h, axis, at, near: half(near), far: half(far) };
}

/** The tree as the near corner of a larger rectangle: what sticks out is cut off first. */
function within(tree: CutTree, [w, h]: readonly [number, number]): CutTree {
  if (tree.w < w - SLACK) {
    const inner = within(tree, [tree.w, h]);
    return { w, h, axis: "x", at: tree.w, near: inner, far: rest(w - tree.w, h) };
  }
  if (tree.h < h - SLACK)
    return { w, h, axis: "y", at: tree.h, near: { ...tree, w }, far: rest(w, h - tree.h) };
  return tree;
}

function rest(w: number, h: number): CutTree {
  return { w, h, piece: null, turn: 0 };
}

function dearest(pieces: readonly Piece[]): number {
  return Math.max(0, ...pieces.map(({ sizes, value }) => value / (sizes[0]![0] * sizes[0]![1])));
}

function total(pieces: readonly Piece[]): number {
  return pieces.reduce((sum, piece) => sum + piece.value * piece.demand, 0);
}
