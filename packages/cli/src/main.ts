import { run } from "./run.ts";

// The exit code is set, not forced: what was printed drains first.
process.exitCode = await run(process.argv.slice(2));
