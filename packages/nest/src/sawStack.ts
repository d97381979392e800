import { SAME_POINT_MM } from "@dryfit/geometry";

export type Axis = "x" | "y";

/** A blank in a turn that the grain allows, as it lies on the sheet. */
export interface Lying {
  readonly blank: number;
  readonly turned: boolean;
  readonly size: readonly [number, number];
}

/**
 * A board that is cut by parallel cuts into slabs, each of which may be a board cut the other way: a tree of stacks is
 * a plan that a saw can follow, whatever stands in it.
 */
export interface Stack {
  /** 1 for the sheet, one more with every change of direction. */
  readonly stage: number;
  /** Slabs follow one another along this axis. */
  readonly axis: Axis;
  /** Room along the axis and across it. */
  readonly length: number;
  readonly across: number;
  /** The same with the untrusted edges that are still on the board. */
  readonly wholeLength: number;
  readonly wholeAcross: number;
  used: number;
  readonly slabs: Slab[];
}

interface Slab {
  readonly thick: number;
  readonly inside: Lying | Stack;
}

/** A place in a stack or below it, not yet taken. */
export interface Opening {
  readonly stack: Stack;
  readonly lying: Lying;
  /** A new strip or length costs more than one in a board that is sawn anyway; then waste decides. */
  readonly stage: number;
  readonly waste: number;
}

/** All places where a blank may go in a stack: deeper in its slabs, or as a slab of its own. */
export function openings(stack: Stack, lying: Lying, stages: number): Opening[] {
  const [along, across] = measures(stack.axis, lying);
  if (across > stack.across + SAME_POINT_MM) return [];
  const found = stack.slabs.flatMap(({ inside }) =>
    "slabs" in inside ? openings(inside, lying, stages) : [],
  );
  const bare = isWhole(stack, across);
  if (along <= stack.length - stack.used + SAME_POINT_MM && (bare || stack.stage < stages))
    found.push({ stack, lying, stage: stack.stage, waste: along * (stack.across - across) });
  return found;
}

/** Takes the place; returns nothing, because the stack grows. */
export function fill({ stack, lying }: Opening, kerf: number): void {
  const [along, across] = measures(stack.axis, lying);
  if (isWhole(stack, across)) {
    addSlab(stack, along, lying, kerf);
    return;
  }
  const inner = innerStack(stack, along);
  addSlab(inner, across, lying, kerf);
  addSlab(stack, along, inner, kerf);
}

/** A slab of this thickness to be cut the other way. */
export function innerStack(stack: Stack, thick: number): Stack {
  return {
    stage: stack.stage + 1,
    axis: stack.axis === "x" ? "y" : "x",
    length: stack.across,
    wholeLength: stack.wholeAcross,
    // Both long edges are sawn; only the far end may still be the factory's.
    across: thick,
    wholeAcross: thick,
    used: 0,
    slabs: [],
  };
}

export function addSlab(stack: Stack, thick: number, inside: Lying | Stack, kerf: number): void {
  stack.slabs.push({ thick, inside });
  stack.used += thick + kerf;
}

/** A blank's measures along and across the axis. */
export function measures(axis: Axis, { size }: Lying): readonly [number, number] {
  return axis === "x" ? size : [size[1], size[0]];
}

/** Is the board as wide as the blank, so that no cut is needed? */
function isWhole({ wholeAcross }: Stack, across: number): boolean {
  return Math.abs(wholeAcross - across) <= SAME_POINT_MM;
}
