import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { findMeasure } from '../../shared/measures/registry.ts';
import { landmarks, landmarksOf, views } from '../../shared/notation/landmarks.ts';
import { filmSheets, type FilmSheet } from '../../shared/views/film-sheet.ts';
import { jointCentre } from '../../shared/geometry/joint-centre.ts';
import { nameOfLandmark } from '../../shared/views/landmark-names.ts';
import { liveSheet } from '../../shared/views/live-sheet.ts';
import { spotPlate } from '../../shared/views/spot-plate.ts';
import {
  everyStep,
  isPlaced,
  measuresWanted,
  nextSet,
  placingSets,
  setsFor,
  stepAfter,
  stepAt,
  stepBefore,
  stepsFor,
  wantedIn,
} from '../../shared/views/what-to-place.ts';
import { toeSide } from '../../shared/views/toe-side.ts';
import { whereToLook } from '../../shared/views/where-to-look.ts';
import { atEnd } from '../../shared/findings/limits/plan-place.ts';
import { needed, planAt } from '../../shared/findings/limits/planning.ts';
import { readFileSync } from 'node:fs';

const bare = `hoof 1

visit 2026-03-04
  film LF lateral "a.png"
    p3.tip            @    1,    2
`;
const [bareSheet] = filmSheets(inspect(bare));
if (!bareSheet) throw new Error('no sheet');
const sheet: FilmSheet = bareSheet;
const keys = (steps: readonly { key: string }[]): string[] => steps.map(({ key }) => key);

describe('what is left to place', () => {
  it('follows from what is wanted, in the order in which one goes round the foot', () => {
    expect(keys(stepsFor(sheet, ['rotation and sole']))).toEqual([
      'scale',
      'ground',
      'p3.tip',
      'p3.wing',
      'p3.dorsal.upper',
      'p3.dorsal.lower',
      'coffin.centre',
      'pastern.centre',
      'wall.upper',
      'wall.lower',
      'sole.tip',
      'sole.wing',
    ]);
    expect(keys(stepsFor(sheet, ['palmar-angle']))).toEqual(['ground', 'p3.tip', 'p3.wing']);
  });

  it('asks for what tells the toe from the heel too, by what the picture can show', () => {
    expect(keys(stepsFor(sheet, ['wall-angle']))).toEqual(['ground', 'p3.tip', 'p3.wing', 'wall.upper', 'wall.lower']);
    expect(keys(stepsFor({ view: 'lateral', kind: 'photo' }, ['wall-angle']))).toEqual([
      'toe.ground',
      'heel.ground',
      'ground',
      'wall.upper',
      'wall.lower',
    ]);
    expect(keys(stepsFor({ view: 'solar', kind: 'photo' }, ['frog-width']))).toEqual([
      'toe',
      'heel.medial',
      'heel.lateral',
      'scale',
      'frog.medial',
      'frog.lateral',
    ]);
    // No photo shows a bone, a joint or the inside of the wall.
    expect(keys(stepsFor({ view: 'lateral', kind: 'photo' }, ['everything lateral']))).toEqual([
      'toe.ground',
      'heel.ground',
      'scale',
      'ground',
      'breakover',
      'heel.upper',
      'wall.upper',
      'wall.lower',
      'coronet.dorsal',
      'coronet.heel',
    ]);
  });

  it('is everything that most feet have where everything is wanted', () => {
    for (const { name, view, measures, kinds } of placingSets) {
      if (measures !== 'all') {
        for (const measure of measures) expect(findMeasure(measure)?.view).toBe(view);
        continue;
      }
      const [kind = 'film'] = kinds;
      expect(keys(stepsFor({ view, kind }, [name])).filter((key) => key !== 'scale' && key !== 'ground')).toEqual(
        landmarksOf(view)
          .map(({ word }) => word)
          .filter((word) => word !== 'wall.turn' && word !== 'p3.wing.other'),
      );
    }
    expect(keys(stepsFor(sheet, ['grown-out']))).toContain('wall.turn');
  });

  it('falls back on the usual set where nothing that is wanted means anything here', () => {
    expect(wantedIn(sheet, [])).toEqual(['rotation and sole']);
    expect(wantedIn({ view: 'solar', kind: 'photo' }, ['rotation and sole', 'palmar-angle'])).toEqual([
      'everything from below',
    ]);
    for (const view of views)
      for (const kind of ['film', 'photo'] as const) expect(setsFor({ view, kind }).length).toBeGreaterThan(0);
    expect(measuresWanted('lateral', ['palmar-angle', 'nonsense', 'rotation and sole'])).toContain('palmar-angle');
    // Of a shoe is asked by name alone: a bare foot would be asked for ever.
    const everything = measuresWanted('lateral', ['everything lateral']);
    expect(everything.filter((name) => /shoe|bearing$/.test(name))).toEqual([]);
    expect(measuresWanted('lateral', ['palmar-angle.bearing'])).toEqual(['palmar-angle.bearing']);
  });

  it('gives every measure that was wanted once all of it is placed', () => {
    const text = readFileSync(new URL('../../examples/juniper.hoof', import.meta.url), 'utf8');
    const inspection = inspect(text);
    const [full] = filmSheets(inspection);
    if (!full) throw new Error('no sheet');
    for (const { name, measures } of setsFor({ view: 'lateral', kind: 'film' })) {
      if (measures === 'all') continue;
      const wanted = new Set(keys(stepsFor(full, [name])));
      const live = liveSheet(
        full,
        Object.keys(full.placed)
          .filter((word) => !wanted.has(word))
          .map((word) => ({ kind: 'landmark', name: word, at: null })),
      );
      expect(live.rows.map(({ measure }) => measure)).toEqual(expect.arrayContaining([...measures]));
    }
  });

  it('walks on to the next that is open, round to the first, and back one by one', () => {
    const steps = stepsFor(sheet, ['palmar-angle']);
    expect(stepAt(steps, sheet, null, [])?.key).toBe('ground');
    expect(stepAt(steps, sheet, 'p3.tip', [])?.key).toBe('p3.tip');
    expect(stepAt(steps, sheet, null, ['ground'])?.key).toBe('p3.wing');
    expect(stepAt(steps, sheet, null, ['ground', 'p3.wing'])).toBeNull();
    expect(stepAfter(steps, sheet, 'ground', [])?.key).toBe('p3.wing');
    expect(stepAfter(steps, sheet, 'p3.wing', [])?.key).toBe('ground');
    expect(stepAfter(steps, sheet, 'p3.wing', ['ground'])).toBeNull();
    expect(stepBefore(steps, 'p3.wing')?.key).toBe('p3.tip');
    expect(stepBefore(steps, 'ground')).toBeNull();
    expect(stepBefore(steps, null)?.key).toBe('p3.wing');
    expect(steps.map((step) => isPlaced(step, sheet))).toEqual([false, true, false]);
  });

  it('has words and a plate with the spot on it for everything that can be placed', () => {
    for (const view of views)
      for (const { key, name, advice } of everyStep({ view })) {
        expect(name).not.toBe(key);
        expect(advice.length).toBeGreaterThan(10);
        const { whole, near } = spotPlate(view, key, false);
        if (view === 'lateral' || key !== 'scale') for (const svg of [whole, near]) expect(svg).toContain('spot-ring');
      }
    for (const { word } of landmarks) expect(nameOfLandmark(word)).not.toBe(word);
    expect(spotPlate('lateral', 'p3.tip', true).whole).not.toBe(spotPlate('lateral', 'p3.tip', false).whole);
  });
});

describe('what a plan needs', () => {
  it('is placed by its set, and by nothing more than the ground and the scale beside', () => {
    expect(keys(stepsFor(sheet, ['what a plan needs'])).toSorted()).toEqual([...needed, 'scale', 'ground'].toSorted());
  });

  it('is offered as long as a lateral film lacks some of it, and never twice', () => {
    expect(nextSet(sheet, ['rotation and sole'])).toMatchObject({ name: 'what a plan needs', open: 8 });
    expect(nextSet(sheet, ['what a plan needs'])).toBeNull();
    const text = readFileSync(new URL('../../examples/juniper.hoof', import.meta.url), 'utf8');
    const inspection = inspect(text);
    const [full] = filmSheets(inspection);
    if (!full) throw new Error('no sheet');
    expect(nextSet(full, ['rotation and sole'])).toBeNull();
    const solar = filmSheets(inspect('hoof 1\n\nvisit 2026-03-04\n  photo LF solar "a.png"\n    toe @ 1, 2\n'))[0];
    if (!solar) throw new Error('no sheet');
    expect(nextSet(solar, [])).toBeNull();
  });

  it('leaves a plan nothing to refuse for want of a landmark', () => {
    const text = readFileSync(new URL('../../examples/juniper.hoof', import.meta.url), 'utf8');
    const wanted = keys(stepsFor(sheet, ['what a plan needs']));
    const lines = text.split('\n').filter((line) => !/@/.test(line) || wanted.some((key) => line.includes(` ${key} `)));
    const { study } = inspect(lines.join('\n'));
    const place = atEnd('LF', study);
    if (!place) throw new Error('no place');
    expect(planAt(place, { goal: { kind: 'sole-plane' } }, study).lacking).toBeNull();
    const without = lines.filter((line) => !line.includes(' toe.ground '));
    const poorer = inspect(without.join('\n')).study;
    expect(planAt(place, { goal: { kind: 'sole-plane' } }, poorer).lacking?.landmarks).toEqual(['toe.ground']);
  });
});

describe('where a landmark is to be looked for', () => {
  it('is where the typical foot has it, turned, mirrored and sized by what is placed', () => {
    const foot = { view: 'lateral', ground: null, scale: null } as const;
    const tip = { x: 400, y: 900, line: 1 };
    // By the table the wing lies 82 mm behind the tip and 7 mm above it; here a millimetre is 5 px, the toe to the left.
    const wing = { x: 400 + 410, y: 900 - 35, line: 2 };
    const there = whereToLook({ ...foot, placed: { 'p3.tip': tip, 'p3.wing': wing } }, 'p3.extensor', null);
    // 32 mm behind the tip and 42 mm above it.
    expect(there?.x).toBeCloseTo(400 + 160, 6);
    expect(there?.y).toBeCloseTo(900 - 210, 6);
    const one = { ...foot, placed: { 'p3.tip': tip } };
    expect(whereToLook(one, 'p3.wing', 'left')).toBeNull();
    expect(whereToLook({ ...one, scale: 0.2 }, 'p3.wing', null)).toBeNull();
    const mirrored = whereToLook({ ...one, scale: 0.2 }, 'p3.wing', 'right');
    expect(mirrored?.x).toBeCloseTo(400 - 410, 6);
    expect(mirrored?.y).toBeCloseTo(900 - 35, 6);
    expect(whereToLook({ ...one, scale: 0.2 }, 'scale', 'right')).toBeNull();
    // On a ground that falls by one in ten to the right the foot lies turned by as much.
    const fall = Math.atan(0.1);
    const turned = whereToLook(
      {
        ...one,
        scale: 0.2,
        ground: [
          { x: 0, y: 1000 },
          { x: 1000, y: 1100 },
        ],
      },
      'p3.wing',
      'left',
    );
    expect(turned?.x).toBeCloseTo(400 + 410 * Math.cos(fall) + 35 * Math.sin(fall), 6);
    expect(turned?.y).toBeCloseTo(900 - 35 * Math.cos(fall) + 410 * Math.sin(fall), 6);
  });

  it('knows the toe’s side by any pair that tells it', () => {
    const p = (x: number) => ({ x, y: 0 });
    expect(toeSide({})).toBeNull();
    expect(toeSide({ 'p3.tip': p(3) })).toBeNull();
    expect(toeSide({ 'p3.tip': p(3), 'p3.wing': p(1) })).toBe('right');
    expect(toeSide({ 'toe.ground': p(3), 'heel.ground': p(9) })).toBe('left');
    expect(toeSide({ 'wall.upper': p(3), 'wall.lower': p(1) })).toBe('left');
  });
});

describe('the centre of a joint by three points on its edge', () => {
  it('is that of the circle through them', () => {
    const on = (degrees: number) => ({
      x: 700 + 90 * Math.cos((degrees * Math.PI) / 180),
      y: 735 + 90 * Math.sin((degrees * Math.PI) / 180),
    });
    const found = jointCentre([on(20), on(100), on(170)]);
    if (!('centre' in found)) throw new Error(found.says);
    expect(found.centre.x).toBeCloseTo(700, 6);
    expect(found.centre.y).toBeCloseTo(735, 6);
    expect(found.radius).toBeCloseTo(90, 6);
  });

  it('says what is wanted as long as there is none', () => {
    const at = (x: number, y: number) => ({ x, y });
    const says = (...points: { x: number; y: number }[]): string => {
      const found = jointCentre(points);
      return 'says' in found ? found.says : 'a centre';
    };
    expect(says()).toMatch(/^Three points/);
    expect(says(at(1, 1))).toMatch(/^Two more/);
    expect(says(at(1, 1), at(9, 9))).toMatch(/^One more/);
    expect(says(at(1, 1), at(5, 5), at(9, 9))).toMatch(/nearly on a line/);
    expect(says(at(0, 0), at(100, 1), at(200, 0))).toMatch(/nearly on a line/);
    expect(says(at(3, 3), at(3, 3), at(9, 2))).toMatch(/nearly on a line/);
  });
});
