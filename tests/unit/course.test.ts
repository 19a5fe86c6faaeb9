import { describe, expect, it } from 'vitest';
import { changeBetween } from '../../shared/course/change.ts';
import { courseOf, type FootCourse, type MeasureCourse } from '../../shared/course/course.ts';
import { growOut } from '../../shared/course/grow-out.ts';
import { ENOUGH_REPEATS, repeatSpread } from '../../shared/course/repeat-reads.ts';
import { theilSen } from '../../shared/course/theil-sen.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { dayNumber } from '../../shared/notation/dates.ts';
import { courseText, turn, wing, type CourseVisit } from './course-text.ts';
import { sunk } from './moved-foot.ts';
import { filmText } from './plain-foot.ts';

const footOf = (visits: readonly CourseVisit[], foot = 'LF'): FootCourse => {
  const found = courseOf(inspect(courseText(visits)).study).find((one) => one.foot === foot);
  if (!found) throw new Error(`no course of ${foot}`);
  return found;
};
const measureIn = (course: FootCourse, name: string): MeasureCourse => {
  const found = course.views.flatMap(({ measures }) => measures).find(({ measure }) => measure.name === name);
  if (!found) throw new Error(`no course of ${name}`);
  return found;
};
const angle = (rise: number): number => (Math.atan2(rise, 80) * 180) / Math.PI;

describe('a change between two films', () => {
  it('is clear beyond 1.96 times its own standard deviation, 5 for a 3 and a 4', () => {
    expect(changeBetween({ value: 20, sd: 3 }, { value: 10.21, sd: 4 }, 2)).toEqual({
      difference: expect.closeTo(-9.79, 12),
      sd: 5,
      clear: false,
    });
    expect(changeBetween({ value: 20, sd: 3 }, { value: 10.19, sd: 4 }, 2)).toMatchObject({ sd: 5, clear: true });
  });

  it('is not clear below the floor, however small its error', () => {
    const change = (now: number) => changeBetween({ value: 20, sd: 0.1 }, { value: now, sd: 0.1 }, 2);
    expect([change(21.9), change(22.1), change(18.1), change(17.9)].map(({ clear }) => clear)).toEqual([
      false,
      true,
      false,
      true,
    ]);
  });
});

describe('the course of a foot', () => {
  const visits: CourseVisit[] = [
    {
      date: '2026-01-10',
      places: wing(14),
      more: ['  trim LF\n    heel down 3 mm', '  trim RF\n    heel down 9 mm', '  plan LF\n    heel down 2 mm'],
    },
    { date: '2026-02-07', places: wing(10), film: { more: ['taken 2026-02-05'] } },
    { date: '2026-03-07', places: wing(2), film: { header: 'photo LF lateral "p.png"' } },
    { date: '2026-04-04', places: wing(9.8) },
  ];
  const course = footOf(visits);

  it('has a point a film, on the day it was taken, and none for a photograph', () => {
    const { points } = measureIn(course, 'palmar-angle');
    expect(points.map(({ date }) => date)).toEqual(['2026-01-10', '2026-02-05', '2026-04-04']);
    expect(points.map(({ day }) => day)).toEqual(['2026-01-10', '2026-02-05', '2026-04-04'].map(dayNumber));
    [14, 10, 9.8].forEach((rise, index) => expect(points[index]?.value).toBeCloseTo(angle(rise), 9));
  });

  it('tells a clear change from one within the error', () => {
    const { changes } = measureIn(course, 'palmar-angle');
    expect(changes.map(({ from, to, clear }) => [from.date, to.date, clear])).toEqual([
      ['2026-01-10', '2026-02-05', true],
      ['2026-02-05', '2026-04-04', false],
    ]);
    expect(changes[0]?.difference).toBeCloseTo(angle(10) - angle(14), 9);
  });

  it('marks the trims of this foot, and no plan', () => {
    expect(course.trims.map(({ date, cut }) => [date, cut.size.heelDown])).toEqual([['2026-01-10', 3]]);
  });

  it('is there for a foot that has films only', () => {
    expect(courseOf(inspect(courseText(visits)).study).map(({ foot }) => foot)).toEqual(['LF']);
    expect(courseOf(inspect('hoof 1\ncase "Test"\n').study)).toEqual([]);
  });

  it('has a trend in 28 days from three days on, by paper: slopes −4, −1.8 and −1.5 in 28 days', () => {
    const trimmed = footOf([
      { date: '2026-01-01', places: { 'toe.ground': [28, 0], breakover: [28, 0] } },
      { date: '2026-01-29', places: { 'toe.ground': [28, 0], breakover: [24, 0] } },
      { date: '2026-03-26', places: { 'toe.ground': [28, 0], breakover: [21, 0] } },
    ]);
    const { trend, overall } = measureIn(trimmed, 'breakover-reach');
    expect(trend).toMatchObject({
      n: 3,
      slope: expect.closeTo(-7 / 3, 9),
      low: expect.closeTo(-4, 9),
      high: expect.closeTo(-1.5, 9),
      level: expect.closeTo(2 / 3, 12),
      p: expect.closeTo(1 / 3, 12),
    });
    expect(overall?.difference).toBeCloseTo(-7, 9);
  });

  it('has no clear trend where first and last film lie within the error, and one where they do not', () => {
    const creeping = (step: number) =>
      footOf([0, 1, 2, 3, 4].map((index) => ({ date: `2026-0${index + 1}-05`, places: sunk(step * index) })));
    const certainty = (step: number) => measureIn(creeping(step), 'founder-distance.level').trend?.certainty;
    expect(certainty(0.1)).toBe('none');
    expect(certainty(1.5)).toBe('clear');
  });

  it('begins the trend of the bone in the capsule anew after the vet has seen it', () => {
    const visits = [0, 3, 6, 6, 6, 6].map((mm, index): CourseVisit => ({
      date: `2026-0${index + 1}-05`,
      places: sunk(mm),
      more: index === 2 ? ['  vet seen 2026-03-06 "box rest"'] : [],
    }));
    const course = footOf(visits);
    for (const name of ['founder-distance', 'founder-distance.level', 'coronet-extensor', 'coronet-extensor.level'])
      expect(measureIn(course, name).trend, name).toMatchObject({ n: 4, since: '2026-03-05', certainty: 'none' });
    expect(measureIn(course, 'palmar-angle').trend).toMatchObject({ n: 6, since: null });
    const unseen = footOf(visits.map((visit) => ({ ...visit, more: [] })));
    expect(measureIn(unseen, 'founder-distance.level').trend).toMatchObject({ n: 6, since: null });
  });

  it('draws no line through three films of two days', () => {
    const twice = footOf([
      { date: '2026-01-10', more: [filmText(wing(12), { header: 'film LF lateral "b.png"' })] },
      { date: '2026-02-10' },
    ]);
    const { points, trend, changes, overall } = measureIn(twice, 'palmar-angle');
    expect([points.length, trend, overall]).toEqual([3, null, null]);
    // The second film of a day is no later state of the foot than the first.
    expect(changes.map(({ from, to }) => [from.date, to.date])).toEqual([['2026-01-10', '2026-02-10']]);
  });
});

it('never says a level that so few films cannot reach, even where all values are the same', () => {
  expect(theilSen([0, 30, 60, 90], [5, 5, 5, 5])).toMatchObject({ low: 0, high: 0, level: 11 / 12 });
});

describe('repeat readings', () => {
  /** Films of one visit each, read so often: the wing as high as the list says. */
  const read = (films: readonly (readonly number[])[]): string =>
    courseText(
      films.map((rises, film) => {
        const base = filmText({ 'p3.wing': undefined });
        const reads = rises.map((rise, reader) =>
          [`    read "R${reader}"`, `      p3.tip @ 2000, 840`, `      p3.wing @ 1200, ${840 - 10 * rise}`].join('\n'),
        );
        const bare = base.split('\n').filter((line) => !line.includes('@'));
        return { date: `2026-${String(film + 1).padStart(2, '0')}-10`, film: null, more: [...bare, ...reads] };
      }),
    );
  const studyOf = (text: string) => inspect(text).study;

  it('give their pooled spread from ten repeats on, by paper', () => {
    const films = Array.from({ length: ENOUGH_REPEATS }, (_, film) => (film % 2 === 0 ? [10, 12] : [8, 9]));
    const study = studyOf(read(films));
    // Two readings d apart have the variance d²/2.
    const [wide, slim] = [angle(12) - angle(10), angle(9) - angle(8)];
    const sd = Math.sqrt((wide ** 2 / 2 + slim ** 2 / 2) / 2);
    expect(repeatSpread(study, 'palmar-angle')).toEqual({ sd: expect.closeTo(sd, 9), degreesOfFreedom: 10 });
    const [course] = courseOf(study);
    if (!course) throw new Error('there are ten films');
    for (const { sd: shown } of measureIn(course, 'palmar-angle').points) expect(shown).toBeCloseTo(sd, 9);
  });

  it('say nothing where there are fewer, or where all are the same', () => {
    const few = studyOf(read(Array.from({ length: ENOUGH_REPEATS - 1 }, () => [10, 12])));
    expect(repeatSpread(few, 'palmar-angle')).toBeNull();
    const copied = studyOf(read(Array.from({ length: ENOUGH_REPEATS }, () => [10, 10])));
    expect(repeatSpread(copied, 'palmar-angle')).toBeNull();
    const [course] = courseOf(few);
    const assumed = few.films[0]?.readings[0]?.taking.values.get('palmar-angle')?.sd;
    expect(course && measureIn(course, 'palmar-angle').points[0]?.sd).toBe(assumed);
  });

  it('count three of one film twice', () => {
    const study = studyOf(read(Array.from({ length: 5 }, () => [10, 11, 12])));
    expect(repeatSpread(study, 'palmar-angle')?.degreesOfFreedom).toBe(10);
  });
});

describe('new wall', () => {
  it('reaches the ground by its rate, from three visits on', () => {
    const course = footOf([
      { date: '2026-01-01', places: turn(5) },
      { date: '2026-01-29', places: turn(12) },
      { date: '2026-02-26', places: turn(19) },
    ]);
    const { growOut: out, trend } = measureIn(course, 'grown-out');
    expect(trend?.slope).toBeCloseTo(7, 1);
    // 86.2 mm of toe; 12 mm by the middle of the course, 7 mm more each 28 days.
    const toe = Math.hypot(53, 68);
    const day = (dayNumber('2026-01-29') ?? 0) + ((toe - 12) / 7) * 28;
    expect(out?.toeLength).toBeCloseTo(toe, 9);
    expect(Math.abs((dayNumber(out?.date ?? '') ?? 0) - day)).toBeLessThan(5);
  });

  it('has no date where it does not come down, and an open end where the slowest growth is none', () => {
    const falling = theilSen([0, 28, 56], [12, 8, 6]);
    const unsure = theilSen([0, 28, 56], [5, 4, 9]);
    if (!falling || !unsure) throw new Error('three points have a line');
    expect(growOut(falling, 80, 'films')).toEqual({ by: 'films', toeLength: 80, date: null, early: null, late: null });
    expect(unsure.low).toBeLessThan(0);
    const { date, early, late } = growOut(unsure, 80, 'films');
    expect([date === null, early === null, late]).toEqual([false, false, null]);
    expect((early ?? '') < (date ?? '')).toBe(true);
  });

  it('has its interval the right way round where it is past the toe already', () => {
    const line = theilSen([0, 100, 200], [80, 92, 100]);
    if (!line) throw new Error('three points have a line');
    const { date, early, late } = growOut(line, 85, 'films');
    expect((early ?? '') <= (date ?? '') && (date ?? '') <= (late ?? '')).toBe(true);
  });
});
