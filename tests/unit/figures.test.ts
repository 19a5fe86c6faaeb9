import { afterEach, describe, expect, it } from 'vitest';
import { shownDate } from '../../shared/language/dates.ts';
import { figures, fixed, sayQuantity } from '../../shared/language/figures.ts';
import { counted, languageInUse, t, useWords } from '../../shared/language/words.ts';
import { say, sayLimit, sayPlusMinus, sayWithSpread } from '../../shared/findings/wording/wording.ts';
import { sayDate } from '../../shared/findings/wording/say-day.ts';
import german from '../../l10n/bundle.l10n.de.json' with { type: 'json' };

afterEach(() => {
  useWords(undefined);
});

/** Each as `Intl` writes the same number, which has them from the Unicode CLDR. */
const asPublished = (language: string, value: number, decimals: number): string =>
  new Intl.NumberFormat(language, {
    minimumFractionDigits: decimals,
    maximumFractionDigits: decimals,
    useGrouping: false,
  }).format(value);

describe('numbers as the reader writes them', () => {
  it.each([
    ['en', '.'],
    ['de', ','],
    ['de-CH', '.'],
    ['fr', ','],
    ['ar-EG', '٫'],
  ])('in %s the fraction stands after %s', (language, mark) => {
    useWords({}, language);
    expect(fixed(12.34, 1)).toBe(`12${mark}3`);
    expect(figures(0.25)).toBe(`0${mark}25`);
    expect(figures(7)).toBe('7');
    if (language !== 'ar-EG') expect(fixed(1234.5678, 2)).toBe(asPublished(language, 1234.5678, 2));
  });

  it('in a language that nobody knows, or that is no name of one, it is the point', () => {
    for (const language of ['qaa', '⟪en⟫', '']) {
      useWords({}, language);
      expect(fixed(1.5, 1)).toBe('1.5');
      expect(shownDate('2026-03-04')).toBe('2026-03-04');
    }
  });

  it('the table itself says of which language it is', () => {
    useWords(german);
    expect(languageInUse()).toBe('de');
    expect(say(12.34, 'deg')).toBe('12,3°');
    useWords(undefined);
    expect(languageInUse()).toBe('en');
    expect(say(12.34, 'deg')).toBe('12.3°');
  });

  it('values, limits and what was written have it, and so have numbers in a sentence', () => {
    useWords(german);
    expect(say(0.6, 'mm')).toBe('0,6 mm');
    expect(say(-2.14, 'deg')).toBe('−2,1°');
    expect(sayLimit(13.9, 'mm')).toBe('13,9 mm');
    expect(sayPlusMinus({ value: 9.46, unit: 'mm', sd: 0.71 })).toBe('9,5 ± 0,7 mm');
    expect(sayWithSpread({ value: 1.7, unit: '1', sd: 0.04 })).toBe('1,70 ± 0,04');
    expect(sayQuantity({ value: 14.5, unit: 'mm' })).toBe('14,5 mm');
    expect(t('{0} mm', 1.5)).toBe('1,5 mm');
    // What is text already, such as a number of the notation, stays as it is.
    expect(t('{0} mm', '1.5')).toBe('1.5 mm');
    expect(counted(2, 'one film', '{0} films')).toBe('2 Röntgenbilder');
  });
});

describe('dates as the reader writes them', () => {
  it.each(['2026-03-04', '2026-12-31', '2024-02-29', '1999-10-01'])('%s in German is as Intl has it', (date) => {
    useWords(german);
    const day = new Date(`${date}T00:00:00Z`);
    const written = (options: Intl.DateTimeFormatOptions) =>
      new Intl.DateTimeFormat('de', { ...options, timeZone: 'UTC' }).format(day);
    expect(sayDate(date)).toBe(written({ dateStyle: 'long' }));
    expect(shownDate(date)).toBe(written({ dateStyle: 'medium' }));
  });

  it('in English they stay as they are', () => {
    expect(sayDate('2026-03-04')).toBe('4 March 2026');
    expect(shownDate('2026-03-04')).toBe('2026-03-04');
  });

  it('what is no whole date stays as it stands', () => {
    useWords(german);
    for (const text of ['2026-03', '', '2026-02-31x', 'soon']) expect(shownDate(text)).toBe(text);
  });

  it('in French they have the French order', () => {
    useWords({}, 'fr');
    expect(shownDate('2026-03-04')).toBe('04/03/2026');
  });
});
