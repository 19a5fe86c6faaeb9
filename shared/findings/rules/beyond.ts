import { t } from '../../language/words.ts';
import type { MeasureName } from '../../measures/names.ts';
import type { Value } from '../../measures/take.ts';
import type { StudiedFilm, StudiedReading, Study } from '../../trim/study.ts';
import { isGraver, linesFor, oneLower, told } from '../limits/limits.ts';
import { say } from '../wording/wording.ts';
import type { Beyond } from './beyond-a-line.ts';
import { reckonedBare, saysReckoned } from './reckoned-bare.ts';
import { soleJudged } from './sole-judged.ts';

export type { Beyond } from './beyond-a-line.ts';

/**
 * Whether a film's value of a measure lies beyond a line. Null where the film does not give the measure, undefined where the value
 * is within. Of several readers the gravest counts; where another's value lies within, it is told one level lower, once.
 */
export function beyond(measure: MeasureName, film: StudiedFilm, study: Study): Beyond | null | undefined {
  const values: { readonly reading: StudiedReading; readonly value: Value }[] = [];
  for (const reading of film.readings) {
    const value = reading.taking.values.get(measure) ?? reckonedBare(measure, film, reading);
    if (value) values.push({ reading, value });
  }
  // What somebody lives with in one reader's placing must not speak for another reader.
  if (values.length > 1) values.sort((a, b) => Number(livedWith(a.reading, film)) - Number(livedWith(b.reading, film)));
  if (values.length === 0) return null;
  const { band, lines } = linesFor(measure, film.film.foot, study, film.day);
  if (lines.length === 0) return undefined;
  let gravest: Beyond | undefined;
  for (const { reading, value } of values) {
    const passed = told(value, lines);
    if (!passed) continue;
    if (!gravest || isGraver(passed.severity, gravest.severity))
      gravest = {
        ...passed,
        value,
        reading,
        weak: band?.weak === true,
        others: null,
        also: [...roughly(value, reading), ...saysReckoned(film, reading, value)],
      };
  }
  if (!gravest) return undefined;
  const judged = measure === 'sole-depth.tip' ? soleJudged(gravest, film, study) : gravest;
  return values.length === 1 ? judged : amongReaders(judged, values, lines);
}

/** On a shoe whose bearing plane is not placed. */
function roughly({ measure }: Value, { taking: { frame } }: StudiedReading): string[] {
  if (measure.plane !== 'either' || frame?.isOnBearing !== false) return [];
  return [
    frame.ground === null
      ? t('Taken square to the line between the contacts, as neither `bearing` nor `ground` is placed.')
      : t('Taken square to the ground, as `bearing` is not placed; a wedge of some degrees hardly changes it.'),
  ];
}

function livedWith({ reading }: StudiedReading, { visit }: StudiedFilm): boolean {
  return visit.is.accepts.some(({ block, within }) => block === 'read' && within.start === reading.at.start);
}

function amongReaders(
  one: Beyond,
  values: readonly { readonly reading: StudiedReading; readonly value: Value }[],
  lines: Parameters<typeof told>[1],
): Beyond {
  const others = values.filter(({ reading }) => reading !== one.reading);
  const disagree = others.some(({ value }) => told(value, lines) === undefined);
  const found = others.map(
    ({ reading, value }) => [reading.reading.reader ?? t('the first reading'), say(value.value, value.unit)] as const,
  );
  return {
    ...one,
    severity: disagree && one.clear ? oneLower(one.severity) : one.severity,
    others: { disagree, found },
  };
}
