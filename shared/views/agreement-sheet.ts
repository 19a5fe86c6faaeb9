import type {
  Agreement,
  FilmValues,
  LandmarkScatter,
  MeasureAgreement,
  OwnRepeats,
  ReaderPair,
} from '../agreement/agreement.ts';
import { agreementOf } from '../agreement/agreement.ts';
import type { Estimate, PairAgreement } from '../agreement/bland-altman.ts';
import { meanFoot, type FilmsRead, type MeanFoot, type ReadFilm } from '../agreement/read-films.ts';
import type { ScatterEllipse } from '../agreement/scatter-ellipse.ts';
import { readFrom, type ToldReadings } from '../agreement/told-readings.ts';
import type { DifferencePlotInput, DrawnEstimate } from '../drawing/agreement/difference-plot.ts';
import { holds95, type ScatterFootInput } from '../drawing/agreement/scatter-foot.ts';
import { agreementCsv } from '../export/agreement-csv.ts';
import { footWords, say, saySigned, sentence } from '../findings/wording/wording.ts';
import { shownDate } from '../language/dates.ts';
import { fixed } from '../language/figures.ts';
import { counted, t } from '../language/words.ts';
import { spoken } from '../language/rows.ts';
import type { MeasureUnit } from '../measures/unit.ts';
import { findMeasure } from '../measures/registry.ts';
import { landmarks, type View } from '../notation/landmarks.ts';
import {
  countWords,
  ellipseWords,
  estimateWords,
  fine,
  firstMeasures,
  growthWords,
  intraclassWords,
  lackWords,
  measureWords,
  notInMmWords,
  range,
  readLines,
  unequalWords,
  withinWords,
} from './agreement-lines.ts';
import { nameOfLandmark } from './landmark-names.ts';
import { readerWords } from './reader-words.ts';

/** How far readings of one film lie apart, as a page shows it. */
export interface AgreementSheet {
  /** What was read, and what was left out. */
  readonly read: readonly string[];
  readonly measures: readonly AgreementRow[];
  /** Keys of those that are shown where nobody asks for more. */
  readonly first: readonly string[];
  /** Where landmarks were placed: one for each view of films and photos, of different people and of one person each. */
  readonly scatters: readonly ScatterSheet[];
  readonly notInMm: string | null;
  /** All of it as a table of numbers. */
  csv(): string;
}

export interface AgreementFigure {
  readonly label: string;
  readonly text: string;
  /** A second one below it; empty for none. */
  readonly also: string;
}

export interface AgreementRow {
  readonly key: string;
  readonly words: string;
  readonly family: string;
  /** How many films each has read. */
  readonly counts: string;
  readonly figures: readonly AgreementFigure[];
  /** What is missing, unbalanced, or one person's own. */
  readonly said: readonly string[];
  readonly pairs: readonly ReadingPair[];
}

/** Two readers of the same films, or one who read them twice. */
export interface ReadingPair {
  readonly key: string;
  /** `Ash less Rowan`. */
  readonly words: string;
  /** All of it in sentences. */
  readonly said: readonly string[];
  /** All that is drawn but its width. */
  readonly plot: Omit<DifferencePlotInput, 'width'>;
  /** The films, in the order of the plot's points: their line where they stand in the file that is looked at. */
  readonly lines: readonly (number | null)[];
}

export interface ScatterSheet {
  readonly key: string;
  readonly words: string;
  readonly title: string;
  /** The film that the ellipses are drawn on. */
  readonly on: string;
  readonly foot: ScatterFootInput['foot'];
  readonly axes: ScatterFootInput['axes'];
  readonly rows: readonly (ScatterFootInput['ellipses'][number] & {
    readonly name: string;
    /** One standard deviation along and across, and what holds 95 of 100. */
    readonly text: string;
    readonly most: string;
    /** How many placings of how many films. */
    readonly counts: string;
  })[];
}

export function agreementSheet(told: ToldReadings): AgreementSheet {
  return sheetOf(readFrom(told));
}

/** The same of what was read here. */
export function sheetOf(read: FilmsRead): AgreementSheet {
  const agreement = agreementOf(read);
  const rows = agreement.measures.map(rowOf);
  const first = new Set(firstMeasures(agreement.measures).map(keyOf));
  return {
    read: readLines(agreement).map((line) => (line.endsWith('.') ? line : `${line}.`)),
    measures: rows,
    first: [...first],
    scatters: scatterSheets(read, agreement),
    notInMm: agreement.notInMm > 0 ? sentenceOf(notInMmWords(agreement.notInMm)) : null,
    csv: () => agreementCsv(agreement, []),
  };
}

const keyOf = ({ kind, measure }: Pick<MeasureAgreement, 'kind' | 'measure'>): string => `${kind} ${measure}`;

function rowOf(measure: MeasureAgreement): AgreementRow {
  const { unit, table, between, pairs, own, readers } = measure;
  const unequal = unequalWords(measure);
  return {
    key: keyOf(measure),
    words: sentence(measureWords(measure)),
    family: findMeasure(measure.measure)?.family ?? '',
    counts: countWords(readers),
    figures: figuresOf(measure),
    said: [
      ...('lack' in table && pairs.length + (between ? 1 : 0) > 0 ? [sentenceOf(lackWords[table.lack])] : []),
      ...(unequal === null ? [] : [sentenceOf(unequal)]),
      ...own.map((one) => ownSentence(one, unit)),
    ],
    pairs: [
      ...pairs.map((pair) =>
        pairSheet(measure, pair, { first: readerWords(pair.first), second: readerWords(pair.second) }),
      ),
      ...own.flatMap(({ reader, times }) =>
        times
          ? [
              pairSheet(measure, times, {
                first: t('{0}, first time', readerWords(reader)),
                second: t('second time'),
              }),
            ]
          : [],
      ),
    ],
  };
}

const sentenceOf = (words: string): string => `${sentence(words)}.`;

export const figureLabels = spoken({
  any: 'Any reader, ICC(2,1)',
  these: 'These readers, ICC(3,1)',
  error: 'Error of one reading',
  change: 'Smallest change that can be seen',
  within: 'Within one film',
  films: 'Between films',
});

function figuresOf({ unit, table, between }: MeasureAgreement): AgreementFigure[] {
  const figure = (label: keyof typeof figureLabels, text = '', also = ''): AgreementFigure => ({
    label: figureLabels[label],
    text,
    also,
  });
  const within = between?.interval ? range(between.interval) : '';
  const sd = figure('within', between ? fine(between.sd, unit) : '', within);
  if ('lack' in table) return [figure('any'), figure('these'), figure('error'), figure('change'), sd, figure('films')];
  const { absolute, consistency, spreads } = table;
  return [
    figure('any', ...parted(intraclassWords(absolute))),
    figure('these', ...parted(intraclassWords(consistency))),
    figure('error', fine(spreads.sem, unit), t('same reader {0}', fine(spreads.semSameReader, unit))),
    figure(
      'change',
      fine(spreads.smallestChange, unit),
      t('same reader {0}', fine(spreads.smallestChangeSameReader, unit)),
    ),
    sd,
    figure('films', fine(spreads.films, unit), t('readers {0}', fine(spreads.readers, unit))),
  ];
}

/** A value and its interval below it. */
const parted = (words: string): [string, string] => {
  const at = words.indexOf(' (');
  return at < 0 ? [words, ''] : [words.slice(0, at), words.slice(at + 1)];
};

function ownSentence({ reader, spread, smallestChange }: OwnRepeats, unit: MeasureUnit): string {
  const again = withinWords(spread, unit);
  return spread.interval
    ? t('{0} again: {1}; smallest change that can be seen {2}.', readerWords(reader), again, fine(smallestChange, unit))
    : t('{0} again: {1}.', readerWords(reader), again);
}

function pairSheet(
  { kind, words, unit }: MeasureAgreement,
  pair: Omit<ReaderPair, 'first' | 'second'>,
  { first, second }: { readonly first: string; readonly second: string },
): ReadingPair {
  const less = t('{0} less {1}', first, second);
  const values = pair.values.toSorted((one, other) => meanOf(one) - meanOf(other));
  const named = sentence(measureWords({ kind, words }));
  const said = [
    t('Bias {0}; 95 % limits {1} and {2}, by {3} films.', ...limitsOf(pair, unit), pair.films),
    sentenceOf(growthWords(pair)),
  ];
  return {
    key: `${first}\n${second}`,
    words: less,
    said,
    lines: values.map(({ film: { file, line } }) => (file === null ? line : null)),
    plot: {
      unit,
      points: values.map((one) => ({
        mean: meanOf(one),
        difference: one.first - one.second,
        words: t(
          '{0}: {1}, difference {2}',
          filmWords(one.film),
          fine(meanOf(one), unit),
          saySigned(one.first - one.second, unit, 2),
        ),
      })),
      bias: drawn(t('bias'), pair.bias, unit),
      lower: drawn(t('lower limit'), pair.lower, unit),
      upper: drawn(t('upper limit'), pair.upper, unit),
      growth: pair.isProportional ? (pair.slope?.value ?? null) : null,
      along: t('Mean of the two'),
      up: less,
      title: t('{0}: {1}', named, less),
      description: said.join(' '),
    },
  };
}

const meanOf = ({ first, second }: FilmValues): number => (first + second) / 2;

const limitsOf = ({ bias, lower, upper }: PairAgreement, unit: MeasureUnit): readonly [string, string, string] => [
  estimateWords(bias, unit),
  estimateWords(lower, unit),
  estimateWords(upper, unit),
];

const drawn = (name: string, { value, interval }: Estimate, unit: MeasureUnit): DrawnEstimate => ({
  value,
  ...interval,
  words: `${name} ${fine(value, unit)}`,
  interval: range(interval),
});

/** `2026-03-04, left fore`; with the file where it is another one. */
function filmWords({ file, date, foot }: ReadFilm): string {
  const film = date === null ? footWords[foot] : t('{0}, {1}', shownDate(date), footWords[foot]);
  return file === null ? film : t('{0} in {1}', film, file);
}

const viewWords: Readonly<Record<View, string>> = spoken({
  lateral: 'side view',
  front: 'front view',
  solar: 'sole view',
});

function scatterSheets({ films }: FilmsRead, { landmarks: found }: Agreement): ScatterSheet[] {
  const kinds = [...new Set(found.map(({ kind, view }) => `${kind} ${view}`))];
  return kinds.flatMap((key) => {
    const those = found.filter(({ kind, view }) => `${kind} ${view}` === key);
    const [one] = those;
    const on = one && mostPlaced(films, one);
    if (!one || !on) return [];
    return (['between', 'own'] as const).flatMap((of): ScatterSheet[] => {
      const rows = those.flatMap((scatter) => scatterRow(scatter, scatter[of], on.foot));
      if (rows.length === 0) return [];
      const whose = of === 'between' ? t('Different readers') : t('The same reader again');
      const where = one.kind === 'photo' ? t('{0}, on photos', viewWords[one.view]) : viewWords[one.view];
      const words = kinds.length > 1 ? t('{0}, {1}', whose, where) : whose;
      return [
        {
          key: `${key} ${of}`,
          words,
          title: t('Where landmarks were placed: {0}', words),
          on: t('Drawn on the film of {0}.', filmWords(on.film)),
          foot: {
            foot: on.film.foot,
            view: on.film.view,
            placed: on.foot.places,
            ground: on.film.ground,
            scale: on.foot.scale,
            landmarkWords: new Map(landmarks.map(({ word, name }) => [word, name])),
          },
          axes: on.foot.axes,
          rows,
        },
      ];
    });
  });
}

/** The film of the view on which most is placed. */
function mostPlaced(
  films: readonly ReadFilm[],
  { kind, view }: LandmarkScatter,
): { readonly film: ReadFilm; readonly foot: MeanFoot } | null {
  let most: { readonly film: ReadFilm; readonly foot: MeanFoot } | null = null;
  for (const film of films) {
    if (film.kind !== kind || film.view !== view) continue;
    const foot = meanFoot(film, [...film.readings.values()].flat());
    if (foot && foot.places.size > (most?.foot.places.size ?? 0)) most = { film, foot };
  }
  return most;
}

function scatterRow(
  { landmark }: LandmarkScatter,
  ellipse: ScatterEllipse | null,
  { places }: MeanFoot,
): ScatterSheet['rows'][number][] {
  if (!ellipse || !places.has(landmark)) return [];
  const { long, short, angle, placings, films } = ellipse;
  const name = nameOfLandmark(landmark);
  return [
    {
      landmark,
      name,
      text:
        angle === null
          ? t('{0} mm all round', fixed(long, 2))
          : t('{0} by {1} mm at {2}°', fixed(long, 2), fixed(short, 2), say(angle, '1', 0)),
      counts: t('{0} placings, {1}', placings, counted(films, 'one film', '{0} films')),
      most: t('{0} by {1} mm', say(holds95 * long, '1', 1), say(holds95 * short, '1', 1)),
      long,
      short,
      angle: angle ?? 0,
      words: `${name}: ${ellipseWords(ellipse)}`,
    },
  ];
}
