import { VERSION, workFrom } from "./address.ts";
import type { Work } from "./work.ts";

const KEY = "dryfit.work";
const INTRODUCED = "dryfit.introduced";

/** Keeps the work in the browser, as much of it as it has room for: nothing in a private window. */
export function keep({ file, text, gear, drawings }: Work): "all" | "design" | "nothing" {
  const put = (kept: Work["drawings"]): boolean => {
    try {
      localStorage.setItem(KEY, JSON.stringify({ v: VERSION, file, text, gear, drawings: kept }));
      return true;
    } catch {
      return false;
    }
  };
  if (put(drawings)) return "all";
  return drawings.length > 0 && put([]) ? "design" : "nothing";
}

/** What was kept last. "stale" where another version of the page left something that this one cannot read. */
export function kept(): Work | "stale" | null {
  try {
    const text = localStorage.getItem(KEY);
    if (text === null) return null;
    const said: unknown = JSON.parse(text);
    const work = workFrom(said);
    if (work) return work;
    // It may be the only copy of someone's work: it is put aside, never thrown away.
    localStorage.setItem(`${KEY}.unreadable`, text);
    return "stale";
  } catch {
    return "stale";
  }
}

export function wasIntroduced(): boolean {
  try {
    return localStorage.getItem(INTRODUCED) !== null;
  } catch {
    return false;
  }
}

export function rememberIntroduced(): void {
  try {
    localStorage.setItem(INTRODUCED, "1");
  } catch {
    // Then the note is shown again next time: no harm.
  }
}
