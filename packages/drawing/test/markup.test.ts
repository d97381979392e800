import { expect, test } from "vitest";
import { isWellFormed } from "./markup.ts";

function check(markup: string, sound: boolean) {
  expect(isWellFormed(markup)).toBe(sound);
}

test("closed elements are well formed", () => check('<svg><g class="a"><path d="M0 0"/></g></svg>', true));
test("an element left open is not", () => check("<svg><g></svg>", false));
test("crossed elements are not", () => check("<a><b></a></b>", false));
test("a bare ampersand is not", () => check("<text>nut & bolt</text>", false));
test("a bare angle is not", () => check("<text>5 < 6</text>", false));
