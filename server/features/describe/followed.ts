import { fixed } from '../../../shared/language/figures.ts';
import { followedPlacing, type PlacingOfSeries } from '../../../shared/course/followed.ts';
import type { Inspection } from '../../../shared/findings/inspect.ts';
import { sayDay } from '../../../shared/findings/wording/say-day.ts';
import { t } from '../../../shared/language/words.ts';
import { findLandmark } from '../../../shared/notation/landmarks.ts';
import { placingDoc } from '../../../shared/notation/vocabulary.ts';
import { filmAt, readingAt, type Spot } from '../../text/spot.ts';
import { paragraphs, plain } from './markdown.ts';

/** What `followed` means, and what this landmark was followed from. */
export function describeFollowed(spot: Spot, { study }: Inspection): string {
  const film = filmAt(study, spot);
  const reading = film && readingAt(film, spot);
  const name = findLandmark(spot.statement.word)?.word;
  const placing = name && reading && followedPlacing(name, film, reading, study.series);
  return paragraphs('**followed**', placingDoc.followed, placing && placing.from ? sayFrom(placing, placing.from) : '');
}

function sayFrom(placing: PlacingOfSeries, from: PlacingOfSeries): string {
  const { film, day } = from.film;
  const path = plain(film.path.text);
  const where = day === null ? t('Followed from “{0}”.', path) : t('Followed from “{0}”, {1}.', path, sayDay(day));
  const [own, before] = [placing.mm, from.mm];
  const share =
    own === null || before === null
      ? t('Without a scale on both films nothing is taken to be shared.')
      : t(
          'It may be off by {0} mm (one standard deviation), {1} mm of it as that placing is.',
          fixed(own, 2),
          fixed(Math.min(own, before), 2),
        );
  return `${where} ${share}`;
}
