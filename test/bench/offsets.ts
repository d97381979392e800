import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { areaOf, FLATTENING_MM, flatten, lengthOf, offset, type Region, segments } from "@dryfit/geometry";
import { readDesign, recipe } from "@dryfit/joinery";
import makerjs from "makerjs";

/** One cheek's outline and its housing, from the sample: curves, corners, feet. */
function outlines(): { readonly cheek: Region; readonly housing: Region } {
  const text = readFileSync(new URL("../../samples/tidepool.yaml", import.meta.url), "utf8");
  const read = readDesign(text, "tidepool.yaml");
  if (!read.ok) throw new Error("the sample cannot be read");
  const cheek = recipe(read.value).parts.find(({ id }) => id === "cheek-left")!;
  const housing = cheek.features.find((feature) => feature.kind === "recess")!;
  return { cheek: { outer: cheek.outline, holes: [] }, housing: housing.region };
}

/**
 * The same outline offset by 3 mm with ours (arcs kept), with clipper2-wasm (chords only) and with makerjs (arcs),
 * and rings 1.2 mm apart as a clearing needs them. Areas stand beside, so that nobody wins by doing less.
 */
export async function benchOffsets(): Promise<readonly string[]> {
  const { cheek, housing } = outlines();
  const wasm = await wasmOffset();
  const cases = [
    { what: "cheek out by 3", region: cheek, distances: [3] },
    { what: "cheek in by 3", region: cheek, distances: [-3] },
    { what: "housing cleared, rings 1.2 apart", region: housing, distances: [-3, -3.3] },
    { what: "cheek cleared, rings 2.4 apart", region: cheek, distances: rings(3, 2.4, 12) },
  ];
  const lines = ["", "offset: best ms of 7, area of the last ring in mm², elements; ratios to ours"];
  for (const { what, region, distances } of cases) {
    const ours = best(() => last(distances.map((d) => offset([region], d))));
    const chords = best(() => last(distances.map((d) => wasm(region, d))));
    const arcs = best(() => last(distances.map((d) => makerjsOffset(region, d))));
    lines.push(
      `${what}`,
      `  ours          ${ms(ours.ms)}  ${areaOf([...ours.result]).toFixed(3)}  ${elements(ours.result)} lines and arcs`,
      `  clipper2-wasm ${ms(chords.ms)}  ${chords.result.area.toFixed(3)}  ${chords.result.points} chords  × ${ratio(chords.ms, ours.ms)}`,
      `  makerjs       ${ms(arcs.ms)}  ${arcs.result.toFixed(0)} elements  × ${ratio(arcs.ms, ours.ms)}`,
    );
  }
  lines.push(
    `cheek's outline: ${lengthOf(cheek.outer).toFixed(1)} mm long, ${segments(cheek.outer).length} elements`,
  );
  return lines;
}

const rings = (from: number, step: number, count: number) =>
  Array.from({ length: count }, (_, i) => -(from + i * step));
const last = <T>(list: readonly T[]): T => list.at(-1)!;
const ms = (value: number) => `${value.toFixed(2).padStart(8)} ms`;
const ratio = (a: number, b: number) => (a / b).toFixed(2);
const elements = (regions: readonly Region[]) =>
  regions.flatMap(({ outer, holes }) => [outer, ...holes].flatMap((loop) => segments(loop))).length;

function best<T>(work: () => T): { readonly ms: number; readonly result: T } {
  let [least, result] = [Number.POSITIVE_INFINITY, work()];
  for (let i = 0; i < 7; i++) {
    const start = performance.now();
    result = work();
    least = Math.min(least, performance.now() - start);
  }
  return { ms: least, result };
}

/** 1e-4 mm a step, as fine as our own adapter needs for its tolerance. */
const STEPS_PER_MM = 1e4;

async function wasmOffset(): Promise<(region: Region, by: number) => { area: number; points: number }> {
  const require = createRequire(import.meta.url);
  const clipper = await require("clipper2-wasm")();
  const fill = (region: Region) => {
    const paths = new clipper.Paths64();
    for (const ring of [region.outer, ...region.holes].map((loop) => flatten(loop, FLATTENING_MM))) {
      const path = new clipper.Path64();
      for (const { x, y } of ring) {
        path.push_back(
          new clipper.Point64(BigInt(Math.round(x * STEPS_PER_MM)), BigInt(Math.round(y * STEPS_PER_MM)), 0n),
        );
      }
      paths.push_back(path);
      path.delete();
    }
    return paths;
  };
  return (region, by) => {
    const paths = fill(region);
    const grown = clipper.InflatePaths64(
      paths,
      by * STEPS_PER_MM,
      clipper.JoinType.Round,
      clipper.EndType.Polygon,
      2,
      FLATTENING_MM * STEPS_PER_MM,
    );
    const area = clipper.AreaPaths64(grown) / STEPS_PER_MM ** 2;
    let points = 0;
    for (let i = 0; i < grown.size(); i++) points += grown.get(i).size();
    paths.delete();
    grown.delete();
    return { area, points };
  };
}

function makerjsOffset(region: Region, by: number): number {
  const paths: Record<string, makerjs.IPath> = {};
  segments(region.outer).forEach((segment, i) => {
    const [a, b] = [segment.from, segment.to].map(({ x, y }) => [x, y] as [number, number]);
    if (segment.kind === "line") paths[`s${i}`] = new makerjs.paths.Line(a!, b!);
    else {
      const { centre, radius, sweep } = segment;
      const [from, to] = [segment.from, segment.to].map((p) =>
        makerjs.angle.toDegrees(Math.atan2(p.y - centre.y, p.x - centre.x)),
      );
      const ends = sweep > 0 ? [from!, to!] : [to!, from!];
      paths[`s${i}`] = new makerjs.paths.Arc([centre.x, centre.y], radius, ends[0]!, ends[1]!);
    }
  });
  const grown = makerjs.model.outline({ paths }, Math.abs(by), 0, by < 0);
  let count = 0;
  if (grown)
    makerjs.model.walk(grown, {
      onPath: () => {
        count++;
      },
    });
  return count;
}
