/**
 * The built command line against the oracle, on made-up front and solar pictures. A picture comes
 * back from the view and the seed that a message names: `toNotation(randomView(view, seed))`.
 */

import { beforeAll, describe, expect, it } from 'vitest';
import { Comparison } from './comparison.ts';
import { frontMeasuresOf, frontUnitOf } from './oracle/front.ts';
import { scaleOf, type Film, type Values } from './oracle/lateral.ts';
import { countedFilm } from './oracle/ranges.ts';
import { solarMeasuresOf, solarUnitOf } from './oracle/solar.ts';
import { spreadsOf } from './oracle/spread.ts';
import { measured, type ReportedVisit } from './product.ts';
import { slippedPicture } from './random-slips.ts';
import { LINES, randomView, toNotation, type Picture } from './random-views.ts';

interface Oracle {
  measuresOf: (film: Film) => Values;
  unitOf: (measure: string) => string;
  /** How many measures the view has. */
  measures: number;
}

const ORACLES: Record<'front' | 'solar', Oracle> = {
  front: { measuresOf: frontMeasuresOf, unitOf: frontUnitOf, measures: 8 },
  solar: { measuresOf: solarMeasuresOf, unitOf: solarUnitOf, measures: 9 },
};

function compare(comparison: Comparison, picture: Picture, visit: ReportedVisit, oracle: Oracle): void {
  const where = `${picture.view} ${picture.seed}`;
  const [film] = visit.films;
  comparison.same(where, 'number of films', visit.films.length, 1);
  if (!film) return;
  comparison.same(where, 'foot', film.foot, picture.foot);
  comparison.same(where, 'view', film.view, picture.view);
  comparison.same(where, 'line of the film', film.line, LINES.film);
  const scale = scaleOf(picture.film);
  comparison.close(where, 'scale', film.scale, scale, 1e-9);
  if (scale === undefined) comparison.same(where, 'missing scale', film.scale, null);

  const reader = picture.reader ?? null;
  const product = film.readings.find((reading) => reading.reader === reader)?.measures ?? {};
  for (const other of film.readings) {
    if (other.reader !== reader)
      comparison.same(where, `measures of ${other.reader}`, Object.keys(other.measures).length, 0);
  }
  const values = oracle.measuresOf(picture.film);
  const spreads = spreadsOf(picture.film, oracle.measuresOf);
  const names = new Set([...values.keys(), ...Object.keys(product)]);
  comparison.measures(where, product, { values, spreads, unitOf: oracle.unitOf }, names);
}

const PICTURES = 200;
const FIRST_SEED = 3000;
const VIEWS = ['front', 'solar'] as const;

const FAR_FEWER_WOULD_BE_EMPTY = { timesEach: 60, timesAbsent: 30, withoutFrame: 15 };

describe('random pictures', () => {
  const pictures = VIEWS.flatMap((view) =>
    Array.from({ length: PICTURES }, (_, index) => randomView(view, FIRST_SEED + index)),
  );
  const key = ({ view, seed }: Picture): string => `${view}-${seed}`;
  let visits: Map<string, ReportedVisit>;
  beforeAll(async () => {
    visits = await measured(new Map(pictures.map((picture) => [key(picture), toNotation(picture)])));
  });

  it.each(VIEWS)('of the %s view are measured as the definition says', (view) => {
    const oracle = ORACLES[view];
    const comparison = new Comparison();
    const present = new Map<string, number>();
    let ofView = 0;
    let withoutFrame = 0;
    for (const picture of pictures) {
      if (picture.view !== view) continue;
      ofView += 1;
      const visit = visits.get(key(picture));
      if (visit) compare(comparison, picture, visit, oracle);
      else comparison.problems.push(`${key(picture)} is missing from the output`);
      const measures = [...oracle.measuresOf(picture.film).keys()];
      if (measures.length === 0) withoutFrame += 1;
      for (const measure of measures) present.set(measure, (present.get(measure) ?? 0) + 1);
    }
    comparison.finish();
    expect(ofView).toBe(PICTURES);
    expect(present.size).toBe(oracle.measures);
    expect(withoutFrame).toBeGreaterThan(FAR_FEWER_WOULD_BE_EMPTY.withoutFrame);
    for (const [measure, times] of present) {
      expect(times, measure).toBeGreaterThan(FAR_FEWER_WOULD_BE_EMPTY.timesEach);
      expect(PICTURES - times, `${measure} absent`).toBeGreaterThan(FAR_FEWER_WOULD_BE_EMPTY.timesAbsent);
    }
  });
});

describe('random pictures of which some numbers are out of their ranges', () => {
  it.each(VIEWS)('of the %s view are measured as if those lines were not there', async (view) => {
    const oracle = ORACLES[view];
    const pictures = Array.from({ length: PICTURES }, (_, index) =>
      slippedPicture(randomView(view, FIRST_SEED + PICTURES + index)),
    );
    const visits = await measured(new Map(pictures.map((picture) => [String(picture.seed), toNotation(picture)])));
    const comparison = new Comparison();
    let lost = 0;
    for (const picture of pictures) {
      const visit = visits.get(String(picture.seed));
      const kept = { ...picture, film: countedFilm(picture.film) };
      if (visit) compare(comparison, kept, visit, oracle);
      else comparison.problems.push(`${picture.seed} is missing from the output`);
      if (JSON.stringify(kept.film) !== JSON.stringify(picture.film)) lost += 1;
    }
    comparison.finish();
    expect(lost).toBeGreaterThan(PICTURES / 4);
  });
});
