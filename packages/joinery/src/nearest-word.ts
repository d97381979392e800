/** The word that was probably meant: the one fewest slips away, if that is at most a third of its letters. */
export function nearestWord(word: string, known: readonly string[]): string | null {
  const ranked = known
    .map((k) => ({ k, slips: slips(word.toLowerCase(), k.toLowerCase()) }))
    .sort((a, b) => a.slips - b.slips);
  const best = ranked[0];
  return best && best.slips <= Math.max(1, Math.ceil(best.k.length / 3)) ? best.k : null;
}

/** Letters added, left out, changed or swapped with a neighbour (optimal string alignment). */
function slips(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)];
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = rows[i - 1]![j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      let least = Math.min(rows[i - 1]![j]! + 1, row[j - 1]! + 1, change);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        least = Math.min(least, rows[i - 2]![j - 2]! + 1);
      }
      row.push(least);
    }
    rows.push(row);
  }
  return rows[a.length]![b.length]!;
}
