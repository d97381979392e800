import { type Ratios, ratiosOf } from "./ratios.ts";

/** How near the samples' programs come to what geometry and shop allow, one line a sample; `least.ts` says how. */
export function benchRatios(samples: readonly string[]): readonly string[] {
  const lines = samples.map((name) => line(name, ratiosOf(name)));
  return [
    "",
    "programs, default shop: time over its lower bound, blocks over elements × passes, rapids over naive order",
    ...lines,
  ];
}

/** The cuts of a sample with the most to gain, worst first. */
export function benchCuts(name: string, count: number): readonly string[] {
  const { cuts } = ratiosOf(name);
  const lost = (cut: (typeof cuts)[number]): number => cut.seconds - cut.leastSeconds;
  return [...cuts]
    .sort((a, b) => lost(b) - lost(a))
    .slice(0, count)
    .map(
      ({ id, cutter, seconds, leastSeconds, blocks, elements }) =>
        `  ${id.padEnd(32)} ${cutter.padEnd(14)} ${s(seconds)} s over ${s(leastSeconds)} s  ${blocks} moves for ${elements} elements`,
    );
}

function line(name: string, r: Ratios): string {
  return (
    `${name.padEnd(10)} ${s(r.seconds)} s over ${s(r.leastSeconds)} s = ${ratio(r.seconds, r.leastSeconds)}` +
    `  ${r.blocks} blocks over ${r.elements} = ${ratio(r.blocks, r.elements)}` +
    `  ${r.planned.toFixed(0)} mm over ${r.naive.toFixed(0)} mm = ${ratio(r.planned, r.naive)}`
  );
}

const s = (seconds: number): string => seconds.toFixed(1).padStart(6);
const ratio = (a: number, b: number): string => (a / b).toFixed(2);
