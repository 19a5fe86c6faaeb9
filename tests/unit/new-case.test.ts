import { describe, expect, it } from 'vitest';
import { caseFileName, newCaseText } from '../../shared/edits/new-case.ts';
import { newVisit, visitOn } from '../../shared/edits/new-visit.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { animals } from '../../shared/notation/choices.ts';
import { format } from '../../shared/notation/format.ts';

const today = '2026-11-28';
const film = { foot: 'LF', path: 'films/fern-lf-2026-11-28.png' } as const;

/** What the text itself lacks; that nothing is placed yet is no slip of writing. */
const slips = (text: string): string[] =>
  inspect(text)
    .findings.filter(({ code }) => /^(?:notation|record)\//.test(code))
    .map(({ message }) => message);

describe('a new case', () => {
  it.each([null, film])('reads as it should and is laid out as the formatter would, with %j', (one) => {
    for (const animal of animals) {
      const text = newCaseText({ name: 'Fern', animal, today, film: one });
      expect(slips(text)).toEqual([]);
      expect(format(text)).toBe(text);
      const { record } = inspect(text).study;
      expect([record.animal?.is.name, record.animal?.is.kind]).toEqual(['Fern', animal]);
      expect(record.visits.map(({ is }) => [is.date, is.films.map(({ foot, path }) => [foot, path.text])])).toEqual([
        [today, one ? [['LF', film.path]] : []],
      ]);
    }
  });

  it('has the name as it was written, whatever stands in it', () => {
    for (const name of ['The "Duke"', 'back\\slash', 'Møhre', 'نجمة', '$1 ${2}', '# none']) {
      const text = newCaseText({ name, animal: 'pony', today, film });
      expect(slips(text)).toEqual([]);
      expect(inspect(text).study.record.animal?.is.name).toBe(name);
    }
  });

  it('goes into a file of its own name, never over another', () => {
    expect(caseFileName('Fern', new Set())).toBe('fern');
    expect(caseFileName('Fern', new Set(['fern.hoof', 'fern-2.hoof']))).toBe('fern-3');
    expect(caseFileName('  Old Tom / 2 ', new Set())).toBe('old-tom-2');
    expect(caseFileName('../..', new Set())).toBe('case');
    expect(caseFileName('نجمة', new Set())).toBe('نجمة');
    expect(caseFileName('x'.repeat(500), new Set()).length).toBeLessThan(100);
  });
});

describe('a new visit', () => {
  const given = newCaseText({ name: 'Fern', animal: 'horse', today: '2026-10-01', film });
  const added = (text: string, one: typeof film | null = film): string => {
    const { at, text: put } = newVisit(text, { today, film: one });
    return text.slice(0, at) + put + text.slice(at);
  };

  it.each([given, given.trimEnd(), `${given}\n\n`, given.replaceAll('\n', '\r\n'), ''])('stands behind %j', (text) => {
    const now = added(text);
    expect(slips(now).filter((one) => !one.includes('case'))).toEqual([]);
    expect(inspect(now).study.record.visits.at(-1)?.is.date).toBe(today);
    expect(inspect(now).study.record.visits.at(-1)?.is.films).toHaveLength(1);
    expect(now.startsWith(text.trimEnd())).toBe(true);
    if (text.includes('\r\n')) expect(now.replaceAll('\r\n', '')).not.toContain('\n');
  });

  it('is laid out as the formatter would', () => {
    expect(format(added(given))).toBe(added(given));
    expect(format(added(given, null))).toBe(added(given, null));
  });

  it('is not made twice a day', () => {
    expect(visitOn(given, today)).toBeNull();
    expect(visitOn(added(given), today)).toBe(added(given).split('\n').indexOf(`visit ${today}`));
    expect(visitOn('visit 2026-11-281\n  visit 2026-11-28\n', today)).toBeNull();
  });
});
