import { Command, CommanderError } from "commander";
import { addMachineCommands } from "./at-the-machine.ts";
import { batch } from "./batch.ts";
import { board } from "./board.ts";
import { check } from "./check.ts";
import { coupon } from "./coupon.ts";
import { explain } from "./explain.ts";
import { EXIT, type ExitCode, Failure } from "./failure.ts";
import { fit } from "./fit.ts";
import { make } from "./make.ts";
import { newFile } from "./new.ts";
import { order } from "./order.ts";
import { saw } from "./saw.ts";
import { schema } from "./schema.ts";
import { templates } from "./templates.ts";
import { VERSION } from "./version.ts";

/** Runs the command that the arguments name. Returns the exit code; prints on stdout and stderr. */
export async function run(args: readonly string[]): Promise<ExitCode> {
  let code: ExitCode = EXIT.made;
  const finish = (result: ExitCode): void => {
    code = result;
  };
  const program = commandLine(finish);
  try {
    await program.parseAsync(args, { from: "user" });
    return code;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.made : EXIT.unreadable;
    if (error instanceof Failure) {
      process.stderr.write(`${error.message}\n`);
      return error.exitCode;
    }
    throw error;
  }
}

function commandLine(finish: (code: ExitCode) => void): Command {
  const program = new Command("dryfit")
    .description("One design file for a plywood case in; cut files out, proved to go together.")
    .version(VERSION)
    .exitOverride()
    .showHelpAfterError("(dryfit --help shows what there is)")
    .addHelpText(
      "after",
      `
Examples:
  dryfit new case.yaml                  a design to start from, every line explained
  dryfit make case.yaml --out cut       sheets, programs, papers; proved before they are left there
  dryfit check cut                      prove a folder again, from the files as they are now
  dryfit board case.yaml                see it, change it, watch it being cut
  dryfit explain case.yaml              how every figure came about

Exit codes: 0 made and proved, 1 the design, tools or sheets cannot work,
2 something could not be read, 3 a proof failed (nothing is left in the folder).`,
    );

  program
    .command("make")
    .description("make the cut files of a design and prove them; all or nothing")
    .argument("<design>", "the design file (YAML)")
    .option("-o, --out <folder>", "where the files go (default: out/ and the design's name)")
    .option("--machine <file>", "your router (default: the one that comes with dryfit)")
    .option("--cutters <file>", "your cutters (default: the drawer that comes with dryfit)")
    .option("--seconds <n>", "look so long for a better way to lay the parts; Ctrl-C takes the best so far")
    .option("--steps <n>", "search so many steps: the same layout on every machine")
    .option("--prices <file>", "what hardware, finish and machine cost (see samples/shop/prices.yaml)")
    .option("--json", "one JSON object on stdout instead of words")
    .option("-q, --quiet", "print findings only")
    .addHelpText("after", "\nExample:\n  dryfit make samples/tidepool.yaml --out out/tidepool")
    .action(async (design, options) => finish(await make(design, options)));

  program
    .command("check")
    .description("prove a folder again, from the files as they stand in it")
    .argument("<folder>", "a folder that dryfit make, templates or order wrote")
    .option("--json", "one JSON object on stdout instead of words")
    .option("-q, --quiet", "print findings only")
    .addHelpText("after", "\nExample:\n  dryfit check out/tidepool")
    .action(async (folder, options) => finish(await check(folder, options)));

  program
    .command("templates")
    .description("make routing templates and a setting list for a hand router; all or nothing")
    .argument("<design>", "the design file (YAML)")
    .requiredOption(
      "--tools <file>",
      "your hand router, cutters and bushes (see samples/shop/hand-router.yaml)",
    )
    .option("--paper <size>", "a4, a3 or letter", "a4")
    .option("-o, --out <folder>", "where the files go (default: out/ and the design's name)")
    .option("--measured-x <mm>", "what the 100 mm check across measured on a test print", "100")
    .option("--measured-y <mm>", "the same for the check up the page", "100")
    .option("--seconds <n>", "look so long for a better saw plan")
    .option("--steps <n>", "search so many steps for the saw plan: the same on every machine")
    .option("--prices <file>", "what hardware, finish and machine cost (see samples/shop/prices.yaml)")
    .option("--json", "one JSON object on stdout instead of words")
    .option("-q, --quiet", "print findings only")
    .addHelpText(
      "after",
      "\nExample:\n  dryfit templates samples/tidepool.yaml --tools samples/shop/hand-router.yaml --paper a3 --out out/templates",
    )
    .action(async (design, options) => finish(await templates(design, options)));

  program
    .command("batch")
    .description("make several cases as one job: nested, cut and proved together; all or nothing")
    .argument("<batch>", "the batch file (YAML): designs, copies, one thickness for all")
    .option("-o, --out <folder>", "where the files go (default: out/ and the batch file's name)")
    .option("--machine <file>", "your router (default: the one that comes with dryfit)")
    .option("--cutters <file>", "your cutters (default: the drawer that comes with dryfit)")
    .option("--prices <file>", "what hardware, finish and machine cost (see samples/shop/prices.yaml)")
    .option("--json", "one JSON object on stdout instead of words")
    .option("-q, --quiet", "print findings only")
    .addHelpText(
      "after",
      `
A batch file:
  batch: 1
  name: spring
  thickness: [14.7, 14.8]     # optional: readings of the sheet that all are cut from
  cases:
    - { design: tidepool.yaml, copies: 2 }
    - { design: halyard.yaml }`,
    )
    .action(async (file, options) => finish(await batch(file, options)));

  program
    .command("coupon")
    .description("make an offcut that tries the design's joint, before its sheet is touched; all or nothing")
    .argument("<design>", "the design file (YAML)")
    .option("-o, --out <folder>", "where the files go (default: out/ and the design's name, with -coupon)")
    .option("--machine <file>", "your router (default: the one that comes with dryfit)")
    .option("--cutters <file>", "your cutters (default: the drawer that comes with dryfit)")
    .option("--tools <file>", "routing templates for a hand router instead of a program (see templates)")
    .option("--paper <size>", "of the templates: a4, a3 or letter", "a4")
    .option("--json", "one JSON object on stdout instead of words")
    .option("-q, --quiet", "print findings only")
    .addHelpText("after", "\nExample:\n  dryfit coupon samples/tidepool.yaml --out out/coupon")
    .action(async (design, options) => finish(await coupon(design, options)));

  program
    .command("fit")
    .description("write what the coupon and the caliper said into the design file, comments kept")
    .argument("<design>", "the design file (YAML); it is changed")
    .option("--coupon <folder>", "the folder that dryfit coupon wrote, whose letters are meant")
    .option("--width <letter>", "the width that fitted best")
    .option("--depth <letter>", "the first depth in which the shoulder closed")
    .option("--kerf <letter>", "the laser's slot that took the sheet's edge; goes into the service file")
    .option("--service <file>", "the service file that holds the kerf; it is changed")
    .option("--direction <way>", "climb or conventional: whose plate was better; goes into the machine file")
    .option("--machine <file>", "the machine file that says which way to cut; it is changed")
    .option("--readings <mm>", "caliper readings of the sheet, in mm, such as 14.7,14.8,14.8")
    .option("--dry-run", "show what would change, and write nothing")
    .option("--json", "one JSON object on stdout instead of words")
    .option("-q, --quiet", "print findings only")
    .addHelpText(
      "after",
      "\nExample:\n  dryfit fit case.yaml --coupon out/case-coupon --width C --depth Q --readings 14.7,14.8,14.8",
    )
    .action(async (design, options) => finish(await fit(design, options)));

  program
    .command("order")
    .description("make a folder for a cutting service: drawings, a paper and a letter; all or nothing")
    .argument("<design>", "the design file (YAML)")
    .requiredOption(
      "--service <file>",
      "what the service can make (see dryfit new --service), or laser or router for one in general words",
    )
    .option(
      "--changed <file>",
      "where the service cannot make it: write the design so that it can, comments kept",
    )
    .option("-o, --out <folder>", "where the files go (default: out/ and the design's name)")
    .option("--prices <file>", "what hardware, finish and machine cost (see samples/shop/prices.yaml)")
    .option("--json", "one JSON object on stdout instead of words")
    .option("-q, --quiet", "print findings only")
    .addHelpText(
      "after",
      "\nExample:\n  dryfit order samples/lantern.yaml --service laser --out out/lantern-order",
    )
    .action(async (design, options) => finish(await order(design, options)));

  program
    .command("saw")
    .description("plan the saw: every straight cut in order, drawn and listed, for blanks of all parts")
    .argument("<design>", "the design file (YAML)")
    .option("--kerf <mm>", "width of wood that the blade takes", "2.4")
    .option("--trim <mm>", "what is taken off every edge of a sheet first, blade included", "10")
    .option(
      "--stages <n>",
      "how often the direction may change: 2 strips then lengths, 3 narrower again",
      "3",
    )
    .option("-o, --out <folder>", "where the files go (default: out/ and the design's name)")
    .option("--seconds <n>", "look so long for a better plan")
    .option("--steps <n>", "search so many steps for the plan: the same on every machine")
    .option("--json", "one JSON object on stdout instead of words")
    .option("-q, --quiet", "print findings only")
    .addHelpText("after", "\nExample:\n  dryfit saw samples/tidepool.yaml --kerf 2.2 --out out/tidepool-saw")
    .action(async (design, options) => finish(await saw(design, options)));

  addMachineCommands(program, finish);

  program
    .command("new")
    .description("write a commented file to start from: a design, or what a cutting service can make")
    .argument("<file>", "the file to write; it must not exist yet")
    .option("--service <kind>", "a service file instead of a design: laser or router")
    .addHelpText("after", "\nExamples:\n  dryfit new case.yaml\n  dryfit new my-service.yaml --service laser")
    .action(async (file, options) => finish(await newFile(file, options)));

  program
    .command("board")
    .description("open the drawing board on this computer, with a design on it; save writes back to the file")
    .argument("[design]", "the design file (YAML); without one, the sample or your last work")
    .option("-p, --port <number>", "where to serve it (default: a free port)")
    .addHelpText("after", "\nExample:\n  dryfit board samples/tidepool.yaml")
    .action(async (design, options) => finish(await board(design, options)));

  program
    .command("explain")
    .description("show every default, and how every figure came about")
    .argument("<design>", "the design file (YAML)")
    .option("--machine <file>", "your router")
    .option("--cutters <file>", "your cutters")
    .option("--prices <file>", "what goes on the wood (see samples/shop/prices.yaml)")
    .option("--json", "one JSON object on stdout instead of words")
    .addHelpText("after", "\nExample:\n  dryfit explain samples/tidepool.yaml")
    .action(async (design, options) => finish(await explain(design, options)));

  program
    .command("schema")
    .description("print the JSON Schema of a file, for editors that complete as you type")
    .argument("<what>", "design, machine, cutters, tools, service, batch or prices")
    .addHelpText("after", "\nExample:\n  dryfit schema design > design.schema.json")
    .action((what) => finish(schema(what)));

  return program;
}
