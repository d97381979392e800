import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import type { Answer } from "../src/worker/messages.ts";
import { createRunner, type Runner } from "../src/worker/runner.ts";

// The page's build packs it; here nothing runs in it.
vi.mock("../src/worker/job-worker.ts?packed", () => ({ default: "" }));

/** A worker that does nothing but remember what it was asked. */
class Idle {
  readonly asked: string[] = [];
  isGone = false;
  onmessage: (event: { data: Answer }) => void = () => {};
  onerror: (event: { message: string; preventDefault: () => void }) => void = () => {};
  postMessage(ask: object): void {
    if ("stop" in ask) this.asked.push(`stop ${ask.stop}`);
    else if ("design" in ask && "run" in ask) this.asked.push(`make ${ask.run}`);
  }
  terminate(): void {
    this.isGone = true;
  }
  says(answer: Answer): void {
    this.onmessage({ data: answer });
  }
  dies(): void {
    this.onerror({ message: "out of memory", preventDefault: () => {} });
  }
}

const files = { design: { file: "a.yaml", text: "" }, drawings: [] };
const made = (run: number): Answer => ({ kind: "made", run, made: {} as never, ms: 1 });

describe("runs of two workers, a maker and its helper", () => {
  let hired: Idle[];
  let told: string[];
  let runner: Runner;
  beforeEach(() => {
    vi.useFakeTimers();
    hired = [];
    told = [];
    const hire = (): Worker => {
      hired.push(new Idle());
      return hired.at(-1) as unknown as Worker;
    };
    const listener = {
      stage: (run: number, stage: string) => told.push(`${run}: ${stage}`),
      made: (run: number) => told.push(`${run} made`),
      failed: (run: number, why: string) => told.push(`${run} failed: ${why}`),
    };
    runner = createRunner(listener, hire);
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  test("a stale run is told to stop, and only the newest is told of", () => {
    runner.make(1, files);
    runner.make(2, files);
    expect(hired[0]!.asked).toEqual(["make 1", "stop 1", "make 2"]);
    hired[0]!.says({ kind: "stage", run: 1, stage: "late" });
    hired[0]!.says({ kind: "stopped", run: 1 });
    hired[0]!.says({ kind: "stage", run: 2, stage: "planning" });
    hired[0]!.says(made(2));
    expect(told).toEqual(["2: planning", "2 made"]);
    vi.advanceTimersByTime(10_000);
    expect(hired.map(({ isGone }) => isGone)).toEqual([false, false]);
  });

  test("a crew that does not come to the end of a stale stage is sent away, and a fresh one makes the newest", () => {
    runner.make(1, files);
    runner.make(2, files);
    vi.advanceTimersByTime(10_000);
    expect(hired.map(({ isGone }) => isGone)).toEqual([true, true, false, false]);
    expect(hired[2]!.asked).toEqual(["make 2"]);
    hired[0]!.says(made(1));
    hired[2]!.says(made(2));
    expect(told).toEqual(["2 made"]);
  });

  test.each([
    ["maker", 0],
    ["helper", 1],
  ])("a %s that dies is not noticed once: a fresh crew makes the same", (_, which) => {
    runner.make(1, files);
    hired[which]!.dies();
    expect(hired.map(({ isGone }) => isGone)).toEqual([true, true, false, false]);
    hired[2]!.says(made(1));
    expect(told).toEqual(["1 made"]);
  });

  test("workers that die again and again are told of, and hired again only for other work", () => {
    runner.make(1, files);
    hired[1]!.dies();
    hired[2]!.dies();
    expect(told).toEqual(["1 failed: out of memory"]);
    expect(hired.length).toBe(4);
    runner.make(2, files);
    expect(hired[4]!.asked).toEqual(["make 2"]);
    hired[4]!.says(made(2));
    hired[5]!.dies();
    expect(hired.length).toBe(6);
    expect(told).toEqual(["1 failed: out of memory", "2 made"]);
  });
});
