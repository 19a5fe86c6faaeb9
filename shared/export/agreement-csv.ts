import type { Agreement, LandmarkScatter, MeasureAgreement, TableOrLack } from '../agreement/agreement.ts';
import type { Estimate } from '../agreement/bland-altman.ts';
import type { Interval } from '../agreement/interval.ts';
import { spreadInterval } from '../agreement/own-spread-interval.ts';
import type { OwnSpread } from '../agreement/own-spread.ts';
import type { WithinFilms } from '../agreement/spreads.ts';
import { csv } from './csv.ts';

const columns = [
  'kind',
  'name',
  'of',
  'reader',
  'second_reader',
  'figure',
  'unit',
  'value',
  'low',
  'high',
  'films',
  'readings',
  'df',
] as const;

type AgreementCells = Readonly<Record<(typeof columns)[number], string | number | null>>;

/** What stands in each row of one thing. */
type About = Pick<AgreementCells, 'kind' | 'name' | 'of' | 'unit'> & Partial<AgreementCells>;

/**
 * A row a figure, so that each has its interval beside it: of all readers together (`readers`), of two of them (`pair`), of one who
 * read again (`own`), of where a landmark was placed, and of one placing of a reader. Numbers are not rounded; the unnamed reader has an empty name.
 */
export function agreementCsv({ measures, landmarks }: Agreement, spreads: readonly OwnSpread[]): string {
  return csv(columns, [
    ...measures.flatMap(measureRows),
    ...landmarks.flatMap(landmarkRows),
    ...spreads.map((spread) =>
      row({ kind: 'film', name: 'placing', of: 'own', unit: 'mm', reader: spread.reader }, 'sd', spread.mm, {
        ...spreadInterval(spread),
        films: spread.films,
        readings: spread.placings,
        df: spread.df,
      }),
    ),
  ]);
}

function row(about: About, figure: string, value: number | null, more: Partial<AgreementCells> = {}): AgreementCells {
  const none = { reader: null, second_reader: null, low: null, high: null, films: null, readings: null, df: null };
  return { ...none, ...about, figure, value, ...more };
}

const ends = (interval: Interval | null): Partial<AgreementCells> => interval ?? {};

const estimated = (about: About, figure: string, { value, interval }: Estimate): AgreementCells =>
  row(about, figure, value, interval);

const within = (about: About, { sd, interval, films, readings, df }: WithinFilms): AgreementCells =>
  row(about, 'within', sd, { ...ends(interval), films, readings, df });

function measureRows({
  kind,
  measure,
  unit,
  between,
  table,
  tableReaders,
  pairs,
  own,
}: MeasureAgreement): AgreementCells[] {
  const about = { kind, name: measure, unit };
  const all = { ...about, of: 'readers' };
  return [
    ...(between ? [within(all, between)] : []),
    ...tableRows({ ...all, reader: tableReaders.join('; ') }, table),
    ...pairs.flatMap(({ first, second, films, bias, sd, lower, upper, slope }) => {
      const pair = { ...about, of: 'pair', reader: first, second_reader: second, films };
      return [
        estimated(pair, 'bias', bias),
        row(pair, 'difference_sd', sd),
        estimated(pair, 'lower_limit', lower),
        estimated(pair, 'upper_limit', upper),
        ...(slope ? [estimated({ ...pair, unit: '1' }, 'slope', slope)] : []),
      ];
    }),
    ...own.flatMap(({ reader, spread, smallestChange, table: times }) => {
      const again = { ...about, of: 'own', reader };
      return [
        within(again, spread),
        row(again, 'smallest_change', smallestChange),
        ...tableRows(again, times).slice(0, 2),
      ];
    }),
  ];
}

/** Both correlations first. */
function tableRows(about: About, table: TableOrLack): AgreementCells[] {
  if ('lack' in table) return [];
  const { films, columns: count, absolute, consistency, spreads } = table;
  const of = { ...about, films, readings: films * count };
  const one = { ...of, unit: '1' };
  return [
    row(one, 'icc21', absolute.value, ends(absolute.interval)),
    row(one, 'icc31', consistency.value, ends(consistency.interval)),
    row(of, 'sem', spreads.sem),
    row(of, 'sem_same_reader', spreads.semSameReader),
    row(of, 'smallest_change', spreads.smallestChange),
    row(of, 'smallest_change_same_reader', spreads.smallestChangeSameReader),
    row(of, 'sd_films', spreads.films),
    row(of, 'sd_readers', spreads.readers),
    row(of, 'sd_rest', spreads.rest),
  ];
}

function landmarkRows({ kind, landmark, between, own }: LandmarkScatter): AgreementCells[] {
  return (
    [
      ['readers', between],
      ['own', own],
    ] as const
  ).flatMap(([of, ellipse]) => {
    if (!ellipse) return [];
    const { long, short, angle, films, placings, df } = ellipse;
    const about = { kind, name: landmark, of, unit: 'mm', films, readings: placings, df };
    return [row(about, 'long', long), row(about, 'short', short), row({ ...about, unit: 'deg' }, 'angle', angle)];
  });
}
