/** The known word that a mistyped one most likely meant, or undefined where none is near. */
export function nearest(word: string, known: Iterable<string>): string | undefined {
  const typed = word.toLowerCase();
  let best: string | undefined;
  let least = Math.max(1, Math.floor(word.length / 3)) + 0.5;
  for (const candidate of known) {
    if (Math.abs(candidate.length - word.length) > least) continue;
    const distance = editDistance(typed, candidate.toLowerCase());
    if (distance < least) {
      least = distance;
      best = candidate;
    }
  }
  return best;
}

/** Insertions, deletions, replacements and swaps of neighbours (optimal string alignment). */
export function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let previous = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const cost = a[i - 1] === b[j - 1] ? 0 : 1;
      let value = Math.min((previous[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (previous[j - 1] ?? 0) + cost);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        value = Math.min(value, (before[j - 2] ?? 0) + 1);
      row.push(value);
    }
    before = previous;
    previous = row;
  }
  return previous[b.length] ?? 0;
}
