import { handToolsJsonSchema } from "@dryfit/bench";
import { SCHEMAS, type SchemaName, schemaOf } from "@dryfit/job";
import { EXIT, type ExitCode, Failure } from "./failure.ts";

/** `dryfit schema`: what an editor needs to complete and check a file while one types. */
export function schema(what: string): ExitCode {
  if (what !== HAND_TOOLS && !isSchema(what))
    throw new Failure(
      `There is no schema called "${what}"; there are ${[...SCHEMAS, HAND_TOOLS].join(", ")}.`,
    );
  const schema = what === HAND_TOOLS ? handToolsJsonSchema() : schemaOf(what);
  process.stdout.write(`${JSON.stringify(schema, null, 2)}\n`);
  return EXIT.made;
}

/** The hand router's file, which templates and coupons by hand are made for. */
const HAND_TOOLS = "tools";

function isSchema(what: string): what is SchemaName {
  return (SCHEMAS as readonly string[]).includes(what);
}
