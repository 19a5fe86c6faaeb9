import { LocalDate } from '@js-joda/core';
import { randomInt, randomLcg } from 'd3-random';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { dateExists, dayNumber, daysIn, readDate } from '../../shared/notation/dates.ts';

/**
 * Calendar against js-joda (ISO 8601, the Gregorian calendar carried back), which counts days by its own arithmetic and not
 * by the Date of the language.
 */
const source = randomLcg(0.15821015);
const TIMES = 20_000;

const written = (year: number, month: number, day: number): string =>
  `${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;

function referenceDay(date: string): number | null {
  try {
    return LocalDate.parse(date).toEpochDay();
  } catch {
    return null;
  }
}

function exists(date: string): boolean {
  const parts = readDate(date);
  return parts !== null && dateExists(parts);
}

describe('dates against js-joda', () => {
  const differing = (
    years: readonly [first: number, past: number],
    times: number,
  ): { real: number; first: string[] } => {
    const year = randomInt.source(source)(...years);
    const month = randomInt.source(source)(0, 14);
    const day = randomInt.source(source)(0, 34);
    let real = 0;
    const found: string[] = [];
    for (let i = 0; i < times; i++) {
      const date = written(year(), month(), day());
      const reference = referenceDay(date);
      if (reference !== null) real += 1;
      if (exists(date) !== (reference !== null) || dayNumber(date) !== reference)
        found.push(`${date}: exists ${exists(date)}, day ${dayNumber(date)}, not ${reference}`);
    }
    return { real, first: found.slice(0, 5) };
  };

  it('exist, and count their days from 1970-01-01, alike', () => {
    const { real, first } = differing([100, 10_000], TIMES);
    expect(first).toEqual([]);
    expect(real).toBeGreaterThan(TIMES / 2);
  });

  // The Date of the language takes these years for those of the twentieth century.
  it('so do those of the years 1 to 99', () => {
    expect(differing([1, 100], 1000).first).toEqual([]);
  });

  it('every month of every year has its length', () => {
    for (let year = 1; year < 10_000; year++)
      for (let month = 1; month <= 12; month++)
        if (daysIn(year, month) !== LocalDate.of(year, month, 1).lengthOfMonth())
          throw new Error(`${written(year, month, 1)} has ${daysIn(year, month)} days`);
  });

  // Inter gravissimas, 1582: of the hundredth years only each fourth is a leap year, as 1600 was and 2000 would be.
  it.each([
    ['1600-02-29', true],
    ['1700-02-29', false],
    ['1800-02-29', false],
    ['2400-02-29', true],
  ])('%s exists: %s', (date, there) => {
    expect(exists(date)).toBe(there);
  });

  it.each([
    ['1900-02-29', false],
    ['2000-02-29', true],
    ['2024-02-29', true],
    ['2026-02-29', false],
    ['2100-02-29', false],
  ])('a visit on %s: %s', (date, there) => {
    const codes = inspect(`hoof 1\n\ncase "X"\n\nvisit ${date}\n`).findings.map(({ code }) => code);
    expect(codes).toEqual(there ? [] : ['notation/no-such-date']);
  });

  it('visits go backwards exactly where the earlier one has the later day', () => {
    const epochDay = randomInt.source(source)(-25_000, 80_000);
    const step = randomInt.source(source)(-2, 3);
    const steps = new Set<number>();
    for (let i = 0; i < 500; i++) {
      const from = epochDay();
      const by = step();
      steps.add(by);
      const [first, second] = [from, from + by].map((day) => LocalDate.ofEpochDay(day).toString());
      const codes = inspect(`hoof 1\n\ncase "X"\n\nvisit ${first}\n\nvisit ${second}\n`).findings.map(
        ({ code }) => code,
      );
      expect(codes, `${first}, then ${second}`).toEqual(by < 0 ? ['record/dates-backwards'] : []);
    }
    expect(steps.size).toBe(5);
  });
});
