import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { coursedCase } from '../../shared/export/course-data.ts';
import { measuredCase } from '../../shared/export/measured.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { findCode } from '../../shared/findings/catalogue.ts';
import { readLevels } from '../../shared/findings/engine/severity-levels.ts';
import { usualStudy, type StoredScales } from '../../shared/trim/study.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { liveSheet } from '../../shared/views/live-sheet.ts';
import { boneCase } from './bone-cases.ts';
import { caseText, filmText } from './plain-foot.ts';

/**
 * A scale by which the foot would be larger or smaller than any: it counts as none, and a thin sole is not silenced by it. The
 * plain foot has a bone of 80 mm and a bearing length of 138 mm at 0.1 mm/px, 4 mm of sole here.
 */
const thin = { 'sole.tip': [0, 12] } as const;
const thinAt = (scale: string, more: readonly string[] = []): string => caseText(filmText(thin, { scale, more }));
const codes = (text: string): string[] => inspect(text).findings.map(({ code }) => code);
const told = (text: string, scales?: StoredScales) =>
  inspect(text, usualStudy, undefined, scales).findings.find(({ code }) => code === 'scale/foot-size');
const readingOf = (text: string) => inspect(text).study.films[0]?.readings[0];

describe('a scale by which no equid could have the foot', () => {
  it('is not that of the film on which the sole is told', () => {
    expect(inspect(thinAt('scale 0.1 mm/px')).findings).toMatchObject([
      { code: 'range/sole-depth.tip', severity: 'error' },
    ]);
  });

  it.each([
    'scale 0.5 mm/px',
    'scale 1 mm/px',
    'scale 3 mm/px',
    'scale 0.02 mm/px',
    'scale 1000 mm = 0, 0 .. 300, 0',
    'scale 10 mm = 0, 0 .. 1000, 0',
  ])('%s is an error and counts as none', (scale) => {
    const text = thinAt(scale);
    const inspection = inspect(text);
    expect(inspection.findings).toMatchObject([{ code: 'scale/foot-size', severity: 'error' }]);
    const [{ at } = { at: { start: 0, end: 0 } }] = inspection.findings;
    expect(text.slice(at.start, at.end)).toBe(scale);
    const reading = inspection.study.films[0]?.readings[0];
    expect(reading?.taking.scale).toBeNull();
    expect(reading?.taking.values.has('sole-depth.tip')).toBe(false);
    expect(reading?.taking.values.has('palmar-angle')).toBe(true);
    expect(measuredCase('x.hoof', inspection).visits[0]?.films[0]?.scale).toBeNull();
  });

  it('is told of every film of an example whose markers are ten times too long, with the mend', () => {
    const juniper = readFileSync(new URL('../../examples/juniper.hoof', import.meta.url), 'utf8');
    const { findings } = inspect(juniper.replaceAll(/scale +100 mm/g, 'scale 1000 mm'));
    const sizes = findings.filter(({ code }) => code === 'scale/foot-size');
    expect(sizes).toHaveLength(4);
    expect(sizes.map(({ fixes }) => fixes.map(({ title }) => title))).toEqual(
      Array.from({ length: 4 }, () => ['Write 100 mm']),
    );
    expect(codes(juniper)).not.toContain('scale/foot-size');
  });

  it.each([
    ['scale 1 mm/px', 'Write 0.1 mm/px', 'scale 0.1 mm/px'],
    ['scale 0.01 mm/px', 'Write 0.1 mm/px', 'scale 0.1 mm/px'],
    ['scale 10 mm = 0, 0 .. 1000, 0', 'Write 10 cm', 'scale 10 cm = 0, 0 .. 1000, 0'],
    ['scale 1000 mm = 0, 0 .. 1000, 0', 'Write 100 mm', 'scale 100 mm = 0, 0 .. 1000, 0'],
  ])('%s has the fix %s', (scale, title, mended) => {
    const text = thinAt(scale);
    const [fix] = told(text)?.fixes ?? [];
    expect(fix?.title).toBe(title);
    const [edit] = fix?.edits ?? [];
    expect(edit && text.slice(0, edit.start) + edit.text + text.slice(edit.end)).toBe(thinAt(mended));
  });

  it('has no fix where no slip of writing leads to a foot of a usual size', () => {
    expect(told(thinAt('scale 0.5 mm/px'))?.fixes).toEqual([]);
    expect(told(thinAt('scale 1000 mm = 0, 0 .. 300, 0'))?.fixes).toEqual([]);
  });

  it('can be neither accepted nor switched off', () => {
    expect(findCode('scale/foot-size')?.never).toContain('Mend the scale');
    const text = thinAt('scale 0.5 mm/px', ['accept scale/foot-size because "x"']);
    expect(codes(text)).toEqual(expect.arrayContaining(['accept/never', 'scale/foot-size']));
    const { levels } = readLevels([
      ['scale/*', 'off'],
      ['scale/foot-size', 'off'],
    ]);
    const { findings } = inspect(thinAt('scale 0.5 mm/px'), { ...usualStudy, levels });
    expect(findings).toMatchObject([{ code: 'scale/foot-size', severity: 'info' }]);
  });

  it('is no ground for a plan, nor for a trend', () => {
    const text = thinAt('scale 0.5 mm/px');
    const plan = inspect(`${text}\n  plan LF\n    heel down 2 mm\n`);
    expect(plan.study.cuts[0]?.prediction).toBeNull();
    expect(plan.findings.find(({ code }) => code === 'trim/not-predicted')?.message).toContain('a scale that is right');
    const others = boneCase([{}, {}, { scale: 'scale 0.5 mm/px' }, {}]);
    expect(codes(others)).toContain('scale/foot-size');
    const without = others.replace('scale 0.5 mm/px', '#cale 0.5 mm/px');
    expect(coursedCase('x.hoof', inspect(others), null)).toEqual(coursedCase('x.hoof', inspect(without), null));
  });

  it('gives no scale to the films that take theirs from the bones', () => {
    expect(codes(boneCase([{ scale: 'scale 0.5 mm/px' }, { scale: 'scale bone' }]))).toEqual(
      expect.arrayContaining(['scale/foot-size', 'frame/no-scale']),
    );
  });

  it('is told too where it comes from the picture’s own file, and not for what it may be off by', () => {
    const stored = { mmPerPx: 0.9, words: 'The scale is that of the detector.', overstates: [5, 25] } as const;
    const { findings } = inspect(thinAt('scale dicom'), usualStudy, undefined, () => stored);
    expect(findings.map(({ code }) => code)).toEqual(['scale/foot-size']);
    expect(findings[0]?.message).toContain('The scale is that of the detector.');
  });

  it('has its magnification taken off first', () => {
    expect(codes(thinAt('scale 0.17 mm/px'))).toEqual(['scale/foot-size']);
    expect(codes(thinAt('scale 0.17 mm/px', ['magnify 1.7']))).toEqual(['range/sole-depth.tip']);
  });
});

describe('what tells the size of a foot', () => {
  const places = (scale: string, view: string, lines: readonly string[]): string =>
    caseText([`  film LF ${view} "x.png"`, ...[scale, ...lines].map((line) => `    ${line}`)].join('\n'));

  it.each([
    ['the length of the pedal bone', 'lateral', ['p3.tip @ 0, 0', 'p3.wing @ 800, 0']],
    ['the bearing length', 'lateral', ['p3.tip @ 0, 0', 'toe.ground @ 0, 900', 'heel.ground @ 1400, 900']],
    ['the distance between', 'lateral', ['p3.tip @ 0, 0', 'toe.ground @ 0, 900', 'coronet.heel @ 1400, 900']],
    ['the width of the pedal bone', 'front', ['p3.medial @ 0, 0', 'p3.lateral @ 800, 0']],
    ['the width of the foot', 'front', ['wall.medial @ 0, 0', 'wall.lateral @ 1300, 0']],
    ['the length of the sole', 'solar', ['toe @ 0, 0', 'heel.lateral @ 1300, 0']],
  ])('%s', (words, view, lines) => {
    expect(told(places('scale 0.1 mm/px', view, lines))).toBeUndefined();
    expect(told(places('scale 1 mm/px', view, lines))?.message).toContain(words);
    const small = told(places('scale 0.005 mm/px', view, lines));
    // Of all landmarks only a few millimetres are too few.
    if (words === 'the distance between') expect(small).toBeUndefined();
    else expect(small?.message).toContain(words);
  });

  it('is not two landmarks alone that lie close to each other, nor two at one place', () => {
    expect(told(places('scale 0.1 mm/px', 'lateral', ['p3.tip @ 0, 0', 'sole.tip @ 0, 20']))).toBeUndefined();
    expect(told(places('scale 0.1 mm/px', 'lateral', ['p3.tip @ 0, 0', 'p3.wing @ 0, 0']))).toBeUndefined();
  });

  it('is each reader’s own placing, and told once a film', () => {
    const text = `${caseText(`${filmText()}\n    read "A"\n      p3.tip @ 2000, 840\n      p3.wing @ 4000, 840`)}`;
    expect(told(text)?.message).toContain('(reader A)');
    expect(readingOf(text)?.taking.scale).toBe(0.1);
    const both = text.replace('0.1 mm/px', '1 mm/px');
    expect(codes(both).filter((code) => code === 'scale/foot-size')).toHaveLength(1);
  });
});

describe('the page, while a place is moved', () => {
  const [sheet] = filmSheets(inspect(thinAt('scale 0.1 mm/px')));
  if (!sheet) throw new Error('a film has its sheet');

  it('has no scale while the foot would be impossible, and has it again', () => {
    const at = (x: number) => [{ kind: 'landmark', name: 'p3.wing', at: { x, y: 770 } } as const];
    expect(liveSheet(sheet, at(-2000)).scale).toBeNull();
    const gone = liveSheet(sheet, at(-2000));
    expect(liveSheet(gone, at(1200)).scale).toBe(0.1);
  });
});
