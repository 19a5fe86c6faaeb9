/**
 * What must hold of any measure whatever its formula, so no oracle is asked: the built command line
 * measures random pictures and the same pictures told otherwise, and is compared with itself.
 *
 * Medial and lateral are names, not sides of the picture. A mirrored front or solar picture
 * therefore keeps every name where it was placed, and every measure with its sign; that it then
 * looks like one of the opposite foot changes nothing, and saying so (`LF` to `RF`) does not either.
 * Exchanging the names is another thing: it turns the tilts round and exchanges what is told of
 * either side.
 */

import { beforeAll, describe, expect, it } from 'vitest';
import { Dice, round } from './dice.ts';
import {
  blurred,
  enlarged,
  mirrored,
  moved,
  otherSide,
  rescaled,
  sidesExchanged,
  turned,
  unscaled,
} from './picture-variants.ts';
import { PREDICTED } from './oracle/trim.ts';
import { measured, type Reported, type ReportedMeasures, type ReportedVisit } from './product.ts';
import { randomFoot } from './random-foot.ts';
import { randomView, toNotation, type Foot, type Picture } from './random-views.ts';

const PICTURES_EACH = 45;
const FIRST_SEED = 5000;
const VIEWS = ['lateral', 'front', 'solar'] as const;

const TOLERANCE = 1e-6;

const OPPOSITE: Record<Foot, Foot> = { LF: 'RF', RF: 'LF', LH: 'RH', RH: 'LH' };

interface Factors {
  dx: number;
  dy: number;
  degrees: number;
  width: number;
  pixels: number;
  scale: number;
  spread: number;
}

interface Told {
  picture: Picture;
  factors: Factors;
  /** One spread of the reader's for all that states none: only then can all spreads be multiplied. */
  allSpreadsStated: boolean;
  /** What is reported of the picture and of its variants. */
  visits: Map<string, ReportedVisit>;
}

function pictured(view: (typeof VIEWS)[number], seed: number): Picture {
  if (view !== 'lateral') return randomView(view, seed);
  const { foot, film } = randomFoot(seed);
  return { seed, kind: 'film', foot, view, film };
}

function told(view: (typeof VIEWS)[number], seed: number): Told {
  const picture = pictured(view, seed);
  const dice = new Dice(seed ^ 0x1a7e);
  const allSpreadsStated = dice.chance(0.6);
  if (allSpreadsStated) {
    picture.reader = 'first reader';
    picture.film.readerSpread = round(dice.between(0.2, 2), 2);
  }
  const factors: Factors = {
    dx: round(dice.between(1, 3000), 2),
    dy: round(dice.between(1, 3000), 2),
    degrees: dice.between(5, 355),
    width: 6000,
    pixels: round(dice.between(1.2, 3), 3),
    // Still a foot: one of twice the size would have no scale.
    scale: round(dice.between(1.1, 1.4), 3),
    spread: round(dice.between(1.5, 4), 3),
  };
  return { picture, factors, allSpreadsStated, visits: new Map() };
}

function textsOf({ picture, factors }: Told): Map<string, string> {
  const { film } = picture;
  const { dx, dy, degrees, width, pixels, scale, spread } = factors;
  const written = (change: Partial<Picture>): string => toNotation({ ...picture, ...change });
  const texts = new Map([
    ['plain', written({})],
    ['moved', written({ film: moved(film, dx, dy) })],
    ['turned', written({ film: turned(film, degrees) })],
    ['mirrored', written({ film: mirrored(film, width) })],
    ['mirrored-opposite', written({ film: mirrored(film, width), foot: OPPOSITE[picture.foot] })],
    ['enlarged', written({ film: enlarged(film, pixels) })],
    ['unscaled', written({ film: unscaled(film) })],
    ['unscaled-enlarged', written({ film: enlarged(unscaled(film), pixels) })],
    ['rescaled', written({ film: rescaled(film, scale) })],
    ['blurred', written({ film: blurred(film, spread) })],
    ['nothing-trimmed', toNotation(picture, ['', `trim ${picture.foot}`, '  why "nothing was cut"'])],
  ]);
  if (picture.view !== 'lateral') texts.set('sides-exchanged', written({ film: sidesExchanged(film) }));
  return texts;
}

/** What a measure should be, and be called, after what was reported of the plain picture. */
type Expected = (measure: string, plain: Reported) => { measure: string; value: number; sd?: number } | undefined;

class Agreement {
  readonly problems: string[] = [];
  readonly timesOf = new Map<string, number>();
  values = 0;
  sds = 0;

  measures(where: string, plain: ReportedMeasures, other: ReportedMeasures, expected: Expected): void {
    const left = new Set(Object.keys(other));
    for (const [name, reported] of Object.entries(plain)) {
      const wanted = expected(name, reported);
      if (!wanted) continue;
      const { measure, value, sd } = wanted;
      left.delete(measure);
      const found = other[measure];
      this.values += 1;
      this.timesOf.set(measure, (this.timesOf.get(measure) ?? 0) + 1);
      if (!found) {
        this.problems.push(`${where}: ${measure} is missing`);
        continue;
      }
      if (found.unit !== reported.unit) this.problems.push(`${where}: ${measure} is in ${found.unit}`);
      if (!(Math.abs(found.value - value) <= TOLERANCE * Math.max(1, Math.abs(value))))
        this.problems.push(`${where}: ${measure} is ${found.value}, not ${value}`);
      if (sd === undefined) continue;
      this.sds += 1;
      if (!(Math.abs(found.sd - sd) <= TOLERANCE * sd))
        this.problems.push(`${where}: the sd of ${measure} is ${found.sd}, not ${sd}`);
    }
    for (const measure of left) this.problems.push(`${where}: ${measure} is there all of a sudden`);
  }

  finish(): void {
    const shown = this.problems.slice(0, 30).join('\n');
    expect(this.problems.length, `${this.problems.length} differences, the first of them:\n${shown}`).toBe(0);
  }
}

const isLength = ({ unit }: Reported): boolean => unit === 'mm';

/** A tilt of 180 degrees, as of a pair placed crosswise, may come out as -180. */
function opposite(degrees: number): number {
  return degrees === 180 ? 180 : -degrees;
}

const unchanged: Expected = (measure, { value, sd }) => ({ measure, value, sd });

describe.each(VIEWS)('a random %s picture', (view) => {
  const all = Array.from({ length: PICTURES_EACH }, (_, index) => told(view, FIRST_SEED + index));

  beforeAll(async () => {
    const texts = new Map<string, string>();
    for (const one of all)
      for (const [variant, text] of textsOf(one)) texts.set(`${one.picture.seed}-${variant}`, text);
    const visits = await measured(texts);
    for (const key of texts.keys()) {
      const [, seed, variant] = /^(\d+)-(.+)$/.exec(key) ?? [];
      const visit = visits.get(key);
      const one = all.find(({ picture }) => picture.seed === Number(seed));
      if (!visit || !one || !variant) throw new Error(`${key} is missing from the output`);
      one.visits.set(variant, visit);
    }
  });

  /** Of the one reader of the picture, as the case file names it. */
  const measuresOf = ({ picture, visits }: Told, variant: string): ReportedMeasures => {
    const readings = visits.get(variant)?.films[0]?.readings;
    return readings?.find(({ reader }) => reader === (picture.reader ?? null))?.measures ?? {};
  };

  /** Compares every picture with its variant; `expected` may leave the spread, or a measure, out. */
  const compare = (variant: string, expected: (one: Told) => Expected, plain = 'plain'): Agreement => {
    const agreement = new Agreement();
    for (const one of all) {
      const where = `${view} ${one.picture.seed} ${variant}`;
      agreement.measures(where, measuresOf(one, plain), measuresOf(one, variant), expected(one));
    }
    agreement.finish();
    return agreement;
  };

  const kinds = { lateral: 40, front: 8, solar: 9 }[view];

  it.each(['moved', 'turned', 'mirrored', 'mirrored-opposite'])('is measured the same when %s', (variant) => {
    const agreement = compare(variant, () => unchanged);
    expect(agreement.timesOf.size).toBe(kinds);
    expect(agreement.sds).toBe(agreement.values);
    for (const [measure, times] of agreement.timesOf) expect(times, measure).toBeGreaterThan(9);
  });

  it('is measured the same with more pixels and the scale to match', () => {
    // Without a scale or a reader's spread 5 px are assumed, which are less of a larger picture.
    const agreement = compare('enlarged', ({ picture: { film }, allSpreadsStated }) =>
      film.scale || allSpreadsStated ? unchanged : (measure, { value }) => ({ measure, value }),
    );
    expect(agreement.timesOf.size).toBe(kinds);
    expect(agreement.sds).toBeGreaterThan(agreement.values / 2);
  });

  it('keeps its angles and ratios without a scale, and has no lengths then', () => {
    const agreement = compare(
      'unscaled',
      () => (measure, plain) => (isLength(plain) ? undefined : { measure, value: plain.value }),
    );
    expect(agreement.values).toBeGreaterThan(PICTURES_EACH);
  });

  it('keeps its angles and ratios when enlarged without a scale', () => {
    const agreement = compare(
      'unscaled-enlarged',
      ({ allSpreadsStated }) => (allSpreadsStated ? unchanged : (measure, { value }) => ({ measure, value })),
      'unscaled',
    );
    expect(agreement.values).toBeGreaterThan(PICTURES_EACH);
    expect(agreement.sds).toBeGreaterThan(PICTURES_EACH / 2);
  });

  it('has lengths in proportion to the scale', () => {
    let lengths = 0;
    const agreement = compare('rescaled', ({ factors: { scale }, allSpreadsStated }) => (measure, plain) => {
      const factor = isLength(plain) ? scale : 1;
      if (isLength(plain)) lengths += 1;
      // An assumed spread is one of 0.5 mm: it does not grow with the foot.
      return { measure, value: plain.value * factor, ...(allSpreadsStated ? { sd: plain.sd * factor } : {}) };
    });
    expect(lengths).toBeGreaterThan(PICTURES_EACH);
    expect(agreement.sds).toBeGreaterThan(PICTURES_EACH);
  });

  it('has standard deviations in proportion to the spread of the placings', () => {
    const agreement = compare('blurred', ({ factors: { spread }, allSpreadsStated }) => (measure, { value, sd }) => ({
      measure,
      value,
      ...(allSpreadsStated ? { sd: sd * spread } : {}),
    }));
    expect(agreement.sds).toBeGreaterThan(PICTURES_EACH);
  });

  if (view === 'lateral') {
    it('is predicted as it was measured when nothing is cut', () => {
      const agreement = new Agreement();
      for (const one of all) {
        const { film, seed } = one.picture;
        const where = `${view} ${seed} nothing-trimmed`;
        const [trim] = one.visits.get('nothing-trimmed')?.trims ?? [];
        const placed = (name: string): boolean => film.landmarks.some((landmark) => landmark.name === name);
        const predictable = film.scale && placed('heel.ground') && placed('toe.ground');
        if (!predictable) {
          expect(trim?.predicted ?? {}, where).toEqual({});
          continue;
        }
        expect(trim?.delta, where).toBe(0);
        for (const cut of Object.values(trim?.solecut ?? {})) expect(cut ?? 0, where).toBe(0);
        agreement.measures(where, measuresOf(one, 'plain'), trim?.predicted ?? {}, unchanged);
      }
      agreement.finish();
      for (const measure of PREDICTED) expect(agreement.timesOf.get(measure), measure).toBeGreaterThan(9);
    });
  } else {
    it('has its sides exchanged with the names', () => {
      const agreement = compare('sides-exchanged', () => (measure, { value, sd }) => ({
        measure: otherSide(measure),
        value: measure.endsWith('-tilt') ? opposite(value) : value,
        sd,
      }));
      expect(agreement.timesOf.size).toBe(kinds);
    });

    it('is no ground for a prediction', () => {
      for (const { visits, picture } of all)
        expect(visits.get('nothing-trimmed')?.trims[0]?.predicted ?? {}, `${view} ${picture.seed}`).toEqual({});
    });
  }
});
