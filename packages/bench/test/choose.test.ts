import { describe, expect, test } from "vitest";
import { chooseInside, type HandTools, readHandTools, type Wanted } from "../src/index.ts";

const drawer = (text: string): HandTools => {
  const read = readHandTools(
    `baseEdges: [{ id: flat, toMiddle: 54.5 }]\ntemplate: { thickness: 12 }\n${text}`,
    "tools.yaml",
  );
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
};
const six = "{ id: six, diameter: 6, cuttingLength: 25, reach: 40 }";
const wanted: Wanted = { path: "cheek.housing", what: "The housing", depth: 7.2, narrowest: 7.2, corner: 3 };

function check(tools: string, given: Partial<Wanted>, expected: string | readonly string[]) {
  const fit = chooseInside({ ...wanted, ...given }, drawer(tools));
  if ("cutter" in fit)
    expect(`${fit.cutter.id} ${fit.guide.kind} ${fit.guide.diameter} ${fit.offset}`).toBe(expected);
  else {
    expect(fit.map(({ code }) => code)).toEqual(expected);
    for (const { severity, wayOut, message } of fit) {
      expect(severity).toBe("error");
      expect(wayOut).toBeTruthy();
      expect(message).toContain("The housing cannot be cut.");
    }
  }
}

describe("a housing of 7.2 with corners of 3", () => {
  test("is cut by a cutter of 6 with the smallest bush that holds it", () =>
    check(
      `cutters: [${six}]\nbushes: [{ id: big, diameter: 30, projection: 8 }, { id: small, diameter: 10, projection: 5 }]`,
      {},
      "six bush 10 2",
    ));
  test("is not cut by one of 8", () =>
    check(
      "cutters: [{ id: eight, diameter: 8, cuttingLength: 25, reach: 40 }]\nbushes: [{ id: b, diameter: 16, projection: 8 }]",
      {},
      ["cutter_wide"],
    ));
  test("whose corners are 2 has them smaller than any bush allows", () =>
    check(`cutters: [${six}]\nbushes: [{ id: b, diameter: 16, projection: 8 }]`, { corner: 2 }, [
      "corner_tight",
    ]));
  test("needs a bush that the cutter goes through", () =>
    check(`cutters: [${six}]\nbushes: [{ id: b, diameter: 6.5, projection: 8 }]`, {}, ["bush_small"]));
  test("needs a bush shorter than the template", () =>
    check(`cutters: [${six}]\nbushes: [{ id: b, diameter: 16, projection: 12 }]`, {}, ["bush_long"]));
  test("needs a cutter that reaches through the template", () =>
    check(
      "cutters: [{ id: short, diameter: 6, cuttingLength: 15, reach: 18 }]\nbushes: [{ id: b, diameter: 16, projection: 8 }]",
      {},
      ["cutter_short"],
    ));
  test("tells each obstacle where several pairs fail for several reasons", () =>
    check(
      `cutters: [${six}, { id: eight, diameter: 8, cuttingLength: 25, reach: 40 }]\nbushes: [{ id: b, diameter: 6.5, projection: 8 }]`,
      {},
      ["bush_small"],
    ));
  test("needs something to guide it", () => {
    const fit = chooseInside(wanted, drawer(`cutters: [${six}]`));
    expect("cutter" in fit ? [] : fit.map(({ code }) => code)).toEqual(["no_guide"]);
  });
  test("may be guided by a bearing on the shank", () =>
    check(
      "cutters: [{ id: short, diameter: 6, cuttingLength: 9, reach: 40, bearings: [{ diameter: 6, at: shank }] }]",
      {},
      "short bearing 6 0",
    ));
  test("but not by one that runs over the template", () =>
    check(
      "cutters: [{ id: long, diameter: 6, cuttingLength: 25, reach: 40, bearings: [{ diameter: 6, at: shank }] }]",
      {},
      ["bearing_off_template"],
    ));
});
