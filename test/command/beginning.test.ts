import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { dryfit } from "../dryfit.ts";
import { dryfitHere } from "../dryfit-here.ts";
import { emptyShelf } from "../shelf.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const shelf = emptyShelf();

test("new writes a design that makes at once, and never over another", async () => {
  const file = join(shelf(), "mine.yaml");
  expect(dryfit("new", file).status).toBe(0);
  const made = await dryfitHere("make", file, "--out", join(shelf(), "mine"), "--json");
  expect(JSON.parse(made.stdout)).toMatchObject({ outcome: "made" });
  expect(made.status).toBe(0);
  expect((await dryfitHere("new", file)).stderr).toMatch(/exists already/);
});

test("a coupon is made, proved again from its folder, and its letters go into the design", async () => {
  const [folder, file] = [join(shelf(), "coupon"), join(shelf(), "tried.yaml")];
  const before = readFileSync(join(root, "samples/tidepool.yaml"), "utf8");
  writeFileSync(file, before);
  const made = await dryfitHere("coupon", file, "--out", folder);
  expect(made.stdout).toMatch(/3 parts on 1 sheet, 1 program/);
  expect((await dryfitHere("check", folder)).stdout).toMatch(/^Proved/m);
  const other = join(shelf(), "mine");
  expect((await dryfitHere("fit", file, "--coupon", other, "--width", "C")).stderr).toMatch(/no coupon/);
  const trial = await dryfitHere("fit", file, "--coupon", folder, "--width", "C", "--dry-run");
  expect(trial.stdout).toMatch(/joint\.clearance\.side {2}0\.1 → 0\.05/);
  expect(readFileSync(file, "utf8")).toBe(before);
  expect(
    (await dryfitHere("fit", file, "--coupon", folder, "--width", "C", "--readings", "14,7 14,8")).status,
  ).toBe(0);
  expect(readFileSync(file, "utf8")).toBe(
    before.replace("side: 0.1", "side: 0.05").replace("thickness: 14.8", "thickness: [14.7, 14.8]"),
  );
});
