import { readdirSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { proveCuts } from "../src/prove-cuts.ts";
import { CUTTER, type PlateJob, plateJob, programText } from "./plate.ts";

/** Every code of the proof's errors, once each, in order of the alphabet. */
function codesOf(job: PlateJob): string[] {
  const { findings } = proveCuts(plateJob(job));
  return [...new Set(findings.filter((f) => f.severity === "error").map((f) => f.code))].sort();
}

/** One file for each way to go wrong: the good program with one slip, and all that the slip is found by. */
const BROKEN: readonly (readonly [what: string, file: string, codes: readonly string[]])[] = [
  ["units that nobody states", "missing-units.nc", ["missing_units"]],
  [
    "modes left over from another program",
    "missing-modes.nc",
    ["missing_distance_mode", "missing_feed_mode", "missing_plane"],
  ],
  ["a program that ends in mid-air", "missing-end.nc", ["missing_program_end"]],
  ["a program that ends before the outline", "early-end.nc", ["text_after_end", "uncut"]],
  ["a comment in a comment", "nested-comment.nc", ["illegal_comment"]],
  ["G0 and G1 on one line", "modal-conflict.nc", ["arc_mismatch", "pass_too_deep", "same_modal_group"]],
  ["an arc 0.01 off its end", "arc-mismatch.nc", ["arc_mismatch", "pass_too_deep"]],
  ["a cut without a feed", "no-feed.nc", ["feed_missing", "uncut"]],
  ["a move in machine coordinates", "machine-coordinates.nc", ["unknown_offset"]],
  ["a first move at an unknown height", "height-unknown.nc", ["unknown_start"]],
  ["an outline on the wrong side", "wrong-side.nc", ["gouge", "uncut"]],
  ["left for right", "mirrored.nc", ["gouge", "uncut"]],
  ["a face cut as if never turned over", "not-turned-over.nc", ["enters_keep_out", "uncut"]],
  ["a side 0.05 too far in", "gouge.nc", ["gouge"]],
  ["a housing 0.05 too deep", "too-deep.nc", ["gouge"]],
  ["a housing 0.05 too shallow", "too-shallow.nc", ["uncut"]],
  ["a housing left out", "skipped-housing.nc", ["uncut"]],
  ["an opening left out", "skipped-opening.nc", ["uncut"]],
  ["a pass left out", "missing-pass.nc", ["pass_too_deep"]],
  ["the last pass left out", "missing-last-pass.nc", ["not_cut_through"]],
  ["a tab that nobody declared", "undeclared-tab.nc", ["undeclared_tab"]],
  ["a tab 2 mm too long", "tab-too-long.nc", ["tab_too_large"]],
  ["a tab 1 mm too high", "tab-too-high.nc", ["tab_too_large"]],
  ["a rapid across the wood", "rapid-in-wood.nc", ["rapid_in_wood"]],
  ["a rapid down into the wood", "rapid-plunge.nc", ["rapid_in_wood"]],
  ["a rapid too low over a clamp", "rapid-over-clamp.nc", ["enters_keep_out"]],
  ["a cut that runs into a clamp", "cut-into-clamp.nc", ["enters_keep_out"]],
  ["a first way sideways lower than the clamps", "low-start.nc", ["enters_keep_out"]],
  ["a plunge at a milling feed", "plunge-too-fast.nc", ["plunge_too_fast"]],
  ["a hole into the bed", "below-bed.nc", ["below_bed"]],
  ["a spindle that stands", "spindle-off.nc", ["spindle_off"]],
  ["a spindle too fast for its cutter", "spindle-too-fast.nc", ["spindle_speed"]],
  ["a spindle that turns backwards", "spindle-backwards.nc", ["spindle_backwards"]],
  ["a park position off the machine", "beyond-travel.nc", ["beyond_travel"]],
  ["another cutter in mid-program", "other-cutter.nc", ["cutter_mismatch"]],
  ["an arc whose centre is its start", "arc-of-no-radius.nc", ["arc_zero_radius", "pass_too_deep"]],
  ["an arc with a centre and a radius", "arc-of-two-kinds.nc", ["arc_mixed_formats", "pass_too_deep"]],
  ["an arc without a centre", "arc-without-centre.nc", ["arc_centre_missing", "pass_too_deep"]],
  ["an arc without an end", "arc-without-end.nc", ["arc_end_missing", "gouge", "pass_too_deep"]],
  ["a line that a switch at the machine leaves out", "block-switch.nc", ["block_delete"]],
  ["an offset that the controller works out", "cutter-compensation.nc", ["unsupported_code"]],
  ["cutter one and a half", "cutter-number-half.nc", ["value_out_of_range"]],
  ["a cycle that ends above its start", "cycle-below-retract.nc", ["cycle_below_retract"]],
  ["a cycle without its start", "cycle-without-retract.nc", ["missing_word"]],
  ["a wait without a time", "dwell-without-time.nc", ["missing_word"]],
  ["five M codes on one line", "five-m-codes.nc", ["too_many_m_codes"]],
  ["a sign of no meaning", "foreign-letter.nc", ["illegal_character", "uncut"]],
  ["a way home that nobody knows", "home.nc", ["unknown_offset"]],
  ["a word that nothing uses", "idle-word.nc", ["uncut", "unused_word"]],
  [
    "inches from halfway on",
    "inches-halfway.nc",
    ["arc_mismatch", "below_bed", "beyond_travel", "pass_too_deep", "plunge_too_fast", "uncut"],
  ],
  ["a feed in inverse time", "inverse-time.nc", ["feed_missing", "uncut"]],
  ["a line too long to be read", "line-too-long.nc", ["line_too_long", "uncut"]],
  ["a feed below nothing", "negative-feed.nc", ["uncut", "value_out_of_range"]],
  ["a percent mark that is never answered", "one-percent.nc", ["missing_percent"]],
  ["a bracket left open", "open-bracket.nc", ["illegal_expression", "uncut"]],
  ["arcs in another plane", "other-plane.nc", ["arc_mixed_formats", "uncut"]],
  ["a turn about an axis that is not there", "rotary-axis.nc", ["uncut", "unsupported_code"]],
  ["a second zero", "second-offset.nc", ["unknown_offset"]],
  ["a zero shifted on the way", "shifted-zero.nc", ["enters_keep_out", "gouge", "uncut"]],
  ["a number with two points", "two-points.nc", ["illegal_character", "uncut"]],
  ["a code of no language", "unknown-code.nc", ["unknown_code"]],
  ["a word said twice", "word-twice.nc", ["repeated_word", "uncut"]],
  ["a parameter that is not there", "wrong-parameter.nc", ["illegal_parameter", "uncut"]],
  [
    "millimetres read as inches",
    "inch.nc",
    ["below_bed", "beyond_travel", "pass_too_deep", "plunge_too_fast", "uncut"],
  ],
];

describe("the proof catches", () => {
  test.each(BROKEN)("%s (%s)", (_, file, expected) => {
    const setup = file === "not-turned-over.nc" ? "b" : "a";
    expect(codesOf({ [setup]: programText(file) })).toEqual(expected);
  });
  test("a cutter 0.1 wider than declared", () =>
    expect(codesOf({ cutter: { ...CUTTER, diameter: 5.9 } })).toEqual(["uncut"]));
  test("a cutter 0.1 thinner than declared", () =>
    expect(codesOf({ cutter: { ...CUTTER, diameter: 6.1 } })).toEqual(["gouge"]));
  test("flutes shorter than the sheet is thick", () =>
    expect(codesOf({ cutter: { ...CUTTER, fluteLength: 8 } })).toEqual(["deeper_than_flutes"]));
  test("a shank that meets the wood", () =>
    expect(codesOf({ cutter: { ...CUTTER, fluteLength: 8, shankDiameter: 8 } })).toEqual(["shank_in_wood"]));
  test("every broken program that lies in the folder", () => {
    const files = readdirSync(new URL("../../../test/broken/programs/", import.meta.url));
    const tried = ["plate-a.nc", "plate-b.nc", ...BROKEN.map(([, file]) => file)];
    expect(files.sort()).toEqual(tried.sort());
  });
});
