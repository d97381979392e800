import { describe, expect, test } from "vitest";
import { caseFindings } from "../src/dryfit-findings.ts";
import type { Footing } from "../src/feet.ts";
import type { Swing } from "../src/swing.ts";

const STEADY: Footing = { feet: [], rocking: 0, below: 0, tipMargin: 120 };
const FREE: Swing = { bindsAtDeg: null, overlap: null };

function check(swing: Swing | null, footing: Footing | null, expected: readonly string[]) {
  expect(caseFindings(swing, footing).map(({ severity, message }) => `${severity}: ${message}`)).toEqual(
    expected,
  );
}

describe("a case that stands and opens", () => {
  test("is worth no words", () => check(FREE, STEADY, []));
  test("may have neither lid nor feet", () => check(null, null, []));
});

describe("a case with a fault", () => {
  const box = { min: { x: 10, y: 20, z: 30 }, max: { x: 12, y: 22, z: 32 } };

  test("says at what angle its lid binds, and where", () =>
    check({ bindsAtDeg: 47, overlap: { volume: 3, box } }, STEADY, [
      "error: the lid binds at 47°, around x 11.0, y 21.0, z 31.0.",
    ]));
  test("says how far it rocks", () =>
    check(FREE, { ...STEADY, rocking: 0.5 }, [
      "error: the case rocks: one foot hangs 0.50 mm over the table.",
    ]));
  test("says what stands lower than its feet", () =>
    check(FREE, { ...STEADY, below: 2 }, [
      "error: something other than the feet reaches 2.00 mm below them.",
    ]));
  test("lets cut corners be as far off as cutting may be", () =>
    check(FREE, { ...STEADY, rocking: 0.099 }, []));
  test("is warned before it tips over", () =>
    check(FREE, { ...STEADY, tipMargin: -5 }, [
      "warning: the empty case's centre of mass lies 5.00 mm outside its feet.",
    ]));
});
