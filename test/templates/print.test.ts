import type { TemplatesJob } from "@dryfit/bench";
import { type Curve, flatten, type Loop, offset, placeCurve, placement, point } from "@dryfit/geometry";
import { describe, expect, test } from "vitest";
import { caseOf, made, printed, python, TOOLS_WITHOUT_BEARING } from "./bench.ts";

interface Measured {
  readonly checks: readonly { readonly across: number; readonly up: number }[];
  readonly sizes: readonly (readonly [number, number])[];
  readonly joined: null | {
    readonly worst: number;
    readonly seen: number;
    readonly hidden: number;
    readonly sampled: number;
  };
}

type Entry = TemplatesJob["templates"][number];

/** Pixels a millimetre where lines are joined: the renderer snaps thin lines to whole pixels, seam by seam. */
const FINE = 20;

function measured(pdf: string, entry: Entry, lines: readonly Curve[], perMm = 10): Measured {
  return printed(pdf, perMm, (pages) =>
    python<Measured>("prints.py", {
      pages,
      perMm,
      lines: lines.map((loop) => flatten(loop, 0.005).map(({ x, y }) => [x, y])),
      scale: [entry.tiles[0]!.scale.x, entry.tiles[0]!.scale.y],
      tiles: entry.tiles.map(({ name, window: { min, max }, scale, shift }) => ({
        name,
        window: [
          [min.x, min.y],
          [max.x, max.y],
        ],
        scale: [scale.x, scale.y],
        shift: [shift.x, shift.y],
      })),
    }),
  );
}

describe.each([
  ["a4", 2100, 2970],
  ["a3", 2970, 4200],
  ["letter", 2159, 2794],
] as const)("templates printed on %s", (paper, width, height) => {
  test("have checks of 100 mm, both ways on every sheet, and the paper's size", async () => {
    const { files, job } = await made("tidepool", paper);
    expect(job!.templates.length).toBeGreaterThan(3);
    for (const entry of job!.templates) {
      const { checks, sizes } = measured(files.find(({ file }) => file === entry.pdf)!.text, entry, []);
      expect(checks).toHaveLength(entry.tiles.length);
      for (const { across, up } of checks) {
        expect(Math.abs(across - 1000)).toBeLessThanOrEqual(1);
        expect(Math.abs(up - 1000)).toBeLessThanOrEqual(1);
      }
      for (const [w, h] of sizes) {
        const [short, long] = [Math.min(w, h), Math.max(w, h)];
        expect(Math.abs(short - width)).toBeLessThanOrEqual(1);
        expect(Math.abs(long - height)).toBeLessThanOrEqual(1);
      }
    }
  });
});

describe("sheets joined by their marks", () => {
  async function check(
    name: string,
    paper: "a4" | "letter",
    id: string,
    lines: (entry: Entry) => readonly Loop<"panel">[],
    options: Parameters<typeof made>[2] = {},
  ) {
    const { files, job } = await made(name, paper, options);
    const entry = job!.templates.find((one) => one.id === id)!;
    expect(entry.tiles.length).toBeGreaterThan(1);
    const { joined } = measured(
      files.find(({ file }) => file === entry.pdf)!.text,
      entry,
      lines(entry),
      FINE,
    );
    expect(joined!.worst).toBeLessThan(0.1);
    // Where a mark, a letter or a corner lies beside the line, it cannot be told from it.
    expect(joined!.hidden).toBeLessThan(0.2 * joined!.sampled);
    expect(joined!.seen).toBeGreaterThan(0.8 * joined!.sampled);
  }
  const cheek = (name: string) => caseOf(name).parts.find(({ id }) => id === "cheek-left")!;
  const shrunk = (name: string, by: number) =>
    offset([{ outer: cheek(name).outline, holes: [] }], -by).map(({ outer }) => outer);

  test("show the cheek's own outline where a bearing follows it", () =>
    check("tidepool", "a4", "cheek-left-outline", () => [cheek("tidepool").outline]));
  test("show it smaller by half of bush less cutter where a bush does: 10 and 6 give 2", () =>
    check(
      "tidepool",
      "letter",
      "cheek-left-outline",
      (entry) => {
        expect(entry.offset).toBe(2);
        return shrunk("tidepool", 2);
      },
      { tools: TOOLS_WITHOUT_BEARING },
    ));
  test("show it still when a printer that makes 100 mm 99.6 by 99.8 is corrected", () =>
    check("halyard", "a4", "cheek-left-outline", () => [cheek("halyard").outline], {
      measured: { x: 99.6, y: 99.8 },
    }));
  test("would show a template a tenth and a half off", async () => {
    const { files, job } = await made("tidepool", "a4");
    const entry = job!.templates.find(({ id }) => id === "cheek-left-outline")!;
    const moved = placeCurve(placement<"panel", "panel">(point(0.15, 0)), cheek("tidepool").outline);
    const { joined } = measured(files.find(({ file }) => file === entry.pdf)!.text, entry, [moved], FINE);
    expect(joined!.worst).toBeGreaterThan(0.1);
  });
});

test("a corrected print's checks are longer in the file by what the printer takes away", async () => {
  const { files, job } = await made("skiff", "a4", { measured: { x: 99.6, y: 100.4 } });
  const entry = job!.templates[0]!;
  const { checks } = measured(files.find(({ file }) => file === entry.pdf)!.text, entry, []);
  expect(Math.abs(checks[0]!.across - 1000 / 0.996)).toBeLessThanOrEqual(1);
  expect(Math.abs(checks[0]!.up - 1000 / 1.004)).toBeLessThanOrEqual(1);
});
