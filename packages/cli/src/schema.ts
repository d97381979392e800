import { SCHEMAS, type SchemaName, schemaOf } from "@dryfit/job";
import { EXIT, type ExitCode, Failure } from "./failure.ts";

/** `dryfit schema`: what an editor needs to complete and check a file while one types. */
export function schema(what: string): ExitCode {
  if (!isSchema(what))
    throw new Failure(`There is no schema called "${what}"; there are ${SCHEMAS.join(", ")}.`);
  process.stdout.write(`${JSON.stringify(schemaOf(what), null, 2)}\n`);
  return EXIT.made;
}

function isSchema(what: string): what is SchemaName {
  return (SCHEMAS as readonly string[]).includes(what);
}
