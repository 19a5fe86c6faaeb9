/** The known word that a mistyped one most likely meant, or undefined where none is near. */
export function nearest(word: string, known: Iterable<string>): string | undefined {
  const typed = word.toLowerCase();
  let best: string | undefined;
  let least = Math.max(1, Math.floor(word.length / 3)) + 0.5;
  for (const candidate of known) {
    if (Math.abs(candidate.length - word.length) > least) continue;
    const meant = candidate.toLowerCase();
    if (Math.max(typed.length, meant.length) - commonLetters(typed, meant) > least) continue;
    const distance = editDistance(typed, meant, least);
    if (distance < least) {
      least = distance;
      best = candidate;
    }
  }
  return best;
}

const spare = new Uint16Array(128);

/** How many letters of one word are in the other, wherever they stand: each one more is an insertion or a replacement. */
function commonLetters(a: string, b: string): number {
  // By their last seven bits: to take two letters for one only leaves more to be looked at closely.
  for (let at = 0; at < a.length; at++) (spare[a.charCodeAt(at) & 127] as number)++;
  let common = 0;
  for (let at = 0; at < b.length; at++) {
    const letter = b.charCodeAt(at) & 127;
    if ((spare[letter] as number) === 0) continue;
    (spare[letter] as number)--;
    common++;
  }
  spare.fill(0);
  return common;
}

/**
 * Insertions, deletions, replacements and swaps of neighbours (optimal string alignment). Infinity where they are more than `most`, which
 * is found out sooner: a file may have a mistyped word on each of its lines.
 */
export function editDistance(a: string, b: string, most = Infinity): number {
  let before: number[] = [];
  let previous = Array.from({ length: b.length + 1 }, (_, j) => j);
  let leastBefore = 0;
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    let leastHere = i;
    const code = a.charCodeAt(i - 1);
    const codeBefore = a.charCodeAt(i - 2);
    for (let j = 1; j <= b.length; j++) {
      const cost = code === b.charCodeAt(j - 1) ? 0 : 1;
      let value = Math.min((previous[j] as number) + 1, (row[j - 1] as number) + 1, (previous[j - 1] as number) + cost);
      if (i > 1 && j > 1 && code === b.charCodeAt(j - 2) && codeBefore === b.charCodeAt(j - 1))
        value = Math.min(value, (before[j - 2] as number) + 1);
      row.push(value);
      if (value < leastHere) leastHere = value;
    }
    // Whatever follows goes on from one of the last two rows.
    if (leastHere > most && leastBefore > most) return Infinity;
    leastBefore = leastHere;
    before = previous;
    previous = row;
  }
  return previous[b.length] as number;
}
