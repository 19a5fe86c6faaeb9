import { t } from '../../../shared/language/words.ts';
import { linesFor, sayAgainst, usualOf, type LimitLine } from '../../../shared/findings/limits/limits.ts';
import { publishedLines } from '../../../shared/findings/limits/published-lines.ts';
import { sayLimit, sayWithSpread, wordsFor } from '../../../shared/findings/wording/wording.ts';
import type { Measure } from '../../../shared/measures/registry.ts';
import type { FootName } from '../../../shared/notation/choices.ts';
import { sinkingSheet } from '../../../shared/views/sinking-sheet.ts';
import type { StudiedFilm, Study } from '../../../shared/trim/study.ts';
import { spoken } from '../../../shared/language/rows.ts';
import { bandLine } from './band-line.ts';
import { code, paragraphs, plain } from './markdown.ts';

export interface MeasurePlace {
  readonly study: Study;
  readonly film: StudiedFilm | undefined;
  readonly foot: FootName | null;
}

const planeWords = spoken({
  bearing: 'bearing plane',
  either: 'bearing plane, and where that is not placed to the ground',
  ground: 'ground',
});

/** What a measure is, what is usual, and what it comes to in the film that it is named in. */
export function describeMeasure(measure: Measure, { study, film, foot }: MeasurePlace): string {
  return paragraphs(
    `**${measure.name}** · ${wordsFor(measure, foot ?? 'LF')}${measure.alias ? t(' (also {0})', code(measure.alias)) : ''}`,
    measure.doc,
    film && valuesIn(film, measure),
    foot && sinkingOver(measure, foot, study),
    usual(measure, foot, study, film?.day ?? null),
    film && foot && drawn(film, measure, foot, study),
    published(measure, foot, study),
    [
      t('Formula: {0}', code(measure.formula)),
      ...(measure.needs.length > 0 ? [t('Landmarks: {0}', measure.needs.map(code).join(', '))] : []),
      ...(measure.plane === 'none' ? [] : [t('Measured to the {0}', planeWords[measure.plane])]),
      ...(measure.byHand ? [t('Can be taken on the hoof by hand.')] : []),
    ]
      .map((line) => `- ${line}`)
      .join('\n'),
  );
}

/** Of the measures that sinking is judged by: what all films of the foot say of it. */
function sinkingOver({ name }: Measure, foot: FootName, study: Study): string {
  const sheet = name.endsWith('.level') ? sinkingSheet(foot, study) : null;
  return sheet ? t('Sinking, over all films of this foot: {0}', plain(sheet.text)) : '';
}

function valuesIn(film: StudiedFilm, measure: Measure): string {
  const values = film.readings.flatMap(({ reading, taking }) => {
    const value = taking.values.get(measure.name);
    const reader = reading.reader === null ? '' : t(' (reader {0})', plain(reading.reader));
    return value ? [`**${sayWithSpread(value)}**${reader}`] : [];
  });
  return values.length > 0 ? t('Here: {0}', values.join(', ')) : t('Cannot be computed from what is placed here.');
}

/** The usual range with the film's values on it; the signs want letters of one width. */
function drawn(film: StudiedFilm, { name, unit }: Measure, foot: FootName, study: Study): string {
  const values = film.readings.flatMap(({ taking }) => taking.values.get(name)?.value ?? []);
  const line = bandLine(usualOf(linesFor(name, foot, study, film.day)), values, unit);
  return line === '' ? '' : ['```text', line, '```'].join('\n');
}

/** Where no foot is named, the values of fore and hind feet stand together: each says of which it is. */
function published({ name }: Measure, foot: FootName | null, study: Study): string {
  const feet: readonly FootName[] = foot ? [foot] : ['LF', 'LH'];
  const lines = [...new Set(feet.flatMap((one) => publishedLines(name, one, study)))];
  return lines.length > 0 ? [t('Published:'), '', ...lines.map((line) => `- ${plain(line)}`)].join('\n') : '';
}

/** Where no foot is named, fore and hind are told apart only if they differ. */
function usual(measure: Measure, foot: FootName | null, study: Study, day: number | null): string {
  if (foot) return range(measure, foot, study, day) ?? '';
  const fore = range(measure, 'LF', study, day);
  const hind = range(measure, 'LH', study, day);
  if (fore === hind) return fore ?? '';
  return [fore && t('Fore: {0}', fore), hind && t('Hind: {0}', hind)].filter((part) => part !== null).join('\n\n');
}

function range(measure: Measure, foot: FootName, study: Study, day: number | null): string | null {
  const lines = linesFor(measure.name, foot, study, day);
  const { low, high } = usualOf(lines);
  const source = (side: LimitLine['side'], at: number) => {
    const line = lines.lines.find((one) => one.side === side && one.at === at);
    const against = line ? sayAgainst(line, measure.unit) : '';
    return plain(`${line?.source ?? ''}${against && `. ${against.replace(/\.$/, '')}`}`);
  };
  const parts = [
    low !== null && t('from {0} ({1})', sayLimit(low, measure.unit), source('low', low)),
    high !== null && t('up to {0} ({1})', sayLimit(high, measure.unit), source('high', high)),
  ].filter((part) => part !== false);
  return parts.length > 0 ? t('Usual: {0}', parts.join(', ')) : null;
}
