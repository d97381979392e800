/** One thing to do at the bench, with the figures to set. */
export interface Step {
  readonly id: string;
  readonly title: string;
  readonly parts: readonly string[];
  /** Cutter and what guides it; null for a saw or a pencil. */
  readonly tool: string | null;
  /** mm; several stand for passes in order, or for length by width where `by` is set. */
  readonly figures: readonly StepFigure[];
  readonly notes: readonly string[];
  /** About how long a hand takes, setting and trying it included. */
  readonly minutes: number;
  /** Another way to what an earlier step cuts. */
  readonly instead?: true;
  /** What to try on an offcut before the part is touched. */
  readonly first: string | null;
}

export interface StepFigure {
  readonly what: string;
  readonly mm: readonly number[];
  readonly by?: boolean;
}

/** "cheek-left and cheek-right". */
export function listed(words: readonly string[]): string {
  if (words.length < 2) return words.join("");
  return `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}
