import { describe, test } from "vitest";
import { HELLO_WORLD } from "../packages/verify/test/hello-world.ts";
import { FRETWORK } from "./outside/fretwork.ts";
import { expectSameSteps } from "./outside/steps.ts";

describe("an outside reader ends every motion where ours does", () => {
  test("in Hello world, NISTIR 6556 C.1", () => expectSameSteps(HELLO_WORLD));
  test("in a panel cut with helical entries, ramps and tabs", () => expectSameSteps(FRETWORK));
});
