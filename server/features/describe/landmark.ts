import { sayChoice } from '../../../shared/language/choice-words.ts';
import { t } from '../../../shared/language/words.ts';
import { say, sayWithSpread } from '../../../shared/findings/wording/wording.ts';
import { measures } from '../../../shared/measures/registry.ts';
import type { Measure } from '../../../shared/measures/registry.ts';
import type { Landmark } from '../../../shared/notation/landmarks.ts';
import type { StudiedFilm, StudiedReading } from '../../../shared/trim/study.ts';
import { code, paragraphs } from './markdown.ts';

export interface LandmarkPlace {
  readonly film?: StudiedFilm | undefined;
  readonly reading?: StudiedReading | undefined;
}

/** Where a landmark lies, and what rests on it: with the value in this reading, or with what is still missing. */
export function describeLandmark(landmark: Landmark, { film, reading }: LandmarkPlace): string {
  const resting = measures.filter(
    (measure) => measure.view === landmark.view && (measure.needs as readonly string[]).includes(landmark.word),
  );
  return paragraphs(
    t('**{0}** · {1} view', landmark.word, sayChoice(landmark.view)),
    landmark.doc,
    resting.length > 0 && (film ? t('On it rest, in this film:') : t('On it rest:')),
    resting.map((measure) => `- ${measure.words}${film ? `: ${state(measure, reading)}` : ''}`).join('\n'),
  );
}

function state(measure: Measure, reading: StudiedReading | undefined): string {
  const value = reading?.taking.values.get(measure.name);
  if (value) return `**${value.unit === '1' ? say(value.value, '1') : sayWithSpread(value)}**`;
  const placed = new Set(reading?.reading.placings.map(({ name }) => name));
  const missing = measure.needs.filter((name) => !placed.has(name));
  if (missing.length > 0) return t('needs {0}', missing.map(code).join(', '));
  return measure.kind === 'length' && reading?.taking.scale === null ? t('needs a scale') : t('cannot be computed');
}
