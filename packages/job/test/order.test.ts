import { readFileSync } from "node:fs";
import { readDxf } from "@dryfit/dxf";
import { boundsOf } from "@dryfit/geometry";
import { loadSolidKernel, type SolidKernel } from "@dryfit/verify";
import { beforeAll, describe, expect, test } from "vitest";
import { checkOrder, makeOrder, type OrderMade, type OutFile, SHIPPED_SERVICES } from "../src/index.ts";
import { readService } from "../src/order/service.ts";

let kernel: SolidKernel;
const made: Record<string, OrderMade> = {};

/** A sample ordered from a shipped service, with some words of either file changed. */
async function order(
  sample: string,
  service: "laser" | "router",
  changes: Readonly<Record<string, string>> = {},
): Promise<OrderMade> {
  const changed = (text: string): string =>
    Object.entries(changes).reduce((t, [from, to]) => t.replace(from, to), text);
  const text = changed(readFileSync(new URL(`../../../samples/${sample}.yaml`, import.meta.url), "utf8"));
  const shipped = SHIPPED_SERVICES[service];
  return makeOrder(
    {
      design: { file: `${sample}.yaml`, text },
      service: { ...shipped, text: changed(shipped.text) },
      version: "0",
    },
    () => {},
    kernel,
  );
}

beforeAll(async () => {
  kernel = await loadSolidKernel();
  made.drawn = await order("lantern", "laser", { "layout: nested": "layout: single" });
  made.nominal = await order("lantern", "laser", {
    "layout: nested": "layout: single",
    "allowance: drawn }": "allowance: service }",
    "thickness: [5.9, 5.95, 5.9, 5.9, 5.95]": "thickness: 5.95",
  });
  made.router = await order("halyard", "router");
}, 120_000);

function codes({ findings }: OrderMade): readonly string[] {
  return findings.flatMap(({ code, severity }) => (severity === "error" ? [code] : []));
}

function fileOf({ files }: OrderMade, part: RegExp): OutFile {
  return files.find(({ file }) => part.test(file))!;
}

/** Sizes of a file's contours, largest first: the outline, then what is cut out of it. */
function sizes(file: OutFile): readonly (readonly [number, number])[] {
  return readDxf(file.text)
    .loops.map(({ loop }) => boundsOf(loop))
    .map(({ min, max }) => [max.x - min.x, max.y - min.y] as const)
    .sort(([a], [b]) => b - a);
}

describe("the lantern from a laser service", () => {
  test.each(["drawn", "nominal"])(
    "%s: is proved from its drawings alone, with through cuts only",
    (which) => {
      const { outcome, job, files } = made[which]!;
      expect(outcome).toBe("made");
      expect(job!.verification.pass).toBe(true);
      expect(Math.max(job!.verification.gouge, job!.verification.uncut)).toBeLessThanOrEqual(0.01);
      const drawings = files.filter(({ file }) => file.startsWith("dxf/"));
      for (const { text } of drawings) expect(readDxf(text).layers).toEqual(["CUT"]);
      expect(job!.joints).toHaveLength(22);
      for (const { sideClearance, interference } of job!.joints) {
        expect(sideClearance.min).toBeCloseTo(0.05, 2);
        expect(interference).toBe(0);
      }
    },
  );

  test("kerf drawn in: tongues t + kerf, slots s − kerf, measured in the written files", () => {
    // Worked: outline 271.2 × 51, slots 5.95 + 2 × 0.05 wide; kerf 0.15. Coordinates are printed to 0.001.
    const [outline, ...cutouts] = sizes(fileOf(made.drawn!, /rail-front/));
    expect(outline![0]).toBeCloseTo(271.2 + 0.15, 2);
    expect(outline![1]).toBeCloseTo(51 + 0.15, 2);
    const slots = cutouts.filter(([x]) => x < 40);
    expect(slots).toHaveLength(5);
    for (const [, y] of slots) expect(y).toBeCloseTo(6.05 - 0.15, 2);
  });

  test("the service allows for kerf: the same, nominal", () => {
    const [outline, ...cutouts] = sizes(fileOf(made.nominal!, /rail-front/));
    expect(outline![0]).toBeCloseTo(271.2, 2);
    expect(outline![1]).toBeCloseTo(51, 2);
    for (const [, y] of cutouts.filter(([x]) => x < 40)) expect(y).toBeCloseTo(6.05, 2);
  });

  test("who allows for it is said in the letter, on paper, in every drawing and in job.json", () => {
    for (const [which, words] of [
      ["drawn", "kerf of 0.15 mm is drawn in"],
      ["nominal", "No kerf is drawn in"],
    ] as const) {
      const { files, job } = made[which]!;
      for (const name of [/order\.txt/, /drawing\.pdf/, /cheek-left-inner.*\.dxf/])
        expect(fileOf(made[which]!, name).text).toContain(words);
      expect(job!.kerf.allowance).toBe(which === "drawn" ? "drawn" : "service");
      // One revision on all of them.
      for (const { file, text } of files.filter((f) => /\.(txt|pdf|dxf)$/.test(f.file)))
        expect(`${file} ${text}`).toContain(job!.revision);
    }
  });

  test("files are named as the service asks, with count and measured thickness", () => {
    expect(fileOf(made.drawn!, /rail-back/).file).toBe("dxf/lantern-rail-back-birch-plywood-5.92mm-1x.dxf");
    expect(fileOf(made.router!, /slat/).file).toBe("dxf/halyard-slat-birch-plywood-12.42mm-2x.dxf");
  });
});

describe("housings from a router service", () => {
  test("are proved from the drawings, their layers named by depth and face", () => {
    expect(made.router!.outcome).toBe("made");
    expect(readDxf(fileOf(made.router!, /cheek-left/).text).layers).toContain("RECESS_5-95_A");
    expect(fileOf(made.router!, /order\.txt/).text).toMatch(/leave 6.35 mm of wood/);
  });
});

describe("a service that cannot make it says what would be possible", () => {
  test.each([
    ["halyard", "laser", {}, ["service_no_recesses", "service_thickness", "service_sheet_large"]],
    ["lantern", "laser", { "most: 9": "most: 5" }, ["service_thickness"]],
    ["lantern", "laser", { "largest: [600, 400]": "largest: [500, 300]" }, ["service_sheet_large"]],
    ["lantern", "laser", { "hole: 1.5": "hole: 4.5" }, Array(4).fill("service_hole_small")],
    ["lantern", "laser", { "web: 2": "web: 9" }, Array(7).fill("service_web_thin")],
    ["lantern", "laser", { "insideRadius: 0": "insideRadius: 2" }, ["service_corner_tight"]],
    ["skiff", "router", { "secondFace: true": "secondFace: false" }, ["service_one_face"]],
    [
      "halyard",
      "router",
      { 'recess: "RECESS_{depth}_{face}"': "recess: POCKET" },
      ["service_layers_ambiguous"],
    ],
  ] as const)("%s, %s, %o", async (sample, service, changes, expected) => {
    const found = await order(sample, service, changes as Readonly<Record<string, string>>);
    expect(found.outcome).toBe("cannot");
    expect(found.files).toEqual([]);
    expect([...new Set(codes(found))].sort()).toEqual([...new Set<string>(expected)].sort());
    for (const { severity, wayOut } of found.findings)
      if (severity === "error") expect(wayOut).toMatch(/\.$/);
  });

  test("the change that is offered makes it possible", async () => {
    const { findings } = await order("tidepool", "laser");
    const offer = findings.find(({ code }) => code === "service_no_recesses")!.wayOut!;
    expect(offer).toMatch(
      /construction: layered; leave joint.tongue out; joint.rails: full; cheek.overhang.front: 6.1 mm; cheek.overhang.back: 6.1 mm: that was tried and gives 14 parts/,
    );
    const changed = await order("tidepool", "laser", {
      "joint:\n": "construction: layered\njoint:\n",
      "  tongue: { thickness: 7, length: 6.8 }\n": "",
      "rails: inner": "rails: full",
      "cheek:\n": "cheek:\n  overhang: { front: 6.1, back: 6.1 }\n",
      "most: 9": "most: 15",
      "web: 2": "web: 1.5",
      "layout: nested": "layout: single",
      "largest: [600, 400]": "largest: [1250, 650]",
    });
    expect(codes(changed)).toEqual([]);
    expect(changed.outcome).toBe("made");
  });
});

describe("a folder is proved again from its files", () => {
  const check = (damage: (file: OutFile) => OutFile) =>
    checkOrder(made.nominal!.files.map(damage), () => {}, kernel);
  const inFile = (part: RegExp, change: (text: string) => string) => (file: OutFile) =>
    part.test(file.file) ? { ...file, text: change(file.text) } : file;

  test("as it was made it passes, and gives the same bytes again", async () => {
    const again = await check((file) => file);
    expect(codes(again)).toEqual([]);
    expect(again.files).toEqual(made.nominal!.files);
  });

  test("a corner moved by a tenth, slots that are gone: each is told as what it does to the wood", async () => {
    const moved = await check(
      // The first corner of the first contour.
      inFile(/base-/, (text) =>
        text.replace(/(VERTEX\s+8\nCUT\n 10\n)(-?[\d.]+)/, (_, head, x) => `${head}${Number(x) + 0.1}`),
      ),
    );
    expect(moved.outcome).toBe("disproved");
    const other = made.nominal!.files.find(({ file }) => /cheek-left-outer/.test(file))!.text;
    const unslotted = await check(inFile(/cheek-left-inner/, () => other));
    expect(codes(unslotted)).toEqual(expect.arrayContaining(["uncut", "interference"]));
  }, 180_000);

  test("a kerf that the service file tells otherwise shows in every part", async () => {
    const wider = await check(
      inFile(/service\.yaml/, (text) => text.replace("allowance: service }", "allowance: drawn }")),
    );
    expect(codes(wider)).toContain("gouge");
    expect(wider.findings.map(({ code }) => code)).toContain("file_changed");
  });

  test("a missing file and a foreign job.json are named", async () => {
    const without = made.nominal!.files.filter(({ file }) => !/rail-back/.test(file));
    expect(codes(await checkOrder(without, () => {}, kernel))).toEqual(["file_missing"]);
    expect(codes(await check(inFile(/job\.json/, () => "{}")))).toEqual(["not_our_job"]);
  });
});

describe("a service file", () => {
  const problems = (change: readonly [string, string]) => {
    const read = readService(SHIPPED_SERVICES.laser.text.replace(...change), "laser.yaml");
    return read.ok ? [] : read.problems.map(({ message }) => message);
  };
  test("ships as the samples' shop holds it, to the letter", () => {
    for (const { file, text } of Object.values(SHIPPED_SERVICES))
      expect(readFileSync(new URL(`../../../samples/shop/${file}`, import.meta.url), "utf8")).toBe(text);
  });
  test.each([
    [["cuts: through", "cuts: thru"], /laser.yaml:8:7: cuts: found "thru"; allowed: .*through, recesses/],
    [
      ["least: 1.5", "least: 12"],
      /laser.yaml:14:\d+: sheet.thickness.most: found 9; allowed: no less than least/,
    ],
    [["width: 0.15", "width: 6"], /kerf.width: found 6; allowed: at most 1.5 mm where it is drawn in/],
    [["{part}-", ""], /files.name: found .*allowed: letters/],
    [
      ["label: null", "lable: null"],
      /files.layers.lable: found the unknown key "lable"; allowed: did you mean "label"/,
    ],
    [["outside: CUT", 'outside: "CUT {depth}"'], /files.layers.outside: found .*a layer name/],
  ] as const)("%o is told at its place", (change, message) => {
    expect(problems(change as readonly [string, string]).join("\n")).toMatch(message);
  });
});

describe("a design changed so that a service can make it", () => {
  const oneFace = { "secondFace: true": "secondFace: false" };

  test("gets full rail ends where one face is worked, every other line as it stood, and can then be ordered", async () => {
    const blocked = await order("tidepool", "router", oneFace);
    expect(codes(blocked)).toEqual(["service_one_face"]);
    const { text, left } = blocked.changed!;
    expect(left).toEqual([]);
    const before = readFileSync(new URL("../../../samples/tidepool.yaml", import.meta.url), "utf8");
    expect(text).toBe(
      before
        .replace("rails: inner", "rails: full")
        .replace(
          "    back: { drop: 34, length: 60, angle: 60, radius: 10 }\n",
          "    back: { drop: 34, length: 60, angle: 60, radius: 10 }\n  overhang: { front: 6.1 mm, back: 6.1 mm }\n",
        ),
    );
    const service = SHIPPED_SERVICES.router;
    const again = await makeOrder(
      {
        design: { file: "changed.yaml", text },
        service: { ...service, text: service.text.replace("secondFace: true", "secondFace: false") },
        version: "0",
      },
      () => {},
      kernel,
    );
    expect(codes(again)).toEqual([]);
    expect(again.outcome).toBe("made");
  }, 120_000);

  test("becomes layered where only through cuts are made; what only the maker can say is left to say", async () => {
    const { changed } = await order("skiff", "laser");
    expect(changed!.text).toContain("construction: layered");
    expect(changed!.text).toContain("# caliper readings from five places");
    expect(changed!.left.map(({ code }) => code)).toEqual(["service_thickness"]);
  });

  test("is none where the design itself cannot be made, or the service can make it", async () => {
    const wrong = await order("skiff", "laser", { "stop: 4": "stop: 40" });
    expect(wrong.outcome).toBe("cannot");
    expect(wrong.changed).toBeNull();
    expect(made.router!.changed).toBeUndefined();
  });
});

test("places that the design locks are told to mean nothing on a service's sheets", async () => {
  const { findings } = await order("lantern", "laser", {
    "  grain: x": "  grain: x\n  locked:\n    - { part: base, sheet: 1, x: 10, y: 10 }",
    "thickness: [5.9, 5.95, 5.9, 5.9, 5.95]": "thickness: 5.95",
  });
  expect(findings).toContainEqual(
    expect.objectContaining({ code: "locks_left_out", severity: "note", path: "sheet.locked" }),
  );
}, 120_000);
