import type { Command } from "commander";
import { spots, walk } from "./beforehand.ts";
import type { ExitCode } from "./failure.ts";
import { resume } from "./resume.ts";
import { timing } from "./timing.ts";

/** The commands for what happens at the machine, around the cut. */
export function addMachineCommands(program: Command, finish: (code: ExitCode) => void): void {
  program
    .command("resume")
    .description(
      "write the program that cuts what an interrupted one has left; proved before it is left there",
    )
    .argument("<folder>", "a folder that dryfit make wrote")
    .option("--program <file>", "the program that was interrupted")
    .option("--at <block>", "the block to begin with, as its comments say: 7, or 7.2 for its second pass")
    .option("--list", "print the blocks instead, of one program or of all")
    .option("-o, --out <file>", "where it goes (default: here, named after the program and the block)")
    .option("--json", "one JSON object on stdout instead of words")
    .option("-q, --quiet", "print findings only")
    .addHelpText(
      "after",
      "\nExamples:\n  dryfit resume out/tidepool --list --program sheet-1-a-2.nc\n  dryfit resume out/tidepool --program sheet-1-a-2.nc --at 7.2",
    )
    .action(async (folder, options) => finish(await resume(folder, options)));

  program
    .command("walk")
    .description("write programs that go round the sheet and its keep-outs in the air, one for each setup")
    .argument("<folder>", "a folder that dryfit make wrote")
    .option("-o, --out <folder>", "where they go (default: here)")
    .option("--json", "one JSON object on stdout instead of words")
    .option("-q, --quiet", "print findings only")
    .addHelpText("after", "\nExample:\n  dryfit walk out/tidepool --out out/before")
    .action(async (folder, options) => finish(await walk(folder, options)));

  program
    .command("spots")
    .description("write programs that mark places in waste for the screws that hold the sheet down")
    .argument("<folder>", "a folder that dryfit make wrote")
    .option("--cutter <id>", "what drills them (default: the first cutter that the sheet needs anyway)")
    .option("-o, --out <folder>", "where they go (default: here)")
    .option("--json", "one JSON object on stdout instead of words")
    .option("-q, --quiet", "print findings only")
    .addHelpText("after", "\nExample:\n  dryfit spots out/tidepool --cutter drill-3 --out out/before")
    .action(async (folder, options) => finish(await spots(folder, options)));

  program
    .command("timing")
    .description("write programs to time your machine with; or put what they took into its file")
    .option("--machine <file>", "your router (default: the one that comes with dryfit)")
    .option("-o, --out <folder>", "where the programs go (default: here)")
    .option("--measured <times...>", "what they took: corners=1:23.5 steps=41.2, minutes:seconds or seconds")
    .option("--dry-run", "show what would change in the file, and change nothing")
    .option("--json", "one JSON object on stdout instead of words")
    .option("-q, --quiet", "print findings only")
    .addHelpText(
      "after",
      "\nExamples:\n  dryfit timing --machine machine.yaml --out out/timing\n  dryfit timing --machine machine.yaml --measured corners=1:23.5 steps=41.2",
    )
    .action(async (options) => finish(await timing(options)));
}
