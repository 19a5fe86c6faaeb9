import { describe, expect, it } from 'vitest';
import { courseOf } from '../../shared/course/course.ts';
import { errorOfMeasure, type ErrorOnFilm } from '../../shared/course/followed.ts';
import { TrendLine, Mean, type FilmLevel } from '../../shared/course/rise.ts';
import { repeatFilms } from '../../shared/course/repeat-films.ts';
import { repeatSpread } from '../../shared/course/repeat-reads.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { findMeasure } from '../../shared/measures/registry.ts';
import { parse } from '../../shared/notation/parse.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import { Dice } from '../property/dice.ts';
import { filmText, soundFoot } from './plain-foot.ts';

/**
 * Numbers by hand: at 0.1 mm a pixel the bone's length rests on tip and wing, each along the bone, so that its variance is the sum
 * of both of theirs. Where both are followed, their shared variances are taken off twice.
 */
interface Film {
  readonly day: string;
  /** Of tip and wing on this film: `+-` in pixels, and whether they were followed. */
  readonly said: string;
  readonly reader?: string;
  readonly scale?: string;
  readonly header?: string;
}

const placed = (said: string, indent: string): string =>
  [`p3.tip @ 2000, 840${said}`, `p3.wing @ 1200, 770${said}`].map((line) => `${indent}${line}`).join('\n');

function textOf(films: readonly Film[]): string {
  const visits = films.map(({ day, said, reader, scale = 'scale 0.1 mm/px', header = 'film LF lateral' }) =>
    [
      `visit ${day}`,
      `  ${header} "${day}.png"`,
      `    ${scale}`,
      '    ground 0, 1000 .. 2000, 1000',
      ...(reader === undefined ? [placed(said, '    ')] : [`    read "${reader}"`, placed(said, '      ')]),
    ].join('\n'),
  );
  return `hoof 1\n\ncase "Test"\n  animal horse mare\n\n${visits.join('\n\n')}\n`;
}

/** Deviations of the changes from film to film, and of that from the first to the last. */
function deviations(films: readonly Film[]): { steps: number[]; overall: number | undefined } {
  const [foot] = courseOf(inspect(textOf(films)).study);
  const length = foot?.views.flatMap(({ measures }) => measures).find(({ measure }) => measure.name === 'p3-length');
  return { steps: (length?.changes ?? []).map(({ sd }) => sd), overall: length?.overall?.sd };
}

const days = ['2026-01-01', '2026-02-01', '2026-03-01', '2026-04-01'] as const;
const series = (...said: readonly string[]): Film[] =>
  said.map((one, index) => ({ day: days[index] ?? '', said: one }));
/** Of the difference of two lengths, by the variances of both ends and what is shared at each; mm². */
const off = (was: number, now: number, shared: number): number => Math.sqrt(2 * was + 2 * now - 4 * shared);

/** The error of a measure on each film, as its first reading has it. */
function errorsOf(text: string, measured: string): readonly ErrorOnFilm[] {
  const { study } = inspect(text);
  const measure = findMeasure(measured);
  return study.films.map((film) => {
    const [reading] = film.readings;
    const error = measure && reading ? errorOfMeasure(measure, film, reading, study.series) : null;
    if (!error) throw new Error(`${measured} has no error to share`);
    return error;
  });
}

describe('a landmark that was followed from the film before', () => {
  it('shares that film’s error: the rest of the deviation is what following added', () => {
    expect(deviations(series(' +- 5', ' +- 6 followed')).steps[0]).toBeCloseTo(off(0.25, 0.36, 0.25), 9);
    expect(deviations(series(' +- 5', ' +- 6')).steps[0]).toBeCloseTo(off(0.25, 0.36, 0), 9);
  });

  it('shares it over films between, each of them followed, and no further back than the first that is not', () => {
    const { steps, overall } = deviations(series(' +- 5', ' +- 6 followed', ' +- 7 followed'));
    expect(steps[1]).toBeCloseTo(off(0.36, 0.49, 0.36), 9);
    expect(overall).toBeCloseTo(off(0.25, 0.49, 0.25), 9);
    const anew = deviations(series(' +- 5', ' +- 6', ' +- 7 followed'));
    expect(anew.steps[1]).toBeCloseTo(off(0.36, 0.49, 0.36), 9);
    expect(anew.overall).toBeCloseTo(off(0.25, 0.49, 0), 9);
  });

  it('shares all of its own where it claims less than the film before', () => {
    const { steps, overall } = deviations(series(' +- 5', ' +- 3 followed', ' +- 6 followed'));
    expect(steps[0]).toBeCloseTo(off(0.25, 0.09, 0.09), 9);
    expect(overall).toBeCloseTo(off(0.25, 0.36, 0.09), 9);
  });

  it('counts in millimetres, whatever the scale of either film and the side that the toe is on', () => {
    const [first, second] = series(' +- 5', ' +- 7.5 followed') as [Film, Film];
    const text = textOf([first, { ...second, scale: 'scale 0.08 mm/px' }]);
    const mirrored = text.replace('@ 2000, 840 +- 7.5', '@ 400, 840 +- 7.5');
    expect(mirrored).not.toBe(text);
    for (const one of [text, mirrored]) {
      const [foot] = courseOf(inspect(one).study);
      const length = foot?.views[0]?.measures.find(({ measure }) => measure.name === 'p3-length');
      expect(length?.changes[0]?.sd).toBeCloseTo(off(0.25, 0.36, 0.25), 6);
    }
  });

  it('shares nothing on a film without a scale, nor on a photo', () => {
    const [first, second] = series(' +- 5', ' +- 6 followed') as [Film, Film];
    const angles = (films: readonly Film[]): number | undefined =>
      courseOf(inspect(textOf(films)).study)
        .flatMap(({ views, photos }) => [...views, ...photos])
        .flatMap(({ measures }) => measures)
        .find(({ measure }) => measure.name === 'palmar-angle')?.changes[0]?.sd;
    const apart = angles([first, { ...second, said: ' +- 6' }]) ?? 0;
    expect(angles([first, second])).toBeLessThan(0.9 * apart);
    const bare = (scale: string): Film[] => [first, { ...second, scale }];
    expect(angles(bare('magnify 1'))).toBeCloseTo(
      angles([first, { ...second, said: ' +- 6', scale: 'magnify 1' }]) ?? 0,
      12,
    );
    const photos = [first, second].map((one) => ({ ...one, header: 'photo LF lateral' }));
    expect(angles(photos)).toBeCloseTo(apart, 12);
  });

  it('follows the same reader, and where that one has no film before it, whoever is named on it', () => {
    const by = (readers: readonly string[]): number | undefined =>
      deviations(
        series(' +- 5', ' +- 6', ' +- 7 followed').map((film, index) => ({ ...film, reader: readers[index] ?? '' })),
      ).overall;
    expect(by(['Ash', 'Rowan', 'Ash'])).toBeCloseTo(off(0.25, 0.49, 0.25), 9);
    // Of the film before, which is by another, and not of the first.
    expect(by(['Ash', 'Rowan', 'Elm'])).toBeCloseTo(off(0.25, 0.49, 0), 9);
    expect(
      deviations([
        { ...(series(' +- 5')[0] as Film), reader: 'Ash' },
        { day: days[1], said: ' +- 6 followed', reader: 'Elm' },
      ]).steps[0],
    ).toBeCloseTo(off(0.25, 0.36, 0.25), 9);
  });

  it('never follows a film of its own day: both follow the day before', () => {
    const [first, second] = series(' +- 5', ' +- 5.5') as [Film, Film];
    const shared = (said: string): readonly number[] => {
      const text = textOf([first, { ...second, said }, { ...second, said: ' +- 6 followed' }]);
      const [was, one, other] = errorsOf(text, 'p3-length');
      return was && one && other ? [was.with(other), one.with(other)] : [];
    };
    // Of tip and wing together, mm².
    for (const [said, ofOneDay] of [[' +- 5.5', 0] as const, [' +- 5.5 followed', 2 * 0.25] as const]) {
      expect(shared(said)[0]).toBeCloseTo(2 * 0.25, 9);
      expect(shared(said)[1]).toBeCloseTo(ofOneDay, 9);
    }
  });

  it('shares no error of an old line’s way, as each end carries on the mean of both', () => {
    // An angle between two lines goes by the difference of their ends: what both ends have alike is not in it.
    const { 'wall.upper': upper = [0, 0] } = soundFoot;
    const texts = (name: RegExp): string[] =>
      ['+- 5', '+- 6 followed'].map((said, index) => {
        const placed = filmText({ 'wall.upper': [upper[0] + index, upper[1]] }).replaceAll(name, `$1 ${said}`);
        return `visit 2026-0${index + 1}-01\n${placed}`;
      });
    const bothWays = (name: RegExp, measured: string): readonly number[] => {
      const [was, now] = errorsOf(`hoof 1\n\n${texts(name).join('\n\n')}\n`, measured);
      return was && now ? [was.with(now), now.with(was)] : [];
    };
    const lines = /((?:p3\.dorsal|wall)\.(?:upper|lower) @ [^\n]*)/g;
    const [plain, mirrored] = bothWays(lines, 'capsular-rotation');
    expect(plain).toBeCloseTo(0, 12);
    expect(mirrored).toBeCloseTo(0, 12);
    const [forth, back] = bothWays(lines, 'horn-lamellar.middle');
    expect(forth).toBeGreaterThan(0.1);
    expect(back).toBeCloseTo(forth ?? 0, 12);
    // And of points that are followed each by itself an angle shares much: 7 mm across 80 mm, each known to 0.5 mm.
    const [points] = bothWays(/(p3\.(?:tip|wing) @ [^\n]*)/g, 'palmar-angle');
    const degrees = 180 / Math.PI / Math.hypot(80, 7);
    expect(points).toBeCloseTo(2 * 0.25 * degrees ** 2, 6);
  });

  it('is no repeat: neither of films of one day nor of readings of one film', () => {
    const { study } = inspect(
      `hoof 1\n\nvisit 2026-03-04\n${Array.from({ length: 12 }, (_, index) =>
        filmText({ 'p3.tip': [index % 3, 16] }, { header: `film LF lateral "${index}.png"` }),
      ).join('\n\n')}\n`,
    );
    expect(repeatFilms(study, 'palmar-angle')?.degreesOfFreedom).toBe(11);
    const followed = inspect(
      `hoof 1\n\nvisit 2026-03-04\n${Array.from({ length: 12 }, (_, index) =>
        filmText({ 'p3.tip': [index % 3, 16] }, { header: `film LF lateral "${index}.png"` }).replace(
          /(p3\.tip @ [^\n]+)/,
          index === 5 ? '$1 followed' : '$1',
        ),
      ).join('\n\n')}\n`,
    );
    expect(repeatFilms(followed.study, 'palmar-angle')?.degreesOfFreedom).toBe(10);
    const read = (said: string): string =>
      Array.from(
        { length: 12 },
        (_, index) =>
          `    read "${index}"\n      p3.tip @ ${2000 + index}, 840${index === 5 ? said : ''}\n      p3.wing @ 1200, 770`,
      ).join('\n');
    const readings = (said: string) =>
      repeatSpread(
        inspect(
          `hoof 1\n\nvisit 2026-03-04\n  film LF lateral "a.png"\n    ground 0, 1000 .. 2000, 1000\n${read(said)}\n`,
        ).study,
        'palmar-angle',
      );
    expect([readings('')?.degreesOfFreedom, readings(' followed')?.degreesOfFreedom]).toEqual([11, 10]);
  });

  it('leaves the observed deviation where there are repeats enough', () => {
    const readers = Array.from(
      { length: 12 },
      (_, index) => `    read "${index}"\n${placed(` +- ${5 + index}`, '      ')}`,
    );
    const text = textOf(series(' +- 5', ' +- 6 followed'));
    const repeated = `${text}\nvisit 2026-05-01\n  film RF lateral "r.png"\n    scale 0.1 mm/px\n    ground 0, 1000 .. 2000, 1000\n${readers
      .join('\n')
      .replaceAll(
        /p3\.tip @ 2000/g,
        (() => {
          let count = 0;
          return () => `p3.tip @ ${2000 + 3 * (count += 1)}`;
        })(),
      )}\n`;
    const { study } = inspect(repeated);
    const observed = repeatSpread(study, 'p3-length')?.sd ?? 0;
    expect(observed).toBeGreaterThan(0.5);
    const left = courseOf(study).find(({ foot }) => foot === 'LF');
    const length = left?.views[0]?.measures.find(({ measure }) => measure.name === 'p3-length');
    expect(length?.changes[0]?.sd).toBeCloseTo(Math.SQRT2 * observed, 9);
  });
});

describe('the rise of a series whose days share some of their errors', () => {
  /** Covariances of days that were followed one from the other, hand placings at `anew`. */
  const drawn = (seed: number) => {
    const dice = new Dice(seed);
    const count = 3 + Math.floor(dice.between(0, 5));
    const roots = Array.from({ length: count }, () => dice.chance(0.3));
    const own = Array.from({ length: count }, () => dice.between(0.2, 1.5));
    const chain = roots.map((_, index) => roots.slice(0, index + 1).lastIndexOf(true));
    const shared = (i: number, j: number): number =>
      chain[i] === chain[j] ? 0.6 * Math.min(...own.slice(Math.min(i, j), Math.max(i, j) + 1)) : 0;
    const made: FilmLevel[] = [];
    for (const [index, variance] of own.entries())
      made.push({
        day: 100 + 10 * index + Math.floor(dice.between(0, 9)),
        value: dice.between(10, 15),
        variance,
        sharedWith: (earlier) => shared(made.indexOf(earlier), index),
      });
    const covariance = (i: number, j: number): number => (i === j ? (own[i] as number) : shared(i, j));
    return { made, covariance };
  };
  const variance = (weights: readonly number[], covariance: (i: number, j: number) => number): number =>
    weights.reduce((sum, a, i) => sum + weights.reduce((part, b, j) => part + a * b * covariance(i, j), 0), 0);

  it('has the deviation of the whole matrix, of the newest against the mean before it and of the line', () => {
    for (let seed = 1; seed <= 50; seed++) {
      const { made, covariance } = drawn(seed);
      const mean = new Mean();
      const line = new TrendLine();
      for (const level of made.slice(0, -1)) mean.add(level);
      for (const level of made) line.add(level);
      const last = made.length - 1;
      const newest = made.map((_, index) => (index === last ? 1 : -1 / last));
      expect(mean.rise(made[last] as FilmLevel)?.sd).toBeCloseTo(Math.sqrt(variance(newest, covariance)), 9);
      const weights = made.map((one) => 1 / one.variance);
      const total = weights.reduce((sum, one) => sum + one, 0);
      const middle = made.reduce((sum, { day }, index) => sum + day * (weights[index] as number), 0) / total;
      const spread = made.reduce((sum, { day }, index) => sum + (weights[index] as number) * (day - middle) ** 2, 0);
      const span = (made[last] as FilmLevel).day - (made[0] as FilmLevel).day;
      const slope = made.map(({ day }, index) => (span * (weights[index] as number) * (day - middle)) / spread);
      expect(line.rise()?.sd).toBeCloseTo(Math.sqrt(variance(slope, covariance)), 9);
    }
  });
});

describe('what is told of the word', () => {
  const told = (text: string) => inspect(text, usualStudy).findings.filter(({ code }) => code === 'landmark/followed');

  it('that no earlier film has the landmark, with the word taken out as a fix', () => {
    const text = textOf(series(' +- 5 followed', ' +- 6 followed'));
    const found = told(text);
    expect(found.map(({ severity, at }) => [severity, text.slice(at.start, at.end)])).toEqual([
      ['warning', 'followed'],
      ['warning', 'followed'],
    ]);
    expect(found[0]?.message).toMatch(/^No earlier film of this foot and view has «p3\.tip»/);
    const [edit] = found[0]?.fixes[0]?.edits ?? [];
    expect(edit && text.slice(0, edit.start) + edit.text + text.slice(edit.end)).toBe(text.replace(' followed', ''));
    expect(told(textOf(series(' +- 5', ' +- 6 followed')))).toEqual([]);
    // Nor does a film of the same day count, which stands above it.
    const ofOneDay = series(' +- 5', ' +- 6 followed').map((one) => ({ ...one, day: days[0] }));
    expect(told(textOf(ofOneDay)).map(({ severity }) => severity)).toEqual(['warning', 'warning']);
  });

  it('that it claims less than the placing that it follows, beyond the last figure that is written', () => {
    const text = textOf(series(' +- 5', ' +- 4.9 followed'));
    const [found] = told(text);
    expect(found).toMatchObject({ severity: 'hint', value: expect.closeTo(0.49, 9), limit: expect.closeTo(0.5, 9) });
    expect(found?.message).toMatch(/known to 0\.49 mm.+1 January 2026.+0\.50 mm/);
    expect(text.slice(found?.related[0]?.at.start, found?.related[0]?.at.end)).toBe('p3.tip @ 2000, 840 +- 5');
    expect(told(textOf(series(' +- 5', ' +- 4.96 followed')))).toEqual([]);
    expect(told(textOf(series(' +- 5', ' +- 5 followed')))).toEqual([]);
    // The reader's, or what is set for all, where its line says nothing.
    expect(told(textOf(series(' +- 6', ' followed')))).toHaveLength(2);
  });

  it('and not of a line, each end of which shares the mean of both ends’ errors', () => {
    const line = (spread: string) => filmText().replace(/(p3\.dorsal\.(?:upper|lower) @ [^\n]*)/g, `$1 ${spread}`);
    const both = (spread: string) =>
      `hoof 1\n\nvisit 2026-01-01\n${line('+- 5')}\n\nvisit 2026-02-01\n${line(spread)}\n`;
    // The mean of two errors of 5 has one of 5 / √2 = 3.5.
    expect(told(both('+- 3.5 followed'))).toEqual([]);
    expect(told(both('+- 3.4 followed'))).toHaveLength(2);
  });

  it('but of a line that was followed itself, whose ends err alike already', () => {
    const line = (spread: string) => filmText().replace(/(p3\.dorsal\.(?:upper|lower) @ [^\n]*)/g, `$1 ${spread}`);
    const all = (spread: string) =>
      `hoof 1\n\nvisit 2026-01-01\n${line('+- 5')}\n\nvisit 2026-02-01\n${line('+- 3.6 followed')}\n\nvisit 2026-03-01\n${line(spread)}\n`;
    expect(told(all('+- 3.6 followed'))).toEqual([]);
    expect(told(all('+- 2.6 followed'))).toHaveLength(2);
  });

  it('that photos follow nothing', () => {
    const films = series(' +- 5', ' +- 6 followed').map((one) => ({ ...one, header: 'photo LF lateral' }));
    expect(told(textOf(films)).map(({ message }) => message)).toEqual([
      'Photos are not followed: this counts for nothing at «p3.tip».',
      'Photos are not followed: this counts for nothing at «p3.wing».',
    ]);
  });
});

describe('the word in the text', () => {
  const problems = (line: string) =>
    parse(`hoof 1\n\nvisit 2026-03-04\n  film LF lateral "a.png"\n    ${line}\n`).blocks.flatMap(({ block }) => [
      ...block.problems,
    ]);

  it.each(['p3.tip @ 1, 2 followed', 'p3.tip @ 1, 2 +- 0.6 followed', 'p3.tip @ 1,2 ±0.6 followed # seen'])(
    'stands behind place and spread: %s',
    (line) => {
      expect(problems(line)).toEqual([]);
    },
  );

  it.each(['p3.tip @ 1, 2 folowed', 'p3.tip @ 1, 2 +- 0.6 folowed'])('is meant by a near miss: %s', (line) => {
    const [problem, ...more] = problems(line);
    expect(more).toEqual([]);
    expect(problem).toMatchObject({ code: 'notation/unknown-choice', fixes: [{ title: 'Write followed' }] });
  });

  it.each(['p3.tip @ 1, 2 followed +- 0.6', 'p3.tip followed @ 1, 2', 'p3.tip @ 1, 2 followed followed'])(
    'stands nowhere else: %s',
    (line) => {
      expect(problems(line)).toHaveLength(1);
    },
  );
});
