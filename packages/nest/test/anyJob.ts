import type { Part } from "@dryfit/joinery";
import type { NestJob } from "@dryfit/nest";
import fc from "fast-check";
import { board, box, part, region, sheet } from "./jobs.ts";

const grain = fc.constantFrom("x" as const, "y" as const, "free" as const);
const length = (min: number, max: number) =>
  fc.double({ min, max, noNaN: true }).map((v) => Math.round(v * 10) / 10);

/** Boards, frames with an opening, round-ended and L-shaped parts. */
const anyPart = fc
  .tuple(fc.nat(3), length(20, 260), length(20, 200), grain)
  .map(([kind, w, h, g]) => (id: string) => {
    if (kind === 0) return board(id, w, h, g);
    if (kind === 1) return part(id, box(w + 60, h + 60), { grain: g, openings: [box(w, h, 30, 30)] });
    if (kind === 2)
      return part(
        id,
        [
          [0, 0],
          [w, 0, 1],
          [w, h],
          [0, h, -0.3],
        ],
        { grain: g },
      );
    return part(
      id,
      [
        [0, 0],
        [w, 0],
        [w, h / 3],
        [w / 3, h / 3],
        [w / 3, h],
        [0, h],
      ],
      { grain: g },
    );
  });

const anyStock = fc
  .tuple(length(250, 900), length(250, 700), fc.nat(2), fc.boolean(), fc.boolean())
  .map(([w, h, count, along, odd]) => {
    const outline = region([
      [0, 0],
      [w, 0],
      [w, h * 0.6],
      [w * 0.7, h],
      [0, h, 0.1],
    ]);
    return sheet(w, h, {
      id: `${w}x${h}${odd}`,
      grain: along ? "x" : "y",
      count: count === 0 ? null : count,
      outline: odd ? outline : null,
      keepOuts: count === 2 ? [region(box(40, 30, w / 3, h / 3))] : [],
    });
  });

/** Jobs of all sorts: openings, arcs, keep-outs, odd offcuts, grain, few sheets. */
export const anyJob: fc.Arbitrary<NestJob> = fc
  .record({
    makers: fc.array(anyPart, { minLength: 1, maxLength: 9 }),
    stocks: fc.uniqueArray(anyStock, { minLength: 1, maxLength: 3, selector: (s) => s.id }),
    spacing: fc.constantFrom(0, 4, 10),
    margin: fc.constantFrom(0, 10),
    seed: fc.nat(1000),
  })
  .map(({ makers, stocks, spacing, margin, seed }) => {
    const parts: Part[] = makers.map((make, i) => make(`p${i}`));
    return { parts, stocks, rules: { spacing, margin }, seed };
  });
