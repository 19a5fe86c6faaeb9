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
  placingSets,
  setsFor,
  stepAfter,
  stepAt,
  stepBefore,
  stepsFor,
  wantedIn,
} from '../../shared/views/what-to-place.ts';
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
