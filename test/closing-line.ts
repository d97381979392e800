import type { Reporter, TestModule } from "vitest/node";

/** Ends the run with one plain line, for people and scripts that look no further. */
export default class ClosingLine implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], unhandled: readonly unknown[]): void {
    const tests = modules.flatMap((module) => [...module.children.allTests()]);
    const count = (state: string): number => tests.filter((one) => one.result().state === state).length;
    const broken = modules.filter((module) => module.errors().length > 0).length + unhandled.length;
    process.stdout.write(`\n${count("passed")} passed, ${count("failed") + broken} failed\n`);
  }
}
