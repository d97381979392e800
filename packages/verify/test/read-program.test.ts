import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  lengthOfMotion,
  type Motion,
  minutesOf,
  type Position,
  radiusOf,
  type Turn,
} from "../src/program/motion.ts";
import { type ReadOptions, readProgram } from "../src/program/read-program.ts";
import { HELLO_WORLD } from "./hello-world.ts";

const ORIGIN: Position = { x: 0, y: 0, z: 0 };

/** Reads lines that stand in the middle of a program, and gives the codes of what is wrong. */
function codes(lines: string, options: ReadOptions = { start: ORIGIN }): string[] {
  return readProgram(`${lines}\nM2\n`, options).findings.map((finding) => finding.code);
}

function motions(lines: string, start: Position = ORIGIN): readonly Motion[] {
  return readProgram(`${lines}\nM2\n`, { start }).motions;
}

const check = (lines: string, expected: string[]) => expect(codes(lines)).toEqual(expected);
const refused = (lines: string, code: string) => check(lines, [code]);
const accepted = (lines: string) => check(lines, []);
const xyz = ({ x, y, z }: Position) => [x, y, z];
const travels = (read: readonly Motion[]) => read.map(({ kind, to }) => `${kind} ${xyz(to).map(round)}`);
const round = (value: number) => Number(value.toFixed(6)) + 0;

describe("Hello world, NISTIR 6556 C.1", () => {
  const { motions: read, facts, findings } = readProgram(HELLO_WORLD);
  const arcs = read.filter((motion): motion is Motion & { arc: Turn } => motion.arc !== null);
  const line = (number: number) => read.find((motion) => motion.line === number + 1)!;
  const onLine = (n: number) => line(HELLO_WORLD.split("\n").findIndex((l) => l.startsWith(`n0${n} `)));

  test("nothing in it is wrong", () => expect(findings).toEqual([]));
  test("25 rapids, 29 straight cuts, four arcs clockwise and one counter-clockwise", () => {
    expect(read.filter((motion) => motion.kind === "rapid")).toHaveLength(25);
    expect(read.filter((motion) => motion.kind === "feed" && motion.arc === null)).toHaveLength(29);
    expect(arcs.map((motion) => Math.sign(motion.arc.sweep))).toEqual([1, -1, -1, -1, -1]);
  });
  test("it cuts from 0 to 81 by 0 to 10, half a millimetre deep", () => {
    expect(facts.extents).toEqual({ min: { x: 0, y: 0, z: -0.5 }, max: { x: 81, y: 10, z: 2 } });
    expect(facts.deepest).toBe(-0.5);
    expect(facts.stated.units).toBe("mm");
  });
  test("its arcs are 56.4519 mm long", () => {
    expect(arcs.reduce((sum, arc) => sum + lengthOfMotion(arc), 0)).toBeCloseTo(56.4519, 4);
  });
  test("the o is a full circle", () => {
    const circle = onLine(320);
    expect(xyz(circle.arc!.centre)).toEqual([32.5, 2.5, -0.5]);
    expect(circle.arc!.sweep).toBeCloseTo(-2 * Math.PI, 12);
    expect(lengthOfMotion(circle)).toBeCloseTo(15.708, 4);
  });
  test("the e is three quarters of one, counter-clockwise", () => {
    const e = onLine(190);
    expect(xyz(e.arc!.centre)).toEqual([13.5, 2.5, -0.5]);
    expect(radiusOf(e)).toBe(2.5);
    expect(lengthOfMotion(e)).toBeCloseTo(11.781, 4);
  });
  test("the spindle turns at 4000 with cutter 1 from the second line on", () => {
    expect(read[0]!.spindle).toBe("off");
    expect([read[1]!.spindle, read[1]!.rpm, read[1]!.cutter]).toEqual(["cw", 4000, 1]);
    expect(facts.cutterChanges).toEqual([{ line: 3, cutter: 1 }]);
    expect(facts.end).toBe(62);
  });
});

describe("text, NISTIR 6556 3.3", () => {
  test("spaces mean nothing", () =>
    expect(travels(motions("g0x +0. 12 34y 7"))).toEqual(travels(motions("g0 x+0.1234 y7"))));
  test("case means nothing", () => accepted("G0 X1 y2"));
  test("order on a line means nothing", () =>
    expect(travels(motions("X1 F100 G1"))).toEqual(travels(motions("G1 X1 F100"))));
  test("a number may end in its point", () => accepted("G0 X1."));
  test("a number needs a digit", () => refused("G0 X.", "illegal_number"));
  test("a number has no exponent", () => refused("G0 X1e3", "illegal_word"));
  test("a number has one point", () => refused("G0 X1.2.3", "illegal_character"));
  test("five digits number a line", () => accepted("N99999 G0 X1"));
  test("leading zeros count as digits", () => refused("N000009 G0 X1", "illegal_line_number"));
  test("G7: six digits do not", () => refused("N100000 G0 X1", "illegal_line_number"));
  test("a line number stands first", () => refused("G0 N10 X1", "illegal_word"));
  test("a comment is skipped", () => accepted("G0 (to the X2 right) X1"));
  test("G8: a comment holds no other", () => refused("G1 X1 (a (b) c)", "illegal_comment"));
  test("a comment is closed on its line", () => refused("G0 X1 (right", "illegal_comment"));
  test("a stray bracket is refused", () => refused("G0 X1 )", "illegal_character"));
  test("a semicolon starts a comment, as an allowed dialect", () => accepted("G0 X1 ; (right"));
  test("a word stands once", () => refused("G0 X1 X2", "repeated_word"));
  test("256 characters are enough", () => refused(`G0 X${"0".repeat(256)}`, "line_too_long"));
  test("there is no letter E", () => refused("E1", "illegal_word"));
  test("a letter needs its number", () => refused("G0 X", "illegal_number"));
  test("a G code is whole in tenths", () => refused("G0.55 X1", "unknown_code"));
  test("a line that a switch may skip proves nothing", () => refused("/G0 X1", "block_delete"));
  test("lines end as on any machine", () => {
    for (const end of ["\n", "\r\n", "\r"])
      expect(readProgram(["G21", "G0 X1", "M2", ""].join(end), { start: ORIGIN }).findings).toEqual([]);
  });
  test("an expression counts, NISTIR 6556 3.3.2.3", () =>
    expect(motions("G0 X[2 + 3 * [8 / 4] ** 2 - 1]")[0]!.to.x).toBe(13));
  test("functions take degrees", () => expect(motions("G0 X ATAN[1]/[1]")[0]!.to.x).toBeCloseTo(45, 12));
  test("a parameter is set after its line is read", () =>
    expect(travels(motions("#1 = 5 G0 X#1\nG0 X#1"))).toEqual(["rapid 0,0,0", "rapid 5,0,0"]));
  test("a division by zero is no number", () => refused("G0 X[1/0]", "illegal_expression"));
  test("a bracket is closed", () => refused("G0 X[1+2", "illegal_expression"));
  test("percent marks frame a program", () =>
    expect(readProgram("%\nG21\n%\nwhatever follows", { start: ORIGIN }).findings).toEqual([]));
  test("a percent mark wants its fellow", () =>
    expect(readProgram("%\nG21\nM2x").findings.map((f) => f.code)).toEqual([
      "illegal_number",
      "missing_percent",
    ]));
  test("a program without percent marks ends with M2 or M30", () =>
    expect(readProgram("G21\nG0 Z5").findings.map((f) => f.code)).toEqual(["missing_program_end"]));
  test("nothing runs after the end", () => expect(codes("M2\nG0 X1")).toEqual(["text_after_end"]));
  test("a finding names its file and line", () =>
    expect(readProgram("G21\nG0 G1 X1\nM2", { file: "a.nc" }).findings[0]!.path).toBe("a.nc:2"));
});

describe("words together, NISTIR 6556 3.4 to 3.6", () => {
  test("G6: G0 and G1 exclude each other", () => refused("G0 G1 X1 F100", "same_modal_group"));
  test("G90 and G91 exclude each other", () => refused("G90 G91", "same_modal_group"));
  test("M3 and M5 exclude each other", () => refused("M3 M5", "same_modal_group"));
  test("groups go together", () => accepted("G17 G21 G90 G94 G54 G40 G49 G80"));
  test("there is no G5", () => refused("G5 X1", "unknown_code"));
  test("there is no M99", () => refused("M99", "unknown_code"));
  test("five M codes are too many", () => refused("M6 M3 M8 M48 M0", "too_many_m_codes"));
  test("G92 and G1 both want the axis words", () => refused("G92 G1 X1 F100", "axis_words_disputed"));
  test("G0 needs an axis word", () => refused("G0", "axis_words_missing"));
  test("axis words need a motion", () => refused("X1", "axis_words_unused"));
  test("G80 takes no axis words", () => refused("G80 X1", "axis_words_unused"));
  test("a cutting move needs a feed", () => refused("G1 X1", "feed_missing"));
  test("a feed is not negative", () => refused("G1 X1 F-5", "value_out_of_range"));
  test("a cutter's number is whole", () => refused("T1.5", "value_out_of_range"));
  test("R means nothing to G1", () => refused("G1 X1 R5 F100", "unused_word"));
  test("P means nothing to G64 here", () => refused("G64 P0.01", "unused_word"));
  test("a dwell needs its time", () => refused("G4", "missing_word"));
  test("a dwell is not negative", () => refused("G4 P-1", "value_out_of_range"));
  test("feed, speed and spindle act before the motion, table 8", () => {
    const [cut] = motions("G1 X10 F300 S18000 M3");
    expect([cut!.feed, cut!.rpm, cut!.spindle]).toEqual([300, 18000, "cw"]);
  });
  test("the end acts after the motion, table 8", () => expect(motions("G0 X5 M2")).toHaveLength(1));
  test("units act before the motion, table 8", () => expect(motions("G0 G20 X1")[0]!.to.x).toBe(25.4));
  test("a cutter change stops the spindle", () =>
    expect(motions("M3 S9000\nT2 M6\nG0 X1")[0]!.spindle).toBe("off"));
  test("rotary words are refused", () => refused("G0 A10", "unsupported_code"));
  test("cutter compensation is refused", () => refused("G41 D1", "unsupported_code"));
  test("probing is refused", () => refused("G38.2 X5 F100", "unsupported_code"));
  test("steps add up in G91", () =>
    expect(travels(motions("G91 G0 X1\nX1 Y2"))).toEqual(["rapid 1,0,0", "rapid 2,2,0"]));
  test("G5: G92 shifts what a number means", () =>
    expect(motions("G92 X7\nG0 X8", { x: 4, y: 0, z: 0 })[0]!.to.x).toBe(5));
  test("G92 shifts add up, and G92.1 clears them", () =>
    expect(travels(motions("G92 X7\nG92 X1\nG0 X1\nG92.1\nG0 X1", { x: 4, y: 0, z: 0 }))).toEqual([
      "rapid 4,0,0",
      "rapid 1,0,0",
    ]));
  test("G53 depends on what the program does not hold", () => refused("G53 G0 Z0", "unknown_offset"));
  test("G53 needs G0 or G1", () => refused("G53 G2 X1 I1", "unknown_code"));
  test("G28 depends on what the program does not hold", () => refused("G28 Z10", "unknown_offset"));
  test("one work offset is as good as another", () => accepted("G55\nG0 X1"));
  test("a second work offset is not known", () => refused("G54\nG55", "unknown_offset"));
  test("units that change are doubted", () => refused("G21\nG20", "units_changed"));
  test("a dwell of minutes is doubted", () => refused("G4 P3000", "long_dwell"));
  test("a dwell in milliseconds is read so", () =>
    expect(readProgram("G4 P3000\nM2", { dwellUnit: "ms" }).facts.dwellSeconds).toBe(3));
  test("G10: F in inverse time is one over the minutes of the move", () =>
    expect(minutesOf(motions("G93 G1 X10 F2")[0]!)).toBe(0.5));
  test("inverse time wants F on every line", () => refused("G93 G1 X10 F2\nX20", "feed_missing"));
  test("a feed does not outlive its mode", () => refused("G93 G1 X10 F2\nG94 X20", "feed_missing"));
  test("nobody knows where a step from nowhere leads", () =>
    expect(codes("G91 G0 X1", {})).toEqual(["unknown_start"]));
  test("the height is told before the cutter moves sideways", () =>
    expect(codes("G0 X10 Y10", {})).toEqual(["unknown_start"]));
  test("the first height and place are taken as they come", () =>
    expect(readProgram("G0 Z5\nX3 Y4\nM2").motions.map((m) => xyz(m.from))).toEqual([
      [0, 0, 5],
      [3, 4, 5],
    ]));
});

describe("arcs, NISTIR 6556 3.5.3", () => {
  const from = (x: number, y: number, lines: string) =>
    readProgram(`G21 F100\n${lines}\nM2`, { start: { x, y, z: 9 } });
  const arcCodes = (x: number, y: number, lines: string) => from(x, y, lines).findings.map((f) => f.code);

  test("G1: a quarter about (10, 11)", () => {
    const [arc] = from(7, 7, "G17 G2 X10 Y16 I3 J4 Z9").motions;
    expect(xyz(arc!.arc!.centre)).toEqual([10, 11, 9]);
    expect(radiusOf(arc!)).toBe(5);
    expect(arc!.arc!.sweep).toBeLessThan(0);
  });
  test("G2: an end on the centre is refused", () =>
    expect(arcCodes(0, 0, "G2 X0 Y10 I0 J10")).toEqual(["arc_mismatch"]));
  test("G3: a mismatch of 0.0118 is refused", () => {
    const [finding] = from(-2.83, 135, "G2 X1.41 Y137.45 I2.82 J0").findings;
    expect(finding!.code).toBe("arc_mismatch");
    expect(finding!.numbers.mismatch).toBeCloseTo(0.01177, 5);
  });
  test("G4: a mismatch of 0.000011 is accepted", () =>
    expect(arcCodes(10.666, 1.69979, "G2 X10.45 Y2.50679 I1.564 J0.851")).toEqual([]));
  test("0.0019 mm is accepted", () => expect(arcCodes(0, 0, "G3 X20.0019 Y0 I10")).toEqual([]));
  test("0.0021 mm is refused", () => expect(arcCodes(0, 0, "G3 X20.0021 Y0 I10")).toEqual(["arc_mismatch"]));
  test("0.00019 inch is accepted", () =>
    expect(arcCodes(0, 0, "G20 G3 X2.00019 Y0 I1")).toEqual(["units_changed"]));
  test("a full circle ends where it starts", () => {
    const [arc] = from(5, 0, "G3 X5 Y0 I-5").motions;
    expect(arc!.arc!.sweep).toBe(2 * Math.PI);
  });
  test("a centre on the start is refused", () =>
    expect(arcCodes(0, 0, "G2 X5 I0 J0")).toEqual(["arc_zero_radius"]));
  test("an arc names its end", () => expect(arcCodes(0, 0, "G2 I5")).toEqual(["arc_end_missing"]));
  test("an arc has a centre", () => expect(arcCodes(0, 0, "G2 X5")).toEqual(["arc_centre_missing"]));
  test("K has no meaning in XY", () => expect(arcCodes(0, 0, "G2 X10 I5 K1")).toEqual(["arc_mixed_formats"]));
  test("R and I exclude each other", () =>
    expect(arcCodes(0, 0, "G2 X10 I5 R5")).toEqual(["arc_mixed_formats"]));
  test("a radius reaches its end", () =>
    expect(arcCodes(0, 0, "G2 X10 R4.9")).toEqual(["arc_radius_too_small"]));
  test("a radius needs another end", () => expect(arcCodes(0, 0, "G2 X0 R5")).toEqual(["arc_end_missing"]));
  const sweepDeg = (line: string) => (from(0, 0, line).motions[0]!.arc!.sweep * 180) / Math.PI;
  // derived: a chord of 10 under a radius of 10 spans 60 degrees, or 300 the long way
  test("R > 0 is the short way, clockwise", () => expect(sweepDeg("G2 X10 R10")).toBeCloseTo(-60, 9));
  test("R < 0 is the long way, clockwise", () => expect(sweepDeg("G2 X10 R-10")).toBeCloseTo(-300, 9));
  test("R > 0 is the short way, counter-clockwise", () => expect(sweepDeg("G3 X10 R10")).toBeCloseTo(60, 9));
  test("R < 0 is the long way, counter-clockwise", () => expect(sweepDeg("G3 X10 R-10")).toBeCloseTo(300, 9));
  test("a centre by radius lies its radius from both ends, on the right side", () => {
    for (const [line, y] of [
      ["G2 X10 R10", -8.660254],
      ["G3 X10 R10", 8.660254],
      ["G2 X10 R-10", 8.660254],
      ["G3 X10 R-10", -8.660254],
    ] as const)
      expect(xyz(from(0, 0, line).motions[0]!.arc!.centre).map(round)).toEqual([5, y, 9]);
  });
  test("offsets are steps from the start in G91 too", () => {
    const [arc] = from(7, 7, "G91 G2 X3 Y9 I3 J4").motions;
    expect(xyz(arc!.arc!.centre)).toEqual([10, 11, 9]);
    expect(xyz(arc!.to)).toEqual([10, 16, 9]);
  });
  test("a helix is as long as its thread", () => {
    const [arc] = from(5, 0, "G3 X5 Y0 I-5 Z6").motions;
    expect(lengthOfMotion(arc!)).toBeCloseTo(Math.hypot(10 * Math.PI, 3), 9);
  });
  test("arcs stand upright in G18 and G19", () => {
    // G18 turns from z to x, so G2 from the origin about (x 5) rises in z: derived from the right-handed axes
    const [xz] = motions("F100 G18 G2 X10 Z0 I5 K0\nM2");
    expect(xz!.arc!.plane).toBe("XZ");
    expect(xz!.arc!.sweep).toBeCloseTo(-Math.PI, 12);
    const [yz] = motions("F100 G19 G3 Y10 Z0 J5 K0");
    expect(yz!.arc!.sweep).toBeCloseTo(Math.PI, 12);
  });
});

describe("drilling cycles, NISTIR 6556 3.5.16", () => {
  test("the report's own example", () =>
    expect(travels(motions("F100 G90 G81 G98 X4 Y5 Z1.5 R2.8", { x: 1, y: 2, z: 3 }))).toEqual([
      "rapid 4,5,3",
      "rapid 4,5,2.8",
      "feed 4,5,1.5",
      "rapid 4,5,3",
    ]));
  test("the holes of C.3's opening lines come in order", () => {
    const { motions: read } = readProgram(
      `n0010 g20 (cycle test)
n0020 g17 g43 h1 m3 s1234 f16 (start in XY-plane)
n0030 g81 x3 y4 r0.2 z-1.1
n0040 x1 y0 r0 g91 l3 (three more g81s an inch apart)
n0050 y-2 r0.1 (one more g81)
n0060 g82 g90 x4 y5 r0.2 z-1.1 p0.6
m2`,
      { start: ORIGIN },
    );
    const holes = read.filter((motion) => motion.kind === "feed").map(({ to }) => [to.x / 25.4, to.y / 25.4]);
    expect(holes.map((hole) => hole.map(round))).toEqual([
      [3, 4],
      [4, 4],
      [5, 4],
      [6, 4],
      [6, 2],
      [4, 5],
    ]);
  });
  test("G9: pecks of 4 from 2 to -12", () => {
    const feeds = motions("F100 G83 X0 Y0 R2 Z-12 Q4", { x: 0, y: 0, z: 5 }).filter((m) => m.kind === "feed");
    expect(feeds.map((motion) => motion.to.z)).toEqual([-2, -6, -10, -12]);
  });
  test("G99 goes back to R only", () =>
    expect(motions("F100 G99 G81 X1 Z-1 R1", { x: 0, y: 0, z: 5 }).at(-1)!.to.z).toBe(1));
  test("a retract plane above the start is reached first", () =>
    expect(travels(motions("F100 G81 X1 Z-1 R2"))[0]).toBe("rapid 0,0,2"));
  test("R and Z stick while the cycle repeats", () => accepted("F100 G81 X1 Z-1 R2\nX2\nX3 Z-2"));
  test("they do not stick to another motion", () =>
    refused("F100 G81 X1 Z-1 R2\nG0 X2\nG81 X3", "missing_word"));
  test("the bottom lies below the retract plane", () => refused("F100 G81 X1 Z3 R2", "cycle_below_retract"));
  test("a cycle needs a place", () => refused("F100 G81 R2", "axis_words_missing"));
  test("a peck is more than nothing", () => refused("F100 G83 X1 Z-1 R2 Q0", "value_out_of_range"));
  test("no repeat is no hole", () => refused("F100 G81 X1 Z-1 R2 L0", "value_out_of_range"));
  test("inverse time forbids cycles", () => refused("G93 F100 G81 X1 Z-1 R2", "cycle_not_allowed"));
  test("tapping is refused", () => refused("F100 G84 X1 Z-1 R2", "unsupported_code"));
  test("a dwell at the bottom counts", () =>
    expect(readProgram("F9 G82 X1 Z-1 R2 P0.5\nX2\nM2", { start: ORIGIN }).facts.dwellSeconds).toBe(1));
});

describe("any text", () => {
  const word = fc.oneof(
    fc.constantFrom(
      "G0",
      "G1",
      "G2",
      "G3",
      "G81",
      "G83",
      "G92",
      "G91",
      "G20",
      "G53",
      "G28",
      "G10",
      "G93",
      "M3",
      "M6",
    ),
    fc
      .tuple(
        fc.constantFrom(..."XYZIJKRFSPQLTNHD#[]()%;/"),
        fc.constantFrom("", "1", "-2.5", ".", "99999", "#1", "[2]"),
      )
      .map((both) => both.join("")),
    fc.string({ maxLength: 6 }),
  );
  test("is read without a throw, and never gives a place that is no number", () => {
    fc.assert(
      fc.property(fc.array(fc.array(word, { maxLength: 6 }), { maxLength: 12 }), (lines) => {
        const { motions: read } = readProgram(lines.map((line) => line.join(" ")).join("\n"));
        for (const motion of read)
          for (const value of [...xyz(motion.from), ...xyz(motion.to), lengthOfMotion(motion)])
            if (!Number.isFinite(value)) throw new Error(`line ${motion.line}: ${JSON.stringify(motion)}`);
      }),
      { numRuns: 2000 },
    );
  });
  test("of 200 000 blocks is read in well under two seconds", () => {
    const lines = Array.from(
      { length: 200_000 },
      (_, i) => `G1 X${(i % 997) / 8} Y${(i % 31) / 4} Z-${(i % 7) / 2}`,
    );
    const text = `G21 G17 G90 G94 F1200\nG0 Z5\nG0 X0 Y0\n${lines.join("\n")}\nM2\n`;
    // Time of our own: waiting for other work on the machine is no fault of the reader's.
    const before = process.cpuUsage();
    expect(readProgram(text).facts.blocks).toBe(200_004);
    const { user, system } = process.cpuUsage(before);
    expect((user + system) / 1000).toBeLessThan(2000);
  });
});
