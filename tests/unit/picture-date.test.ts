import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { courseText, type CourseVisit } from './course-text.ts';
import { sunk } from './moved-foot.ts';

/** A slip in the day of a film puts it at another place of its course: that is told, as it may hide a sinking. */

const visits = (taken: readonly (string | null)[], header = 'film LF lateral'): CourseVisit[] =>
  taken.map((date, index) => ({
    date: `2026-0${index + 1}-30`,
    places: sunk(index === 3 ? 6 : 0),
    film: { header: `${header} "f${index}.png"`, more: date === null ? [] : [`taken ${date}`] },
  }));
const told = (text: string) =>
  inspect(text.replace('2026-02-30', '2026-02-27')).findings.filter(({ code }) => code === 'picture/date');

describe('a film that is dated out of its visit', () => {
  it('a year too early is told: it would be the oldest film, and the sinking unseen', () => {
    const text = courseText(visits([null, null, null, '2025-04-28']));
    const [found, ...more] = told(text);
    expect(more).toEqual([]);
    expect(found).toMatchObject({ severity: 'warning' });
    expect(text.slice(found?.at.start).startsWith('film LF lateral "f3.png"')).toBe(true);
    expect(found?.message).toMatch(
      /^This film is dated 28 April 2025, before one of the left fore in an earlier visit \(30 March 2026\)/,
    );
  });

  it('after its visit is told, and only that one', () => {
    const [found, ...more] = told(courseText(visits(['2027-01-30', '2026-02-20', '2026-03-28', null])));
    expect(more).toEqual([]);
    expect(found?.message).toMatch(
      /^This film is dated 30 January 2027, after the visit that it stands in \(30 January 2026\)/,
    );
  });

  it('some days before its visit, two of one visit, other feet and photographs are in order', () => {
    expect(told(courseText(visits(['2026-01-28', '2026-02-25', null, '2026-04-02'])))).toEqual([]);
    const both = courseText(visits([null, null])).replace(
      'visit 2026-02-30',
      'visit 2026-02-27\n  film RF lateral "old.png"\n    taken 2024-05-01\n  photo LF lateral "p.png"\n    taken 2024-05-01',
    );
    expect(told(both)).toEqual([]);
    const old = courseText(visits([null])) + '\n  film LF lateral "older.png"\n    taken 2024-05-01\n';
    expect(told(old)).toEqual([]);
  });

  it('with the visits themselves in the wrong order is told of the visits alone', () => {
    const text = courseText(visits([null, null]).toReversed());
    expect(told(text)).toEqual([]);
  });

  it('can be lived with: an old film that came later', () => {
    const text = courseText(visits([null, null, null, '2025-04-28'])).replace(
      'taken 2025-04-28',
      'taken 2025-04-28\n    accept picture/date because "found at the old practice"',
    );
    expect(told(text)).toMatchObject([{ severity: 'info' }]);
  });
});
