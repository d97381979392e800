import type { Finding } from "@dryfit/joinery";

/** A finding in a file, and the line that it is about; 0: the whole file. */
export interface Noted {
  readonly number: number;
  readonly finding: Finding;
  readonly line: number;
}

/** The findings of a file, errors first, numbered for their balloons. */
export function notedOf(findings: readonly Finding[]): readonly Noted[] {
  return [...findings]
    .sort((a, b) => ORDER.indexOf(a.severity) - ORDER.indexOf(b.severity))
    .map((finding, i) => ({
      number: i + 1,
      finding,
      line: finding.numbers.line ?? Number(/:(\d+)(?::\d+)?$/.exec(finding.path)?.[1] ?? 0),
    }));
}

const ORDER: readonly Finding["severity"][] = ["error", "warning", "note"];
