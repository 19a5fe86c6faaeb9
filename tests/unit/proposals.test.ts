import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { greys } from '../../examples/drawn/png.ts';
import type { FootInput } from '../../shared/geometry/foot-input.ts';
import { findLandmark, landmarksOf, lateralLandmark, type LandmarkName } from '../../shared/notation/landmarks.ts';
import { pyramidOf } from '../../shared/picture/seek/pyramid.ts';
import { filmPair, type PicturedFoot } from '../../shared/proposals/film-pair.ts';
import { proposedFrom } from '../../shared/proposals/from-film-before.ts';
import type { Proposal } from '../../shared/proposals/proposal.ts';
import { drawnSeries, sunkBy } from '../bench/drawn-series.ts';
import { begunWith, placedFilm } from '../bench/proposed-films.ts';
import { Dice } from '../property/dice.ts';

// The example's films are drawn, so that the true place of every landmark is known: examples/drawn/truth.json.
const root = join(import.meta.dirname, '..', '..', 'examples');
type Place = readonly [number, number];
interface Film {
  readonly file: string;
  readonly width: number;
  readonly height: number;
  readonly mmPerPx: number;
  readonly ground: { readonly from: Place; readonly to: Place };
  readonly marker: { readonly mm: number; readonly from: Place; readonly to: Place };
  readonly landmarks: Readonly<Record<string, Place>>;
}
const { films } = JSON.parse(readFileSync(join(root, 'drawn', 'truth.json'), 'utf8')) as { films: readonly Film[] };
const juniper = films.filter(({ file }) => file.includes('juniper'));
const [first, second, third] = juniper;
if (!first || !second || !third) throw new Error('the example has too few films');

const xy = ([x, y]: Place): { x: number; y: number } => ({ x, y });

function placed(film: Film, only?: readonly LandmarkName[], change: Partial<FootInput> = {}): PicturedFoot {
  const { width, height, ground, marker } = film;
  const picture = { width, height, greys: Float32Array.from(greys(readFileSync(join(root, film.file)))) };
  const landmarks = Object.entries(film.landmarks).flatMap(([word, place]) => {
    const row = findLandmark(word);
    return row && (!only || only.includes(row.word)) ? [{ name: row.word, ...xy(place), spread: null }] : [];
  });
  const foot: FootInput = {
    view: 'lateral',
    landmarks,
    ground: [xy(ground.from), xy(ground.to)],
    bearing: null,
    isShod: false,
    scale: { kind: 'marker', mm: marker.mm, ends: [xy(marker.from), xy(marker.to)] },
    magnify: 1,
    spread: { mm: 0.5, px: 5 },
    ...change,
  };
  return { foot, picture: pyramidOf(picture) };
}

function proposals(before: PicturedFoot, now: PicturedFoot): readonly Proposal[] {
  const proposed = proposedFrom(before, now);
  if ('says' in proposed) throw new Error(proposed.says);
  return proposed.proposals;
}

/** mm from the truth; of a point on a line, across the line. */
function off({ name, at }: Proposal, film: Film): number {
  const place = film.landmarks[name];
  if (!place) throw new Error(`${name} is not on the film`);
  const d = { x: (at.x - place[0]) * film.mmPerPx, y: (at.y - place[1]) * film.mmPerPx };
  const way = lateralLandmark(name)?.proposed;
  const partner = way?.by === 'line' ? film.landmarks[way.partner] : undefined;
  if (!partner) return Math.hypot(d.x, d.y);
  const turn = Math.atan2(partner[1] - place[1], partner[0] - place[0]);
  return Math.abs(d.y * Math.cos(turn) - d.x * Math.sin(turn));
}

describe('how each landmark may be proposed', () => {
  const rows = landmarksOf('lateral').flatMap(({ word }) => lateralLandmark(word) ?? []);

  it('of two on a line each names the other, on the same part of the foot', () => {
    const ends = rows.flatMap(({ word, proposed }) => (proposed.by === 'line' ? [{ word, ...proposed }] : []));
    expect(ends).toHaveLength(6);
    for (const { word, partner, on } of ends)
      expect(lateralLandmark(partner)?.proposed).toMatchObject({ by: 'line', partner: word, on });
  });

  it('never takes a landmark for what it looks like where growth or a hand makes it what it is', () => {
    const none = rows.filter(({ proposed }) => proposed.by === 'none').map(({ word }) => word);
    expect(none).toEqual(['p3.wing.other', 'wall.turn', 'breakover', 'sole.heel']);
  });

  it('takes nothing of the capsule from the bone', () => {
    for (const { word, proposed } of rows)
      if (/^(?:wall|coronet|heel|toe)\b/.test(word) && 'on' in proposed) expect(proposed.on).toBe('capsule');
  });
});

describe('a film of the example, from the film before', () => {
  const found = proposals(placed(first), placed(second, begunWith));
  const distinct = found.filter((one) => one.distinct);

  it('has most of its landmarks proposed, and none that is placed already or may not be proposed', () => {
    const names = found.map(({ name }) => name);
    for (const name of [...begunWith, 'wall.turn', 'breakover', 'sole.heel']) expect(names).not.toContain(name);
    expect(new Set(names).size).toBe(names.length);
    expect(distinct.length).toBeGreaterThanOrEqual(14);
    expect(distinct.map(({ name }) => name)).toEqual(
      expect.arrayContaining(['p3.extensor', 'coffin.centre', 'pastern.centre', 'wall.upper', 'wall.top']),
    );
  });

  it('knows a line as well as the mean of its two ends, and no better where these were followed themselves', () => {
    const { foot, picture } = placed(first);
    const ends = (followed: boolean): PicturedFoot => ({
      picture,
      foot: {
        ...foot,
        landmarks: foot.landmarks.map((one) =>
          one.name.startsWith('p3.dorsal.') ? { ...one, spread: 8, ...(followed && { followed: true as const }) } : one,
        ),
      },
    });
    const spreads = (before: PicturedFoot): number[] =>
      proposals(before, placed(second, begunWith))
        .filter(({ name }) => name.startsWith('p3.dorsal.'))
        .map(({ spread, added }) => Math.sqrt(spread ** 2 - added ** 2) * (second.mmPerPx / first.mmPerPx));
    // Two errors of 8 px have a mean of 8 / √2; one and the same error has itself. Within the marker's own rounding.
    for (const spread of spreads(ends(false))) expect(spread).toBeCloseTo(8 / Math.SQRT2, 1);
    for (const spread of spreads(ends(true))) expect(spread).toBeCloseTo(8, 1);
  });

  // The goal that the project has set itself for distinct proposals (docs/placing.md).
  it.each(distinct.map((one) => [one.name, one] as const))('%s lies within 1 mm of the truth', (_, one) => {
    expect(off(one, second)).toBeLessThan(1);
    expect(one.added * second.mmPerPx).toBeGreaterThan(0.05);
    expect(one.spread).toBeGreaterThan(one.added);
    expect(one.why).not.toBe('');
  });

  it('says of every proposal that the picture did not tell that it is not distinct', () => {
    for (const one of found) if (one.by === 'carried') expect(one.distinct).toBe(false);
    for (const one of found) if (/^(?:wall\.inner|sole)\b/.test(one.name)) expect(one.distinct).toBe(false);
  });

  it('is the same each time', () => {
    expect(proposals(placed(first), placed(second, begunWith))).toEqual(found);
  });
});

describe('a film that hangs the other way round', () => {
  /** Mirrored by hand: column i becomes column width - 1 - i. */
  function mirrored(film: Film): PicturedFoot {
    const { foot, picture } = placed(film, begunWith);
    const [{ width, height, greys: shades }] = picture;
    const turned = Float32Array.from(
      { length: width * height },
      (_, i) => shades[Math.floor(i / width) * width + width - 1 - (i % width)] ?? 0,
    );
    const flip = ({ x, y }: { x: number; y: number }) => ({ x: width - 1 - x, y });
    const { scale, ground } = foot;
    return {
      picture: pyramidOf({ width, height, greys: turned }),
      foot: {
        ...foot,
        landmarks: foot.landmarks.map((one) => ({ ...one, ...flip(one) })),
        ground: ground && [flip(ground[0]), flip(ground[1])],
        scale: scale?.kind === 'marker' ? { ...scale, ends: [flip(scale.ends[0]), flip(scale.ends[1])] } : scale,
      },
    };
  }

  it('has the same proposals, mirrored', () => {
    const plain = proposals(placed(first), placed(second, begunWith)).filter(({ distinct }) => distinct);
    const other = proposals(placed(first), mirrored(second)).filter(({ distinct }) => distinct);
    expect(other.length).toBeGreaterThan(plain.length - 3);
    for (const { name, at } of other) {
      const same = plain.find((one) => one.name === name);
      if (same)
        expect(Math.hypot(second.width - 1 - at.x - same.at.x, at.y - same.at.y) * second.mmPerPx).toBeLessThan(0.2);
    }
  });
});

describe('a bone that sinks in its capsule', () => {
  it('is seen to sink: the capsule stays where the picture shows it', () => {
    const dice = new Dice(2);
    const [before, now] = drawnSeries(31, 2, sunkBy(3), { exposure: 1, grain: 0.5, blur: 0.5, oblique: 0 });
    if (!before || !now) throw new Error('two films are drawn');
    const all = proposals(placedFilm(before, 0, dice), placedFilm(now, 0, dice, begunWith));
    // The drawing: what sinks, and by how much. From the film before to this one the bone comes to lie 3 mm lower.
    const depth = (of: Readonly<Record<string, Place>>, { ground, mmPerPx }: Film): number => {
      const [wall, bone] = [of['wall.top'], of['p3.extensor']];
      if (!wall || !bone) throw new Error('both are told');
      const way = Math.atan2(ground.to[1] - ground.from[1], ground.to[0] - ground.from[0]);
      return Math.abs((bone[1] - wall[1]) * Math.cos(way) - (bone[0] - wall[0]) * Math.sin(way)) * mmPerPx;
    };
    const told = Object.fromEntries(
      all.flatMap((one) => (one.distinct ? [[one.name, [one.at.x, one.at.y] as const]] : [])),
    );
    expect(depth(told, now.truth) - depth(before.truth.landmarks, before.truth)).toBeCloseTo(3, 0);
    expect(Math.abs(depth(told, now.truth) - depth(now.truth.landmarks, now.truth))).toBeLessThan(0.3);
  });
});

describe('two wings on one of two films', () => {
  const [before, now] = [placed(first), placed(second, begunWith)];
  /** The other wing so many pixels behind the wing, which then is the middle of both. */
  const withOther = ({ foot, picture }: PicturedFoot): PicturedFoot => {
    const wing = foot.landmarks.find(({ name }) => name === 'p3.wing');
    if (!wing) throw new Error('no wing');
    return {
      picture,
      foot: { ...foot, landmarks: [...foot.landmarks, { ...wing, name: 'p3.wing.other', x: wing.x + 30 }] },
    };
  };

  it('one wing is laid on one wing', () => {
    const plain = proposals(before, now);
    expect(proposals(withOther(before), now)).toEqual(plain);
    expect(proposals(before, withOther(now))).toEqual(plain);
  });

  it('and the middle on the middle where both films have two', () => {
    const pair = filmPair(withOther(before), withOther(now));
    if (typeof pair === 'string') throw new Error(pair);
    for (const [film, { foot }] of [[pair.before, before] as const, [pair.now, now] as const]) {
      const wing = foot.landmarks.find(({ name }) => name === 'p3.wing');
      expect(film.at('p3.wing')?.x).toBe((wing?.x ?? Number.NaN) + 15);
    }
  });
});

describe('where nothing is proposed it says why', () => {
  const said = (before: PicturedFoot, now: PicturedFoot): string => {
    const proposed = proposedFrom(before, now);
    return 'says' in proposed ? proposed.says : `${proposed.proposals.length} proposals`;
  };

  it('as the new film lacks its beginning', () => {
    expect(said(placed(first), placed(second, ['p3.tip']))).toContain('the tip and the wing');
    expect(said(placed(first), placed(second, begunWith, { scale: null }))).toContain('Place the marker');
    expect(said(placed(first), placed(second, begunWith, { ground: null }))).toContain('the ground');
  });

  it('as the film before lacks them', () => {
    expect(said(placed(first, ['p3.extensor']), placed(second, begunWith))).toContain('The film before lacks');
  });

  it('as the bone would be of another length', () => {
    const { foot, picture } = placed(second, begunWith);
    const landmarks = foot.landmarks.map((one) => (one.name === 'p3.wing' ? { ...one, x: one.x + 60 } : one));
    expect(said(placed(first), { picture, foot: { ...foot, landmarks } })).toMatch(/Tip and wing lie \d\.\d+ times/);
    const same = foot.landmarks.map((one) => ({ ...one, x: 500, y: 900 }));
    expect(said(placed(first), { picture, foot: { ...foot, landmarks: same } })).not.toMatch(/proposals$/);
  });

  it('as another picture is no film of the foot: nothing is distinct', () => {
    const { foot } = placed(second, begunWith);
    const dice = new Dice(4);
    const [{ width, height }] = placed(second, begunWith).picture;
    const grain = Float32Array.from({ length: width * height }, () => dice.between(0, 255));
    const now = { foot, picture: pyramidOf({ width, height, greys: grain }) };
    expect(proposals(placed(first), now).filter(({ distinct }) => distinct)).toEqual([]);
  });
});
