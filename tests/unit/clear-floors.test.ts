import { describe, expect, it } from 'vitest';
import { courseOf } from '../../shared/course/course.ts';
import { ENOUGH_REPEATS } from '../../shared/course/repeat-reads.ts';
import { errorOfFilms } from '../../shared/course/error-of-films.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { measures } from '../../shared/measures/registry.ts';
import type { MeasureName } from '../../shared/measures/names.ts';
import { changeRanges, floorOf, usualChange } from '../../shared/trim/change-settings.ts';
import { usualStudy, type StudySettings } from '../../shared/trim/study.ts';
import { readSettings } from '../../server/serving/settings.ts';
import { courseText, wing } from './course-text.ts';
import { sunk } from './moved-foot.ts';
import { filmText, type Places } from './plain-foot.ts';

/**
 * What a change has to pass beside its standard deviation: 2° and 2 mm from Collins and others 2011, as quoted by others; 1 mm
 * for thicknesses and 2 % for shares are judgements.
 */

/** Whether a measure has clearly changed between two films whose places have no error at all. */
function isClear(measure: MeasureName, before: Places, after: Places): boolean {
  const text = courseText([
    { date: '2026-01-01', places: before, film: { header: 'film LF lateral "a.png"' } },
    { date: '2026-02-01', places: after, film: { header: 'film LF lateral "b.png"' } },
  ]).replaceAll(/(?<= @ [^\n]*)(?=\n)/g, ' +- 0');
  const found = courseOf(inspect(text).study)[0]?.views[0]?.measures.find((one) => one.measure.name === measure);
  const [change] = found?.changes ?? [];
  if (!change) throw new Error(`no change of ${measure}`);
  return change.clear;
}

describe('the floor of a clear change', () => {
  const rise = (degrees: number): Places => wing(80 * Math.tan((degrees * Math.PI) / 180));
  it.each([
    ['2° for an angle', 'palmar-angle', rise(5), rise(6.9), rise(7.1)],
    [
      '2 mm for a length',
      'breakover-reach',
      { breakover: [20, 0] },
      { breakover: [21.9, 0] },
      { breakover: [22.1, 0] },
    ],
    ['1 mm for a sole', 'sole-depth.tip', { 'sole.tip': [0, 2] }, { 'sole.tip': [0, 2.9] }, { 'sole.tip': [0, 3.1] }],
    [
      '2 % for a share',
      'grown-out-share',
      { 'wall.turn': [-20, 61.58] },
      { 'wall.turn': [-18.98, 60.28] },
      { 'wall.turn': [-18.9, 60.17] },
    ],
  ] as const)('is %s', (_, measure, before, below, above) => {
    expect([isClear(measure, before, below), isClear(measure, before, above)]).toEqual([false, true]);
  });

  it('is that of its kind for every measure', () => {
    for (const measure of measures) {
      const thick = /^(?:sole-depth|horn-lamellar|lamellar-zone)\./.test(measure.name);
      const wanted = { deg: 2, mm: thick ? 1 : 2, '%': 2, '1': 0.02 }[measure.unit];
      expect([measure.name, floorOf(measure, usualChange)]).toEqual([measure.name, wanted]);
    }
  });
});

describe('the settings of a clear change', () => {
  const text = courseText(
    [0, 1].map((index) => ({
      date: `2026-0${index + 1}-01`,
      places: wing(7 + 2 * index),
      film: { header: `film LF lateral "${index}.png"` },
    })),
  );
  const changed = (settings: StudySettings) =>
    courseOf(inspect(text, settings).study)[0]?.views[0]?.measures.find(
      ({ measure }) => measure.name === 'palmar-angle',
    )?.changes[0];

  it('reach the course by the server: a floor that is set counts', () => {
    const exact = { placing: { spreadMm: 0.05 } };
    // 2 mm more over 80 mm are 1.4°.
    expect(changed(readSettings(exact, usualStudy))?.clear).toBe(false);
    expect(changed(readSettings({ ...exact, change: { angle: 1 } }, usualStudy))?.clear).toBe(true);
  });

  it('leave an alarm where it is, however far they are set', () => {
    const sinks = courseText([
      { date: '2026-01-01', film: { header: 'film LF lateral "a.png"' } },
      { date: '2026-02-01', places: sunk(6), film: { header: 'film LF lateral "b.png"' } },
    ]);
    const most = Object.fromEntries(Object.entries(changeRanges).map(([name, { high }]) => [name, high]));
    const { findings } = inspect(sinks, readSettings({ change: most }, usualStudy));
    expect(findings.find(({ code }) => code === 'course/sinking')?.severity).toBe('error');
  });
});

describe('films repeated the same day', () => {
  /** So many days with two films each, the wing 0.2 mm apart, and one film a month later with the wing 1.7 mm higher. */
  function repeated(days: number) {
    const pair = (rise: number) => filmText(wing(rise), { header: 'film LF lateral "again.png"' });
    const visits = Array.from({ length: days }, (_, day) => ({
      date: `2026-01-${String(day + 1).padStart(2, '0')}`,
      places: wing(7),
      film: { header: `film LF lateral "${day}.png"` },
      more: [pair(7.2)],
    }));
    const later = { date: '2026-02-10', places: wing(8.9), film: { header: 'film LF lateral "later.png"' } };
    const { study } = inspect(courseText([...visits, later]));
    const angle = courseOf(study)[0]?.views[0]?.measures.find(({ measure }) => measure.name === 'palmar-angle');
    return { study, last: angle?.changes.at(-1) };
  }

  it('stand in place of the floors from ten on, and of no floor before', () => {
    const [enough, few] = [repeated(ENOUGH_REPEATS), repeated(ENOUGH_REPEATS - 1)];
    // Two values d apart have the variance d²/2; 0.2 mm over 80 mm are 0.143°.
    expect(errorOfFilms(enough.study).ofFilms('palmar-angle')).toBeCloseTo(0.143 / Math.SQRT2, 2);
    expect(errorOfFilms(few.study).ofFilms('palmar-angle')).toBeNull();
    expect(enough.last?.difference).toBeCloseTo(1.21, 1);
    expect(enough.last?.clear).toBe(true);
    expect(few.last?.clear).toBe(false);
  });
});
