// Time and peak memory of `make` per stage for the samples, how near their programs come to a lower bound, how the
// work grows with the number of blocks, what a batch of twenty takes, and offsets against two reference libraries, in
// one run.
//   npm run -s bench
//   npm run -s bench -- twenty            the batch alone, which peak memory is best told of
//   npm run -s bench -- cuts tidepool     the sample's cuts with the most to gain
import { register } from "tsx/esm/api";

register();
const { benchStages, SAMPLES } = await import("./stages.ts");
const { benchCuts, benchRatios } = await import("./ratios-report.ts");
const { benchGrowth } = await import("./growth.ts");
const { benchTwenty } = await import("./twenty.ts");
const { benchOffsets } = await import("./offsets.ts");

const [what, sample] = process.argv.slice(2);
if (what === "cuts" && sample !== undefined) print(benchCuts(sample, 25));
else if (what === "twenty") print(await benchTwenty());
else {
  print(await benchStages());
  print(benchRatios(SAMPLES));
  for await (const line of benchGrowth()) print([line]);
  print(await benchTwenty());
  print(await benchOffsets());
}

function print(lines) {
  for (const line of lines) process.stdout.write(`${line}\n`);
}
