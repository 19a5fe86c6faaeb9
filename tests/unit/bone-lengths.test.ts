import { randomNormal } from 'd3-random';
import { describe, expect, it } from 'vitest';
import { bonesOf } from '../../shared/course/bones-of.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { parse } from '../../shared/notation/parse.ts';
import { assemble } from '../../shared/record/assemble.ts';
import { studyCase } from '../../shared/trim/study.ts';
import { courseSheet } from '../../shared/views/course-sheet.ts';
import { boneCase, type BoneFilm } from './bone-cases.ts';
import { randomFrom } from '../property/random-edits.ts';
import { courseText, turn, type CourseVisit } from './course-text.ts';
import { sunk } from './moved-foot.ts';

const codesOf = (text: string, code: string) => inspect(text).findings.filter((finding) => finding.code === code);
const accusations = (text: string) => codesOf(text, 'scale/bone-length');

/** mm, one standard deviation: the usual error of placing. */
const PLACING = 0.5;

describe('the size of the bones', () => {
  // The share of series is what the rule promises: at most 1 of 20 correct ones may be accused.
  it('accuses few correct series of 2 to 12 films, and most in which a marker length is typed 8 % wrong', () => {
    const random = randomFrom(3);
    const error = randomNormal.source(() => random(2 ** 30) / 2 ** 30)(0, PLACING);
    const SERIES = 120;
    const lengths = [2, 3, 5, 8, 12];
    const rates = lengths.map((length) => {
      let correct = 0;
      let wrong = 0;
      for (let series = 0; series < SERIES; series++) {
        const films = Array.from({ length }, (): BoneFilm => ({ error }));
        const of = (those: readonly BoneFilm[]) =>
          bonesOf('LF', studyCase(assemble(parse(boneCase(those))).record)).filter(({ accused }) => accused);
        if (of(films).length > 0) correct += 1;
        const typed = of([...films.slice(1), { error, size: 1.08 }]);
        if (typed.some(({ film }) => film.visit.is.date?.endsWith(`-${String(length).padStart(2, '0')}-04`)))
          wrong += 1;
      }
      return { length, correct: correct / SERIES, wrong: wrong / SERIES };
    });
    for (const { length, correct, wrong } of rates) {
      expect(correct, `${length} correct films`).toBeLessThanOrEqual(0.05);
      expect(wrong, `one of ${length} films wrong`).toBeGreaterThan(0.85);
    }
  }, 600_000);

  it('tells of a marker length that is typed 8 % wrong, at its scale line, and of no other film', () => {
    const text = boneCase([{}, {}, {}]).replace(/scale 100 mm(?![^]*scale 100 mm)/, 'scale 108 mm');
    const [finding, ...others] = accusations(text);
    expect(others).toEqual([]);
    expect(finding).toMatchObject({ severity: 'warning', value: expect.closeTo(8, 6) as number });
    expect(finding?.message).toMatch(/^The bones are 8 % larger here than on the other films of this foot/);
    expect(finding?.message).toContain('no length of this film can be compared');
    expect(text.slice(finding?.at.start, finding?.at.end)).toMatch(/^scale 108 mm/);
  });

  it('says of two films that one of them is off', () => {
    const [finding, ...others] = accusations(boneCase([{ scale: 'scale 0.1 mm/px' }, { scale: 'scale 0.09 mm/px' }]));
    expect(others).toEqual([]);
    expect(finding?.message).toMatch(/^The bones are 10 % smaller here than on the film of 4 January 2024/);
    expect(finding?.message).toContain('one of these two films is off');
    expect(finding?.related).toHaveLength(1);
  });

  it('is not judged before 36 months by the film’s own day, and is where no birth date is given', () => {
    const films = [{}, {}, { scale: 'scale 0.11 mm/px' }];
    // The third film is of 4 March 2024.
    expect(accusations(boneCase(films, 'foaled 2021-01-03'))).toHaveLength(1);
    expect(accusations(boneCase(films, 'foaled 2021-03-05'))).toEqual([]);
    expect(accusations(boneCase(films))).toHaveLength(1);
  });

  it('is of one foot alone, and of what has a scale of its own', () => {
    expect(accusations(boneCase([{}, { foot: 'RF', scale: 'scale 0.11 mm/px' }]))).toEqual([]);
    expect(accusations(boneCase([{}, {}, { scale: null, size: 1.2 }]))).toEqual([]);
  });

  it('tells of a tip alone that is short, and does not accuse the scale', () => {
    const short: BoneFilm = { places: { 'p3.tip': [-8, 16.7] } };
    const [finding, ...others] = codesOf(boneCase([{}, {}, short]), 'course/tip-shorter');
    expect(others).toEqual([]);
    expect(finding).toMatchObject({ severity: 'info', measure: 'p3-length' });
    expect(finding?.message).toContain('ask the vet');
    expect(accusations(boneCase([{}, {}, short]))).toEqual([]);
    expect(codesOf(boneCase([{}, {}, {}]), 'course/tip-shorter')).toEqual([]);
    expect(codesOf(boneCase([{}, {}, { size: 0.9 }]), 'course/tip-shorter')).toEqual([]);
  });
});

describe('what is compared with a film whose scale is in doubt', () => {
  const visits = [0, 0, 6].map((mm, index) => ({
    date: `2026-0${index + 1}-01`,
    places: sunk(mm),
    film: { header: `film LF lateral "f${index}.png"`, scale: index === 2 ? 'scale 0.11 mm/px' : 'scale 0.1 mm/px' },
  }));
  const inspection = inspect(courseText(visits));

  it('still tells of sinking, after the sentence on the scale', () => {
    const [finding] = inspection.findings.filter(({ code }) => code === 'course/sinking');
    expect(finding?.message).toMatch(
      /^Left fore: the scale of the film of 1 March 2026 is in doubt, as its bones are \d+ % larger than on the others\. The bone lies .* Call the vet today\./,
    );
  });

  it('is left out of the trends of lengths and of the date of the new wall, and in those of angles', () => {
    const grown = [5, 12, 19, 26].map((mm, index): CourseVisit => ({
      date: `2026-0${index + 1}-01`,
      places: turn(mm),
      film: { header: `film LF lateral "f${index}.png"`, scale: index === 3 ? 'scale 0.13 mm/px' : 'scale 0.1 mm/px' },
    }));
    const rows = (visits: readonly CourseVisit[]) => courseSheet(inspect(courseText(visits))).feet[0]?.rows ?? [];
    const row = (visits: readonly CourseVisit[], name: string) => rows(visits).find(({ measure }) => measure === name);
    const sound = grown.slice(0, 3);
    for (const name of ['grown-out', 'toe-length', 'founder-distance.level', 'sole-depth.tip'])
      expect(row(grown, name)?.trend, name).toEqual(row(sound, name)?.trend);
    expect(row(grown, 'grown-out')?.growOut).toEqual(row(sound, 'grown-out')?.growOut);
    expect(row(grown, 'palmar-angle')?.trend?.n).toBe(4);
    expect(row(grown, 'toe-length')?.points).toHaveLength(4);
  });

  it('says so in the rows of lengths, calls none of them clear, and leaves angles alone', () => {
    const [foot] = courseSheet(inspection).feet;
    expect(foot?.doubt).toMatch(
      /^The scale of the film of 1 March 2026 is in doubt.*no length of it can be compared\.$/,
    );
    const row = (name: string) => foot?.rows.find(({ measure }) => measure === name)?.changes;
    expect(row('founder-distance')?.map(({ doubted, clear }) => [doubted, clear])).toEqual([
      [false, false],
      [true, false],
    ]);
    expect(row('palmar-angle')?.every(({ doubted }) => !doubted)).toBe(true);
  });
});
