import { describe, expect, it } from 'vitest';
import type { FootInput, PlacedLandmark } from '../../shared/geometry/foot-input.ts';
import { lateralLandmark, type LandmarkName } from '../../shared/notation/landmarks.ts';
import { pyramidOf } from '../../shared/picture/seek/pyramid.ts';
import { capsulePoints } from '../../shared/proposals/capsule.ts';
import { groundCorner } from '../../shared/proposals/corner.ts';
import { filmPair, type FilmPair } from '../../shared/proposals/film-pair.ts';
import { lines } from '../../shared/proposals/lines.ts';
import { pedalBone } from '../../shared/proposals/pedal-bone.ts';
import type { Proposal } from '../../shared/proposals/proposal.ts';
import { drawnSeries, trimmed } from '../bench/drawn-series.ts';
import { begunWith, placedFilm } from '../bench/proposed-films.ts';
import { Dice } from '../property/dice.ts';

// A made-up picture, 0.25 mm a pixel: below row 600 the ground (grey 40), before a straight wall the foot (grey 120), else air (grey 10).
// All edges are ramps of four pixels, so that their places are known to a fraction of a pixel.
const MM = 0.25;
const [width, height] = [900, 700];
const GROUND = 600;

interface Wall {
  /** Where the wall meets the ground, px along row 600, and how many px it goes back for one px up. */
  readonly foot: number;
  readonly back: number;
}

const ramp = (d: number): number => Math.max(0, Math.min(1, d / 4 + 0.5));

function film({ foot, back }: Wall, wallTold = true): { foot: FootInput; picture: ReturnType<typeof pyramidOf> } {
  const steep = Math.hypot(1, back);
  const dice = new Dice(Math.round(1000 * back) + foot);
  const greys = Float32Array.from({ length: width * height }, (_, i) => {
    const [x, y] = [i % width, Math.floor(i / width)];
    const below = ramp(y - GROUND);
    const inside = wallTold ? ramp((x - foot + back * (GROUND - y)) / steep) : 0;
    // A little grain, as what is quite even agrees with nothing.
    return 10 + 110 * inside * (1 - below) + 30 * below + dice.between(-1, 1);
  });
  const at = (name: LandmarkName, x: number, y: number) => ({ name, x, y, spread: null });
  return {
    picture: pyramidOf({ width, height, greys }),
    foot: {
      view: 'lateral',
      landmarks: [at('p3.tip', 700, 500), at('p3.wing', 400, 470)],
      ground: [
        { x: 60, y: GROUND },
        { x: 840, y: GROUND },
      ],
      bearing: null,
      isShod: false,
      scale: { kind: 'pixel', mmPerPx: MM },
      magnify: 1,
      spread: { mm: 0.5, px: 2 },
    },
  };
}

function pairOf(before: Wall, now: Wall, told = true): FilmPair {
  const pair = filmPair(film(before), film(now, told));
  if (typeof pair === 'string') throw new Error(pair);
  return pair;
}

const upperOf = ({ foot, back }: Wall): { x: number; y: number } => ({ x: foot - back * 110, y: GROUND - 110 });

describe('where the wall meets the ground', () => {
  const old: Wall = { foot: 250, back: 0.9 };

  // By hand: the new wall is drawn to meet row 600 there.
  it.each([
    ['as it was', { foot: 250, back: 0.9 }],
    ['further forward', { foot: 262, back: 0.9 }],
    ['steeper', { foot: 255, back: 0.84 }],
  ])('is told where the wall stands %s', (_, now) => {
    const corner = groundCorner(pairOf(old, now), upperOf(old), { x: old.foot, y: GROUND });
    if (!corner) throw new Error('not told');
    expect(Math.hypot(corner.at.x - now.foot, corner.at.y - GROUND) * MM).toBeLessThan(0.15);
    expect(corner.worst * MM).toBeLessThan(0.3);
  });

  it('is as far off the ground as it was placed on the film before', () => {
    // Placed 4 px (1 mm) too low: the ground is sought as it ran through the place, so that the error is kept and not hidden.
    const corner = groundCorner(pairOf(old, old), upperOf(old), { x: old.foot, y: GROUND + 4 });
    expect(corner?.at.y).toBeCloseTo(GROUND + 4, 0);
  });

  it('is said to be known no better than a hand’s errors at contact and heel wall make it', () => {
    const HAND = 1.5;
    const wall: Wall = { foot: 250, back: 1 };
    const [upper, contact] = [upperOf(wall), { x: wall.foot, y: GROUND }];
    const pair = pairOf(wall, wall);
    const moved = 4;
    const along = ([ux, uy, cx, cy]: readonly number[]): number => {
      const off = (place: { x: number; y: number }, x = 0, y = 0) => ({ x: place.x + x, y: place.y + y });
      return groundCorner(pair, off(upper, ux, uy), off(contact, cx, cy))?.at.x ?? Number.NaN;
    };
    // By how much the corner goes along the ground for each of four errors of one, taken together.
    const ways = [0, 1, 2, 3].map((which) => [0, 1, 2, 3].map((one) => (one === which ? moved : 0)));
    const each = ways.map((way) => (along(way) - along(way.map((one) => -one))) / (2 * moved));
    const truly = Math.hypot(...each);
    // By hand: the wall is looked at from 0.12 to 0.95 of its way up, 0.535 on the mean, so that it counts 0.465 of what the contact was
    // off and 0.535 of what the upper point was. It stands at 45° and is drawn on to as low as the contact was placed: along the
    // ground 0.465 (x of the contact), 0.535 (its height), and 0.535 for each way of the upper point, together 1.04.
    expect(truly).toBeCloseTo(Math.sqrt(0.465 ** 2 + 3 * 0.535 ** 2), 1);
    const { landmarks } = pair.before.foot;
    const placed = [
      ...landmarks,
      { name: 'heel.upper' as const, ...upper, spread: null },
      { name: 'heel.ground' as const, ...contact, spread: null },
    ];
    const spread = { mm: HAND, px: 2 };
    const before = { ...film(wall), foot: { ...pair.before.foot, landmarks: placed, spread } };
    const told = filmPair(before, film(wall));
    if (typeof told === 'string') throw new Error(told);
    const [heel] = capsulePoints(
      told,
      [lateralLandmark('heel.ground')].flatMap((row) => row ?? []),
    ).proposals;
    expect(heel?.by).toBe('edge');
    expect((heel?.spread ?? 0) * MM).toBeGreaterThanOrEqual(HAND * truly);
    expect((heel?.spread ?? 0) * MM).toBeLessThan(1.2 * HAND);
  });

  it('is not told where there is no wall', () => {
    expect(groundCorner(pairOf(old, old, false), upperOf(old), { x: old.foot, y: GROUND })).toBeNull();
  });
});

describe('a line that is carried over', () => {
  const [before, now] = drawnSeries(77_003, 2, trimmed, { exposure: 1, grain: 0.5, blur: 0.5, oblique: 0 });
  if (!before || !now) throw new Error('two films are drawn');
  const [old, begun] = [placedFilm(before, 0, new Dice(3)), placedFilm(now, 0, new Dice(4), begunWith)];
  const pair = filmPair(old, begun);
  if (typeof pair === 'string') throw new Error(pair);
  const rows = (['p3.dorsal.upper', 'p3.dorsal.lower'] as const).flatMap((name) => lateralLandmark(name) ?? []);
  const bone = pedalBone(pair, [...rows, ...(['p3.extensor', 'p3.navicular', 'navicular.upper', 'navicular.lower'] as const).flatMap((name) => lateralLandmark(name) ?? [])]); // prettier-ignore
  if (typeof bone === 'string') throw new Error(bone);
  type Change = (one: PlacedLandmark) => PlacedLandmark;
  /** The two ends as they are proposed when the film before is placed otherwise. */
  const ends = (change: Change): readonly Proposal[] => {
    const otherwise = filmPair({ ...old, foot: { ...old.foot, landmarks: old.foot.landmarks.map(change) } }, begun);
    if (typeof otherwise === 'string') throw new Error(otherwise);
    return lines(otherwise, bone, { x: 0, y: 0 }, rows);
  };
  const mm = now.truth.mmPerPx;

  it('shares half of what a hand erred by at both its ends, as the greys across it are averaged along it', () => {
    // One end is told to 0.3 mm, the other to 0.4: by hand, half of the root of 0.09 + 0.16 is 0.25 mm.
    const told: Readonly<Record<string, number>> = { 'p3.dorsal.upper': 0.3, 'p3.dorsal.lower': 0.4 };
    const found = ends((one) => ({ ...one, spread: (told[one.name] ?? 0.5) / before.truth.mmPerPx }));
    expect(found.map(({ by }) => by)).toEqual(['line', 'line']);
    for (const { spread, added } of found) expect(Math.sqrt(spread ** 2 - added ** 2) * mm).toBeCloseTo(0.25, 3);
  });

  it('errs by the mean of what its two old ends erred by, and keeps its own way', () => {
    const { 'p3.dorsal.upper': a, 'p3.dorsal.lower': b } = before.truth.landmarks;
    if (!a || !b) throw new Error('the face has two ends');
    const long = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const off = 0.8 / before.truth.mmPerPx / long;
    // The upper end 0.8 mm to one side, the lower one where it is: on the new film both ends are 0.4 mm off.
    const moved = ends((one) =>
      one.name === 'p3.dorsal.upper' ? { ...one, x: one.x - (b[1] - a[1]) * off, y: one.y + (b[0] - a[0]) * off } : one,
    );
    const [upper, lower] = ends((one) => one);
    if (!upper || !lower) throw new Error('both ends are proposed');
    const way = Math.atan2(lower.at.y - upper.at.y, lower.at.x - upper.at.x);
    const across = moved.map(
      ({ at }) => ((at.y - upper.at.y) * Math.cos(way) - (at.x - upper.at.x) * Math.sin(way)) * mm,
    );
    expect(across).toHaveLength(2);
    for (const one of across) expect(Math.abs(one)).toBeGreaterThan(0.3);
    for (const one of across) expect(Math.abs(one)).toBeLessThan(0.5);
    expect(Math.sign(across[0] ?? 0)).toBe(Math.sign(across[1] ?? 0));
  });
});
