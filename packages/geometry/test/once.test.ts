import { expect, test } from "vitest";
import { once, onceWith } from "../src/once.ts";

test("what is asked of one board again is not worked out again, of another like it, it is", () => {
  let worked = 0;
  const half = once(({ length }: { readonly length: number }) => {
    worked++;
    return length / 2;
  });
  const board = { length: 600 };
  expect([half(board), half(board), half({ length: 600 })]).toEqual([300, 300, 300]);
  expect(worked).toBe(2);
});

test("with more that is asked, each question has its own answer", () => {
  const asked: unknown[] = [];
  const left = onceWith((board: { readonly length: number }, by: number, saw: { readonly kerf: number }) => {
    asked.push([by, saw.kerf]);
    return board.length - by - saw.kerf;
  });
  const board = { length: 600 };
  const [thin, thick] = [{ kerf: 1 }, { kerf: 3 }];
  expect([left(board, 100, thin), left(board, 100, thick), left(board, 200, thin)]).toEqual([499, 497, 399]);
  expect([left(board, 200, thin), left(board, 100, thick), left(board, 100, thin)]).toEqual([399, 497, 499]);
  expect(asked).toEqual([
    [100, 1],
    [100, 3],
    [200, 1],
  ]);
});
