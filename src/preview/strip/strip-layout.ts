/** Where the visits of a strip stand, CSS pixels from its left. */
export interface StripLayout {
  readonly width: number;
  /** A card a visit, none over another. */
  readonly cards: readonly number[];
  /** Where its day lies on the line of time; null where it has none. */
  readonly days: readonly (number | null)[];
}

export const CARD = 168;
const GAP = 10;
/** Between the ends of the line and the first and last day. */
const MARGIN = 8;

/**
 * Days on a straight scale of time; each card as near to its day as its neighbours let it. `days` in the order of the text. The strip is as
 * wide as the pane, or as its cards.
 */
export function stripLayout(days: readonly (number | null)[], pane: number): StripLayout {
  const width = Math.max(pane, days.length * (CARD + GAP) - GAP);
  const known = days.filter((day) => day !== null);
  // Not by `Math.min(...)`: more visits than a call takes arguments are possible.
  const first = known.reduce((least, day) => Math.min(least, day), Infinity);
  const last = known.reduce((most, day) => Math.max(most, day), -Infinity);
  const marks = days.map((day) =>
    day === null ? null : MARGIN + ((width - 2 * MARGIN) * (day - first)) / Math.max(last - first, 1),
  );
  const order = days.map((_, index) => index).sort((a, b) => (marks[a] ?? Infinity) - (marks[b] ?? Infinity) || a - b);
  const cards: number[] = days.map(() => 0);
  let left = 0;
  order.forEach((index, rank) => {
    const mark = marks[index] ?? width;
    // Those that follow need their room to the right.
    const rightmost = width - (order.length - rank) * (CARD + GAP) + GAP;
    const at = Math.max(Math.min(mark - CARD / 2, rightmost), left);
    cards[index] = at;
    left = at + CARD + GAP;
  });
  return { width, cards, days: marks };
}
