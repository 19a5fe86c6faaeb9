import { fixed } from '../language/figures.ts';
import { counted, t } from '../language/words.ts';
import { spoken } from '../language/rows.ts';
import type {
  Agreement,
  AgreementLack,
  LandmarkScatter,
  MeasureAgreement,
  OwnRepeats,
  ReaderPair,
  TableOrLack,
} from '../agreement/agreement.ts';
import type { Estimate } from '../agreement/bland-altman.ts';
import type { Interval } from '../agreement/interval.ts';
import type { Intraclass } from '../agreement/intraclass.ts';
import type { ScatterEllipse } from '../agreement/scatter-ellipse.ts';
import type { WithinFilms } from '../agreement/spreads.ts';
import { say } from '../findings/wording/wording.ts';
import type { MeasureUnit } from '../measures/unit.ts';
import { nameOfLandmark } from './landmark-names.ts';
import { readerWords } from './reader-words.ts';

/** Why there is no correlation. */
export const lackWords: Readonly<Record<AgreementLack, string>> = spoken({
  'one reader': 'no correlation between readers: no film has this measure by two of them',
  'one film': 'no correlation: it takes two films that the same people, or one person each time, have read',
  'all the same': 'no correlation: all values are the same',
});

/** What was read by whom, and what was left out. */
export function readLines({ films, byTwo, repeated, copies, followed, readers }: Agreement): string[] {
  const lines = [
    t(
      '{0} read by {1}; {2} by two or more, {3} more than once by one person',
      counted(films, 'one film', '{0} films'),
      readers.map(readerWords).join(', '),
      byTwo,
      repeated,
    ),
  ];
  if (copies > 0)
    lines.push(
      counted(
        copies,
        '{0} reading is a copy of another by the same person and is left out',
        '{0} readings are copies of another by the same person and are left out',
      ),
    );
  if (followed > 0)
    lines.push(
      counted(
        followed,
        '{0} reading was followed from the film before, whose errors it shares, and is left out',
        '{0} readings were followed from the film before, whose errors they share, and are left out',
      ),
    );
  if (films === 0) return followed > 0 ? lines.slice(1) : [t('No landmark is placed on any film.')];
  if (isNothingCompared({ byTwo, repeated }))
    lines.push(t('Nothing can be compared: it takes two readings of one film.'));
  return lines;
}

export const isNothingCompared = ({ byTwo, repeated }: Pick<Agreement, 'byTwo' | 'repeated'>): boolean =>
  byTwo === 0 && repeated === 0;

/** All that was found, a line each, indented by two blanks a level: what was read, each measure, each landmark. */
export function agreementLines(agreement: Agreement, all: boolean): string[] {
  const { landmarks, notInMm } = agreement;
  const lines = readLines(agreement);
  if (isNothingCompared(agreement)) return lines;
  const shown = all ? agreement.measures : firstMeasures(agreement.measures);
  const more = agreement.measures.length - shown.length;
  return [
    ...lines,
    ...shown.flatMap((measure) => ['', ...measureLines(measure)]),
    ...(more > 0 ? ['', t('  {0} more measures with --all', more)] : []),
    ...(landmarks.length > 0
      ? [
          '',
          t(
            '  Where landmarks were placed: one standard deviation in mm, along and across; direction from the toe upwards',
          ),
          ...landmarks.flatMap(landmarkLines),
        ]
      : []),
    ...(notInMm > 0 ? [`  ${notInMmWords(notInMm)}`] : []),
  ];
}

export const notInMmWords = (films: number): string =>
  counted(
    films,
    '{0} film with several readings has no scale or no ground: its landmarks are left out',
    '{0} films with several readings have no scale or no ground: their landmarks are left out',
  );

/** What is shown where nobody asks for more: the measures by which a foot is judged first. */
const usual: ReadonlySet<string> = new Set([
  'palmar-angle',
  'sole-depth.tip',
  'founder-distance.level',
  'founder-distance',
  'coronet-extensor',
  'capsular-rotation',
  'toe-length',
  'heel-height',
]);

/** The usual ones; where none of them was measured, all. */
export function firstMeasures(measures: readonly MeasureAgreement[]): readonly MeasureAgreement[] {
  const first = measures.filter(({ measure }) => usual.has(measure));
  return first.length > 0 ? first : measures;
}

function measureLines({
  kind,
  words,
  unit,
  readers,
  between,
  table,
  tableReaders,
  pairs,
  own,
}: MeasureAgreement): string[] {
  const lines = [t('  {0} (films: {1})', measureWords({ kind, words }), countWords(readers))];
  if (between) lines.push(t('    readings of one film by different people: {0}', withinWords(between, unit)));
  lines.push(...tableLines(table, unit, 'readers'));
  const unequal = unequalWords({ readers, table, tableReaders });
  if (unequal !== null) lines.push(`    ${unequal}`);
  for (const pair of pairs) lines.push(...pairLines(pair, unit));
  for (const one of own) lines.push(...ownLines(one, unit));
  return lines;
}

export const measureWords = ({ kind, words }: Pick<MeasureAgreement, 'kind' | 'words'>): string =>
  kind === 'photo' ? t('{0}, on photos', words) : words;

/** How many films each has read: `Ash 5, Rowan 6`. */
export const countWords = (readers: MeasureAgreement['readers']): string =>
  readers.map(({ reader, films }) => `${readerWords(reader)} ${films}`).join(', ');

/** Of which films and readers the correlations are where these are not all; null where they are. */
export function unequalWords({
  readers,
  table,
  tableReaders,
}: Pick<MeasureAgreement, 'readers' | 'table' | 'tableReaders'>): string | null {
  if ('lack' in table) return null;
  if (readers.every(({ reader, films }) => films === table.films && tableReaders.includes(reader))) return null;
  return t(
    'not everybody read every film: the correlations are of the {0} films that {1} have all read',
    table.films,
    tableReaders.map(readerWords).join(', '),
  );
}

function tableLines(table: TableOrLack, unit: MeasureUnit, of: 'readers' | 'times'): string[] {
  if ('lack' in table) return [`    ${lackWords[table.lack]}`];
  const { absolute, consistency, spreads } = table;
  const correlations = t('    ICC(2,1) {0}; ICC(3,1) {1}', intraclassWords(absolute), intraclassWords(consistency));
  if (of === 'times') return [correlations];
  return [
    correlations,
    t(
      '    standard error of one reading {0} (always the same reader {1}); smallest detectable change {2} ({3})',
      fine(spreads.sem, unit),
      fine(spreads.semSameReader, unit),
      fine(spreads.smallestChange, unit),
      fine(spreads.smallestChangeSameReader, unit),
    ),
    t(
      '    standard deviations: between films {0}, between readers {1}, left over {2}',
      fine(spreads.films, unit),
      fine(spreads.readers, unit),
      fine(spreads.rest, unit),
    ),
  ];
}

function pairLines(pair: ReaderPair, unit: MeasureUnit): string[] {
  const { first, second, films, bias, lower, upper } = pair;
  return [
    t(
      '    {0} less {1}, {2} films: bias {3}; 95 % limits {4} and {5}',
      readerWords(first),
      readerWords(second),
      films,
      estimateWords(bias, unit),
      estimateWords(lower, unit),
      estimateWords(upper, unit),
    ),
    `      ${growthWords(pair)}`,
  ];
}

export const estimateWords = ({ value, interval }: Estimate, unit: MeasureUnit): string =>
  `${fine(value, unit)} ${range(interval)}`;

/** Whether the difference grows with the size. */
export function growthWords({ slope, isProportional }: Pick<ReaderPair, 'slope' | 'isProportional'>): string {
  if (slope === null) return t('too few films to tell whether the difference grows with the size');
  const growth = `${say(slope.value, '1', 2)} ${range(slope.interval)}`;
  return isProportional
    ? t('the difference grows with the size, by {0} for each unit', growth)
    : t('no growth of the difference with the size is seen: {0} for each unit', growth);
}

function ownLines({ reader, spread, smallestChange, table }: OwnRepeats, unit: MeasureUnit): string[] {
  return [
    spread.interval
      ? t(
          '    {0} again: {1}; smallest detectable change {2}',
          readerWords(reader),
          withinWords(spread, unit),
          fine(smallestChange, unit),
        )
      : t('    {0} again: {1}', readerWords(reader), withinWords(spread, unit)),
    ...('lack' in table ? [] : tableLines(table, unit, 'times').map((line) => `  ${line}`)),
  ];
}

export const withinWords = ({ sd, interval, films, readings }: WithinFilms, unit: MeasureUnit): string =>
  interval
    ? t(
        'standard deviation {0} {1}, of {2} readings of {3}',
        fine(sd, unit),
        range(interval),
        readings,
        counted(films, 'one film', '{0} films'),
      )
    : t('the same to the last figure, so that one may be a copy of the other');

export const intraclassWords = ({ value, interval }: Intraclass): string =>
  interval ? `${say(value, '1', 3)} ${range(interval, 3)}` : say(value, '1', 3);

/** With one decimal more than a value of it has, as it is about its error. */
export const fine = (value: number, unit: MeasureUnit): string => say(value, unit, 2);

/** Its ends without their unit. */
export const range = ({ low, high }: Interval, decimals = 2): string =>
  t('({0} to {1})', say(low, '1', decimals), say(high, '1', decimals));

function landmarkLines({ kind, landmark, between, own }: LandmarkScatter): string[] {
  const name = kind === 'photo' ? t('{0}, on photos', nameOfLandmark(landmark)) : nameOfLandmark(landmark);
  return [
    `    ${name.padEnd(46)} ${[
      between ? ellipseWords(between) : t('too few readings by different people'),
      ...(own ? [t('the same person again {0}', ellipseWords(own))] : []),
    ].join('; ')}`,
  ];
}

export const ellipseWords = ({ long, short, angle, placings, films }: ScatterEllipse): string =>
  angle === null
    ? t('{0} mm all round ({1} placings, {2})', fixed(long, 2), placings, counted(films, 'one film', '{0} films'))
    : t(
        '{0} by {1} mm at {2}° ({3} placings, {4})',
        fixed(long, 2),
        fixed(short, 2),
        say(angle, '1', 0),
        placings,
        counted(films, 'one film', '{0} films'),
      );
