/**
 * What has been worked out before, by the values it hangs on: parts that are equal share it, whatever sheet they lie on
 * and whoever worked it out. Holds plain data only, so that another worker's may be taken over.
 */
export type Known = Map<string, unknown>;

/** The answer to `what` as it is known, or else worked out. `values` must hold all that it hangs on, as plain data. */
export function recalled<Answer>(
  known: Known,
  what: string,
  values: readonly unknown[],
  work: () => Answer,
): Answer {
  const key = what + JSON.stringify(values);
  if (known.has(key)) return known.get(key) as Answer;
  const answer = work();
  known.set(key, answer);
  return answer;
}
