import { dayOf } from '../course/order-of-days.ts';
import { tapesOfVisit } from '../course/taped-series.ts';
import { feet, landings, pulses, soles, testerAnswers, warmths, type FootName } from '../notation/choices.ts';
import { signs } from '../notation/vocabulary.ts';
import type { Placed, Visit } from '../record/schema.ts';
import { daysToNext, type CaseDates } from './case-dates.ts';
import { dateFor, type SeriesView } from './series-view.ts';
import { laboratoryNames, type RowOf } from './tables.ts';

/** `visits`: in the order of their days, which their numbers follow. */
export function visitRows(
  visits: readonly Placed<Visit>[],
  dates: CaseDates,
  view: SeriesView,
): readonly RowOf<'visits'>[] {
  return visits.map((visit, index) => {
    const { is } = visit;
    const day = dayOf(visit);
    return {
      case: view.code,
      visit: index + 1,
      day: dates.since(day),
      date: dateFor(day, view),
      age_years: dates.ageOn(day),
      weight_kg: is.weight?.base ?? null,
      girth_cm: is.girth ? is.girth.base / 10 : null,
      length_cm: is.length ? is.length.base / 10 : null,
      condition: is.condition?.value ?? null,
      crest: is.crest?.value ?? null,
      obel: is.obel?.value ?? null,
      meier: is.meier?.value ?? null,
      lameness: highest(is.lameness.filter((one) => one.feet.length === 0).map(({ grade }) => grade)),
      temperature_c: highest(is.temperatures.map(({ base }) => base)),
      signs: signWords(is),
      vet_seen: is.seen.length > 0,
      next_days: daysToNext(visit),
      ...byFoot('lameness', (foot) => highest(of(foot, is.lameness).map(({ grade }) => grade))),
      ...byFoot('pulse', (foot) => furthest(pulses, of(foot, is.pulses), 'pulse')),
      ...byFoot('landing', (foot) => furthest(landings, of(foot, is.landings), 'landing')),
      ...byFoot('testers', (foot) => furthest(testerAnswers, of(foot, is.testers), 'answer')),
      ...byFoot('sole', (foot) => furthest(soles, of(foot, is.soles), 'firmness')),
      ...byFoot('warmth', (foot) => furthest(warmths, of(foot, is.warmths), 'warmth')),
    };
  });
}

type FootCells<N extends string, T> = Readonly<Record<`${N}_${Lowercase<FootName>}`, T>>;

const byFoot = <N extends string, T>(name: N, cell: (foot: FootName) => T): FootCells<N, T> =>
  Object.fromEntries(feet.map((foot) => [`${name}_${foot.toLowerCase()}`, cell(foot)])) as FootCells<N, T>;

const of = <T extends { readonly feet: readonly FootName[] }>(foot: FootName, all: readonly T[]): readonly T[] =>
  all.filter((one) => one.feet.includes(foot));

const highest = (numbers: readonly number[]): number | null =>
  numbers.length === 0 ? null : numbers.reduce((a, b) => Math.max(a, b));

/** Of several words the last of the list, which goes from the mildest to the gravest. */
function furthest<W extends string, K extends string>(
  words: readonly W[],
  said: readonly Readonly<Record<K, W>>[],
  key: K,
): W | null {
  const place = highest(said.map((one) => words.indexOf(one[key])));
  return place === null ? null : (words[place] ?? null);
}

/** A sign that is none of the known ones is a text, and is not said. */
function signWords(is: Visit): string | null {
  const known = signs.filter((sign) => is.signs.some(({ word }) => word === sign));
  const isOther = is.signs.some(({ word }) => !(signs as readonly string[]).includes(word));
  return [...known, ...(isOther ? ['other'] : [])].join(' ') || null;
}

/** In the order of the text. @param numberOf of a visit */
export function tapeRows(
  visits: readonly Placed<Visit>[],
  numberOf: (visit: Placed<Visit>) => number,
  { code }: SeriesView,
): readonly RowOf<'tape'>[] {
  const rows: RowOf<'tape'>[] = [];
  for (const [index, { visit, foot, values }] of visits.flatMap(tapesOfVisit).entries())
    for (const { measure, value, sd } of values)
      rows.push({
        case: code,
        tape: index + 1,
        visit: numberOf(visit),
        foot,
        measure: measure.name,
        value,
        unit: measure.unit,
        sd,
      });
  return rows;
}

export function laboratoryRows(
  visits: readonly Placed<Visit>[],
  numberOf: (visit: Placed<Visit>) => number,
  { code }: SeriesView,
): readonly RowOf<'laboratory'>[] {
  return visits
    .flatMap((visit) => visit.is.laboratory.map((one) => ({ visit, ...one })))
    .map(({ visit, of: what, value, above, fasting, after }, index) => ({
      case: code,
      sample: index + 1,
      visit: numberOf(visit),
      // Any other name is a text.
      of: laboratoryNames.find((name) => name === what) ?? 'hormone',
      value: value.value,
      unit: value.unit,
      above,
      fasting,
      after_minutes: after,
    }));
}
