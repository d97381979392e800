import { cuttingData, defaultCutters, defaultMachine, planSheet, writePrograms } from "@dryfit/gcode";
import { type Loop, placement, roundedRectangle, type Vertex } from "@dryfit/geometry";
import type { Assembly, Part } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import { type JobToProve, proveCuts } from "@dryfit/verify";

/** About so many blocks are planned, written and proved. */
const SIZES = [12_000, 25_000, 50_000, 100_000, 200_000];

/** What one size took, ms. */
export interface Growth {
  readonly blocks: number;
  readonly plan: number;
  readonly write: number;
  readonly prove: number;
}

/**
 * How the work grows with the number of blocks: time per size, and over n log n as a ratio to the smallest size's.
 * Above 1 it grows faster.
 */
export async function* benchGrowth(): AsyncGenerator<string> {
  yield "";
  yield "growth: blocks, ms to plan, write and prove them; all over n log n, the first size being 1";
  let first: Growth | null = null;
  for (const size of SIZES) {
    const one = grown(size);
    first ??= one;
    yield `${String(one.blocks).padStart(7)} blocks ${ms(one.plan)} ${ms(one.write)} ${ms(one.prove)}   × ${overNLogN(one, first).toFixed(2)}`;
  }
}

const ms = (value: number): string => value.toFixed(0).padStart(7);

/** Time over n log n, relative to `to`. */
export function overNLogN(one: Growth, to: Growth): number {
  const cost = ({ blocks, plan, write, prove }: Growth): number =>
    (plan + write + prove) / (blocks * Math.log2(blocks));
  return cost(one) / cost(to);
}

/** Plans, writes and proves a sheet of tiles whose programs hold about `size` blocks. */
export function grown(size: number): Growth {
  const count = Math.max(1, Math.round(size / BLOCKS_A_TILE));
  const { parts, sheet } = tiles(count);
  const machine = { ...defaultMachine(), travel: { x: 1e4, y: 1e4, z: 95 } };
  const cutters = defaultCutters().filter(({ id }) => id === "up-6");
  const began = performance.now();
  const plan = planSheet({
    sheet,
    parts,
    cutters,
    machine,
    data: (cutter, _material, cut) => cuttingData(cutter, machine, "plywood", cut),
  });
  const planned = performance.now();
  const { programs, findings } = writePrograms({
    name: "tiles",
    parts,
    sheets: [sheet],
    flips: {},
    plans: plan.setups,
    machine,
    cutters,
    wood: "plywood",
  });
  const written = performance.now();
  const proof = proveCuts({
    assembly: { name: "tiles", parts, placed: {}, joints: [], findings: [] } as unknown as Assembly,
    sheets: [sheet],
    flips: {},
    programs,
    machine: {
      travel: machine.travel,
      bedAllowance: machine.bedAllowance,
      maxPlungeMmPerMin: machine.maxFeedMmPerMin.z,
      dwellUnit: machine.controller.dwellUnit,
      spindle: machine.spindle,
    },
  } satisfies JobToProve);
  const proved = performance.now();
  const wrong = [...plan.findings, ...findings, ...proof.findings].filter(
    ({ severity }) => severity === "error",
  );
  if (wrong.length > 0)
    throw new Error(
      wrong
        .slice(0, 3)
        .map(({ message }) => message)
        .join("\n"),
    );
  return {
    blocks: programs.reduce((sum, { blocks }) => sum + blocks, 0),
    plan: planned - began,
    write: written - planned,
    prove: proved - written,
  };
}

/** What one tile comes to. */
const BLOCKS_A_TILE = 690;

/** Tiles of 90 mm with a scalloped edge, a pocket and four holes, in rows. */
function tiles(count: number): { readonly parts: readonly Part[]; readonly sheet: Sheet } {
  const row = Math.ceil(Math.sqrt(count));
  const parts = Array.from({ length: count }, (_, i) => tile(`tile-${i + 1}`));
  const at = (i: number) => ({ x: 20 + (i % row) * 110, y: 20 + Math.floor(i / row) * 110 });
  const size = [40 + row * 110, 40 + Math.ceil(count / row) * 110] as const;
  return {
    parts,
    sheet: {
      id: "sheet-1",
      stock: {
        id: "sheet-1",
        material: "plywood",
        size,
        outline: null,
        grain: "x",
        count: 1,
        price: null,
        keepOuts: [],
      },
      parts: parts.map(({ id }, i) => ({ part: id, placement: placement<"sheet", "panel">(at(i)) })),
    },
  };
}

function tile(id: string): Part {
  const at = (x: number, y: number) => ({ x, y });
  return {
    id,
    panel: "tile",
    title: id,
    material: "plywood",
    thickness: { min: 9, mean: 9, max: 9 },
    outline: scalloped(),
    features: [
      {
        kind: "recess",
        id: "pocket",
        face: "A",
        region: { outer: roundedRectangle(at(25, 25), at(65, 45), 4), holes: [] },
        depth: 5,
        purpose: "mortise",
      },
      ...[at(15, 15), at(75, 15), at(15, 75), at(75, 75)].map(
        (place, i) =>
          ({ kind: "bore", id: `hole-${i + 1}`, face: "A", at: place, diameter: 7, depth: null }) as const,
      ),
    ],
    roundOvers: [],
    grain: "free",
    faceNames: { A: "up", B: "down" },
    mating: [],
  };
}

/** A square of 90 mm with shallow scallops along two of its sides; the others are straight and bear tabs. */
function scalloped(): Loop<"panel"> {
  const [side, count] = [90, 9];
  const step = side / count;
  const along = (x: (t: number) => number, y: (t: number) => number): Vertex<"panel">[] =>
    Array.from({ length: count }, (_, i) => ({ x: x(i * step), y: y(i * step), bulge: 0.3 }));
  const corner = (x: number, y: number): Vertex<"panel"> => ({ x, y, bulge: 0 });
  return {
    closed: true,
    vertices: [
      corner(0, 0),
      ...along(
        () => side,
        (t) => t,
      ),
      corner(side, side),
      ...along(
        () => 0,
        (t) => side - t,
      ),
    ],
  };
}
