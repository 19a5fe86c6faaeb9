import { findMeasure } from '../../measures/registry.ts';
import { bands, lengthFactor } from '../../reference/bands.ts';
import { matters } from '../../reference/matters.ts';
import { linesFor, passed, sayAgainst, type Line } from '../limits.ts';
import type { Remark, Rule, Surroundings } from '../rule.ts';
import { footWords, say, sayLimit, sentence, wordsFor } from '../wording.ts';
import type { Value } from '../../measures/take.ts';
import type { StudiedFilm, StudiedReading } from '../../trim/study.ts';

/** Measures for which something is published. */
const banded = new Set(bands.map((band) => band.measure));
const none: readonly Remark[] = [];

/** Values outside what is published as usual, or outside what the case itself allows. One code a measure. */
export const rangeRules: readonly Rule[] = [...banded].map(rangeRule);

function rangeRule(name: string): Rule {
  const measure = findMeasure(name);
  if (!measure) throw new Error(`a band for ${name}, which is no measure`);
  return {
    code: `range/${name}`,
    severity: 'warning',
    title: `${sentence(measure.words)} out of its range`,
    about: matters[name] ? `${measure.doc} ${matters[name]}` : measure.doc,
    onReading(film, reading, study) {
      const value = reading.taking.values.get(name);
      return value ? outOf(value, film, reading, study) : none;
    },
  };
}

/** The rule for limits of the case, and of sets of one's own, on measures for which nothing is published. */
export const agreedRange: Rule = {
  code: 'range/agreed',
  severity: 'warning',
  title: 'Value outside a limit of the case or of a set of one’s own',
  about:
    'The case, or a set of reference values of one’s own, has a limit for a measure for which no range is published, and the value lies outside it.',
  *onReading(film, reading, study) {
    if (study.record.limits.length === 0 && study.reference.length === 0) return;
    for (const value of reading.taking.values.values())
      if (!banded.has(value.measure.name)) yield* outOf(value, film, reading, study);
  },
};

function outOf(value: Value, film: StudiedFilm, reading: StudiedReading, study: Surroundings): readonly Remark[] {
  const { foot } = film.film;
  const { band, lines } = linesFor(value.measure.name, foot, study);
  const line = passed(value.value, lines);
  if (!line) return none;
  const remark: Remark = {
    at: placeOf(film, reading, value),
    severity: line.severity,
    message: words(value, film, reading, line, band?.weak === true, study),
    measure: value.measure.name,
    value: value.value,
    limit: line.at,
    source: line.source,
    ...(line.own && {
      related: [
        {
          at: { start: line.own.start + line.own.is.at.start, end: line.own.start + line.own.is.at.end },
          message: 'The limit agreed for this case.',
        },
      ],
    }),
  };
  return [remark];
}

function words(
  value: Value,
  { film }: StudiedFilm,
  { reading }: StudiedReading,
  line: Line,
  weak: boolean,
  study: Surroundings,
): string {
  const { measure, unit, sd } = value;
  const side = line.side === 'high' ? 'above' : 'below';
  const near = Math.abs(value.value - line.at) < 1.96 * sd ? ' This is within the error of placing the landmarks.' : '';
  const factor = lengthFactor(study.animal);
  const against = sayAgainst(line, unit);
  const small =
    measure.kind === 'length' && factor < 1 && !line.own && (!line.set || against)
      ? ` The ${line.set ? 'published ' : ''}limit is scaled to ${Math.round((study.animal.heightMm ?? 0) / 10)} cm at the withers (Thieme 2015: lengths follow height).`
      : '';
  const alone = weak ? ' Readers repeat this measure badly: never decide on it alone.' : '';
  const reader = reading.reader === null ? '' : ` (reader ${reading.reader})`;
  return (
    `${sentence(wordsFor(measure, film.foot))}, ${footWords[film.foot]}${reader}: ${say(value.value, unit)} ± ${say(sd, unit)} is ${side} ${sayLimit(line.at, unit)} (${line.source}).${against && ` ${against}`}` +
    `${near}${line.says ? ` ${line.says}` : ''}${alone}${small}`
  );
}

/** Where the reader of the file would look: the first landmark that the measure needs, else the film's header. */
function placeOf({ film }: StudiedFilm, { reading }: StudiedReading, value: Value): { start: number; end: number } {
  const placing = value.measure.needs
    .map((name) => reading.placings.find((placing) => placing.name === name))
    .find((found) => found);
  return placing?.at ?? film.head;
}
