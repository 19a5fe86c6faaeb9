import { t } from '../language/words.ts';
import { once } from '../notation/once.ts';
import { kindOf, linesFor, sayAgainst, usualOf, type LineOnSide, type LimitLine } from '../findings/limits/limits.ts';
import { publishedLines } from '../findings/limits/published-lines.ts';
import { sayLimit, wordsFor } from '../findings/wording/wording.ts';
import type { MeasureUnit } from '../measures/unit.ts';
import type { Measure } from '../measures/registry.ts';
import { measuresIn } from '../measures/registry.ts';
import type { FootName } from '../notation/choices.ts';
import { animalOn } from '../trim/case-animal.ts';
import type { StudiedFilm, Study } from '../trim/study.ts';

/** What a measure of one foot is held against, in words and as lines. Plain data. */
export interface Yardstick {
  readonly measure: string;
  readonly words: string;
  readonly lines: readonly LineOnSide[];
  readonly usual: { readonly low: number | null; readonly high: number | null } | null;
  /** `2° to 10°`, `up to 8 mm`, or nothing. */
  readonly usualText: string;
  readonly source: string;
  /** What others have measured, a line each. */
  readonly published: readonly string[];
}

/** Films of one foot and view have the same yardsticks, but for those of before the animal was grown, or when it was heavy. */
function yardstickKey({ film: { foot, view }, day }: FilmOfKey, study: Study): string {
  return `${kindOf(foot, animalOn(study.animal, day))} ${view}`;
}

type FilmOfKey = Pick<StudiedFilm, 'film' | 'day'>;

/** The yardsticks of a study by their keys. */
const keptOf = once((study: Study) => {
  void study;
  return new Map<string, readonly Yardstick[]>();
});

/** One for each measure of a view, in the order of the registry. */
export function yardsticksOf(study: Study, film: FilmOfKey): readonly Yardstick[] {
  const { foot, view } = film.film;
  const known = keptOf(study);
  const key = yardstickKey(film, study);
  const yardsticks = known.get(key) ?? measuresIn(view).map((measure) => yardstick(measure, foot, study, film.day));
  known.set(key, yardsticks);
  return yardsticks;
}

function yardstick(measure: Measure, foot: FootName, study: Study, day: number | null): Yardstick {
  const lines = linesFor(measure.name, foot, study, day);
  const usual = lines.lines.length > 0 ? usualOf(lines) : null;
  const inner = lines.lines.filter((line) => line.at === (line.side === 'low' ? usual?.low : usual?.high));
  return {
    measure: measure.name,
    words: wordsFor(measure, foot),
    lines: lines.lines.map(({ side, at, severity }) => ({ side, at, severity })),
    usual,
    usualText: usual ? usualText(usual, measure.unit) : '',
    source: sourcesOf(inner, measure.unit),
    published: publishedLines(measure.name, foot, study),
  };
}

/** Each source once, with what stands against it. */
function sourcesOf(lines: readonly LimitLine[], unit: MeasureUnit): string {
  const said = lines.map((line) => {
    const against = sayAgainst(line, unit);
    return against ? `${line.source}. ${against}` : line.source;
  });
  return [...new Set(said)].join('; ');
}

/** `2° to 10°`, `up to 8 mm`, or nothing. */
export function usualText({ low, high }: { low: number | null; high: number | null }, unit: MeasureUnit): string {
  if (low !== null && high !== null) return t('{0} to {1}', sayLimit(low, unit), sayLimit(high, unit));
  if (high !== null) return t('up to {0}', sayLimit(high, unit));
  return low !== null ? t('from {0}', sayLimit(low, unit)) : '';
}
