import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nearestStop, steppedStop, stopAtLine } from '../../src/preview/cursor-stop.ts';
import { CARD, stripLayout } from '../../src/preview/strip/strip-layout.ts';

describe('the strip of visits', () => {
  const days = fc.array(fc.option(fc.integer({ min: 18000, max: 22000 })), { minLength: 1, maxLength: 60 });

  it('has no card over another, and each within it', () => {
    fc.assert(
      fc.property(days, fc.integer({ min: 0, max: 2000 }), (visits, pane) => {
        const { cards, width } = stripLayout(visits, pane);
        const sorted = cards.toSorted((a, b) => a - b);
        sorted.forEach((left, index) => {
          expect(left).toBeGreaterThanOrEqual(0);
          expect(left + CARD).toBeLessThanOrEqual(width + 1e-6);
          if (index > 0) expect(left - (sorted[index - 1] ?? 0)).toBeGreaterThanOrEqual(CARD);
        });
      }),
    );
  });

  it('has cards in the order of their days, and days on a straight scale', () => {
    fc.assert(
      fc.property(days, (visits) => {
        const { cards, days: marks } = stripLayout(visits, 900);
        const dated = visits.flatMap((one, index) =>
          one === null ? [] : [{ one, card: cards[index] ?? 0, mark: marks[index] ?? 0 }],
        );
        const sorted = dated.toSorted((a, b) => a.one - b.one);
        sorted.forEach(({ card, one }, index) => {
          const before = sorted[index - 1];
          if (before && before.one < one) expect(card).toBeGreaterThan(before.card);
        });
        const [first] = sorted;
        const last = sorted.at(-1);
        if (!first || !last || first.one === last.one) return;
        for (const { one, mark } of sorted)
          expect((mark - first.mark) / (last.mark - first.mark)).toBeCloseTo(
            (one - first.one) / (last.one - first.one),
            9,
          );
      }),
    );
  });

  it('puts a visit without a date last, with no mark on the line', () => {
    const { cards, days: marks } = stripLayout([null, 20000, 20100], 1200);
    expect(marks[0]).toBeNull();
    expect(cards[0]).toBeGreaterThan(cards[2] ?? 0);
  });
});

describe('the cursor of the stave', () => {
  it('stands at the nearest film', () => {
    expect([0, 14, 16, 900].map((x) => nearestStop([10, 20, 50], x))).toEqual([0, 0, 1, 2]);
  });

  it('goes by the arrow keys, and stops at the ends', () => {
    expect(['ArrowLeft', 'ArrowRight', 'Home', 'End'].map((key) => steppedStop(key, 1, 4))).toEqual([0, 2, 0, 3]);
    expect([steppedStop('ArrowLeft', 0, 4), steppedStop('ArrowRight', 3, 4), steppedStop('a', 1, 4)]).toEqual([
      0,
      3,
      null,
    ]);
  });

  it('begins at the film that the text is about', () => {
    const films = [
      { day: 5, line: 10 },
      { day: 9, line: 40 },
    ];
    expect([null, 3, 10, 39, 41].map((line) => stopAtLine(films, [5, 9], line))).toEqual([null, null, 0, 0, 1]);
  });
});
