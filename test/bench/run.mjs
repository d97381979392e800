// Time and peak memory of `make` per stage for the samples, and offsets against two reference libraries, in one run.
//   npm run -s bench
import { register } from "tsx/esm/api";

register();
const { benchStages } = await import("./stages.ts");
const { benchOffsets } = await import("./offsets.ts");

for (const line of await benchStages()) process.stdout.write(`${line}\n`);
for (const line of await benchOffsets()) process.stdout.write(`${line}\n`);
