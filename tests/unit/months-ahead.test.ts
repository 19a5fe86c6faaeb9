import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { usualGrowOut } from '../../shared/course/grow-out.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import type { XY } from '../../shared/geometry/vector.ts';
import { dayNumber } from '../../shared/notation/dates.ts';
import { usualGrowth } from '../../shared/reference/growth.ts';
import { handedPage } from '../../shared/report/pages/handed-page.ts';
import { courseSheet, type TrendSheet } from '../../shared/views/course-sheet.ts';
import { grownFoot, growthRate, lacksForGrowth } from '../../shared/views/months-ahead.ts';

const placesOf = (those: Readonly<Record<string, readonly [number, number]>>): ReadonlyMap<string, XY> =>
  new Map(Object.entries(those).map(([name, [x, y]]) => [name, { x, y }]));

/** Hairline at 60, the new wall down to (20, 40), from there the old one out to the toe at 80; the bone's front falls by 45°. */
const flared = {
  'coronet.dorsal': [0, 60],
  'wall.turn': [20, 40],
  'toe.ground': [80, 0],
  breakover: [80, 0],
  'p3.dorsal.upper': [-20, 50],
  'p3.dorsal.lower': [0, 30],
} as const;

describe('the wall as it grows', () => {
  it('slides down along the bone, and what passes the ground has worn off', () => {
    // 10√2 along (1, -1)/√2 moves all by (10, -10): the turn to (30, 30), the toe to (90, -10). The old wall between them
    // falls by 40 over 60 and meets the ground at 30 + 60 · 3/4.
    const grown = grownFoot(placesOf(flared), 10 * Math.SQRT2);
    expect(grown?.places.get('wall.turn')).toEqual({ x: expect.closeTo(30, 9), y: expect.closeTo(30, 9) });
    expect(grown?.places.get('toe.ground')).toEqual({ x: expect.closeTo(75, 9), y: 0 });
    // √(20² + 20²) and what has grown.
    expect(grown?.newWall).toBeCloseTo(30 * Math.SQRT2, 9);
    expect(grown?.toeLength).toBeCloseTo(Math.hypot(75, 60), 9);
    expect(grown?.reachesGround).toBe(false);
    // The bone stays where it is.
    expect(grown?.places.get('p3.dorsal.lower')).toEqual({ x: 0, y: 30 });
  });

  it('is the foot of today where nothing grows, and all new once the turn is at the ground', () => {
    const same = grownFoot(placesOf(flared), 0);
    expect(same?.places.get('toe.ground')).toEqual({ x: expect.closeTo(80, 9), y: 0 });
    expect(same?.newWall).toBeCloseTo(20 * Math.SQRT2, 9);
    // (40, -40) more: the turn is at (60, 0).
    const all = grownFoot(placesOf(flared), 40 * Math.SQRT2);
    expect(all?.reachesGround).toBe(true);
    expect(all?.places.get('toe.ground')?.x).toBeCloseTo(60, 9);
    expect(all?.places.has('wall.turn')).toBe(false);
    expect(grownFoot(placesOf(flared), 39.9 * Math.SQRT2)?.reachesGround).toBe(false);
  });

  it('keeps a toe that is rolled today where it stands', () => {
    // The wall would come down in front of it, at 60 at last.
    const rolled = placesOf({ ...flared, 'toe.ground': [45, 0] });
    for (const growth of [0, 10, 30])
      expect(grownFoot(rolled, growth)?.places.get('toe.ground')?.x).toBeLessThanOrEqual(45);
    // 28.28 and 46.72 are the 75 from the hairline to the toe.
    expect(grownFoot(rolled, 46.6)?.reachesGround).toBe(false);
    expect(grownFoot(rolled, 46.8)).toMatchObject({ reachesGround: true, newWall: expect.closeTo(75, 9) });
  });

  it('reaches the ground on the day that the course reckons, where the wall is straight', () => {
    const straight = placesOf({ ...flared, 'wall.turn': [20, 40], 'toe.ground': [60, 0] });
    const toeLength = 60 * Math.SQRT2;
    const { date } = usualGrowOut(20 * Math.SQRT2, 0, toeLength);
    const day = dayNumber(date ?? '') ?? NaN;
    // 56.57 mm at 0.24 mm a day, by hand: 235.7 days.
    expect(day).toBe(236);
    expect(grownFoot(straight, usualGrowth.middle * day)?.reachesGround).toBe(true);
    expect(grownFoot(straight, usualGrowth.middle * (day - 1))?.reachesGround).toBe(false);
  });

  it('is none where a place is lacking, or lies where no wall grows', () => {
    const { 'wall.turn': _, ...without } = flared;
    expect(lacksForGrowth(placesOf(without))).toEqual(['wall.turn']);
    expect(grownFoot(placesOf(without), 10)).toBeNull();
    expect(grownFoot(placesOf({ ...flared, 'p3.dorsal.lower': [0, 49] }), 10)).toBeNull();
    expect(grownFoot(placesOf({ ...flared, 'wall.turn': [20, 70] }), 10)).toBeNull();
    expect(grownFoot(placesOf({ ...flared, 'toe.ground': [40, 45] }), 10)).toBeNull();
  });
});

describe('how fast', () => {
  const trend = (low: number, slope: number, high: number, level: number): TrendSheet => ({
    n: 4,
    slope,
    low,
    high,
    level,
    p: 0.1,
    middle: { day: 0, value: 20 },
    text: '',
  });

  it('by the foot’s own films where they are enough, in mm a day of the four weeks', () => {
    const rate = growthRate({ source: 'film', trend: trend(5.6, 7, 8.4, 0.95) });
    expect(rate).toEqual({
      slow: expect.closeTo(0.2, 9),
      middle: expect.closeTo(0.25, 9),
      fast: expect.closeTo(0.3, 9),
      by: 'films',
    });
  });

  it('of few films the range takes in what is usual', () => {
    const rate = growthRate({ source: 'film', trend: trend(7.0, 7.28, 7.56, 11 / 12) });
    expect(rate).toEqual({ slow: 0.2, middle: expect.closeTo(0.26, 9), fast: 0.33, by: 'few films' });
  });

  it('by what is usual where they do not tell that it grows, or there are none', () => {
    for (const own of [
      undefined,
      { source: 'film', trend: null },
      { source: 'film', trend: trend(-1, 4, 9, 0.95) },
    ] as const)
      expect(growthRate(own)).toEqual({ ...usualGrowth, by: 'usual' });
    expect(growthRate({ source: 'hand', trend: trend(5.6, 7, 8.4, 0.95) }).by).toBe('usual');
  });
});

describe('on the page for the owner', () => {
  const text = readFileSync(join(import.meta.dirname, '..', '..', 'examples', 'juniper.hoof'), 'utf8');
  const page = (of: string, date = '2026-05-28'): string =>
    handedPage('owner', { inspection: inspect(of), pictures: new Map(), date, names: false });

  it('three, six and nine months are drawn, each with its part of a month and its range', () => {
    const [, part = ''] = /<section class="months">([^]*?)<\/section>/.exec(page(text)) ?? [];
    const captions = [...part.matchAll(/<figcaption>([^<]*)</g)].map(([, words]) => words);
    // 91, 182 and 274 days after 28 May.
    expect(captions.map((words) => words?.split('.')[0])).toEqual([
      'In 3 months, late August 2026',
      'In 6 months, late November 2026',
      'In 9 months, late February 2027',
    ]);
    // 32 mm on 26 May; 93 days at 0.2 and at 0.33 mm a day: 50.6 and 62.7.
    expect(captions[0]).toContain('New wall is down 51 to 63 mm.');
    expect(part).toContain('This is a drawing and no promise');
    const growOut = courseSheet(inspect(text)).feet[0]?.rows.find(({ measure }) => measure === 'grown-out')?.growOut;
    // Reached by mid-December as the course has it: after six months not surely, after nine by all.
    expect(growOut?.date?.slice(0, 7)).toBe('2026-12');
    expect(captions[2]).toMatch(/at the ground/);
  });

  it.each([
    ['the film is too old', text, '2026-07-08', 'The film of 26 May 2026 is 43 days old'],
    ['an alarm is open', text.replace('obel       0', 'obel       0\n  sign fever'), '2026-05-28', 'An alarm is open'],
    [
      'the new wall is not placed',
      text.replaceAll(/^ *wall\.turn .*\n/gm, ''),
      '2026-05-28',
      'no place on the film says where the new wall ends',
    ],
  ])('none is drawn where %s, and the page says why', (_, of, date, why) => {
    const shown = page(of, date);
    expect(shown).not.toContain('class="months"');
    expect(shown).toMatch(/The months to come<\/h2><p class="withheld"[^>]*>They are not drawn/);
    expect(shown).toContain(why);
  });
});
