import type { Finding, Severity } from "@dryfit/joinery";

/** What is wrong at one line. */
export interface Fault {
  readonly code: string;
  readonly line: number;
  readonly message: string;
  readonly numbers?: Readonly<Record<string, number>>;
  readonly severity?: Severity;
  readonly wayOut?: string;
}

/** One finding per code, at its first line; `numbers.count` tells how many lines share the fault. */
export function firstOfEach(file: string, faults: Iterable<Fault>): Finding[] {
  const found = new Map<string, { fault: Fault; count: number }>();
  for (const fault of faults) {
    const known = found.get(fault.code);
    if (known === undefined) found.set(fault.code, { fault, count: 1 });
    else known.count++;
  }
  return [...found.values()].map(({ fault, count }) => ({
    code: fault.code,
    severity: fault.severity ?? "error",
    path: `${file}:${fault.line}`,
    message: count === 1 ? fault.message : `${fault.message} (${count} lines in all)`,
    numbers: { line: fault.line, count, ...fault.numbers },
    ...(fault.wayOut === undefined ? {} : { wayOut: fault.wayOut }),
  }));
}
