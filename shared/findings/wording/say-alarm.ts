import { counted, t } from '../../language/words.ts';
import { spoken } from '../../language/rows.ts';
import type { Alarm, Ended } from '../../course/alarm.ts';
import type { Rise } from '../../course/rise.ts';
import type { StudiedFilm } from '../../trim/study.ts';
import type { CaseRemark } from '../rule.ts';
import { sayDay } from './say-day.ts';
import { list, say } from './wording.ts';

/** `than on 20 April 2026`, `than on the 3 films since 20 April 2026`, `from 20 April to 12 August 2026`. */
export function since({ rise, since: first, earlier }: Alarm): string {
  if (rise.seenAs === 'trend' && earlier > 1)
    return t('than on {0}, by the line through all films since', sayDay(first));
  return counted(earlier, 'than on {1}', 'than the mean of the {0} films since {1}', sayDay(first));
}

/** `over the five films since 20 April 2026`, where the line through all of them tells; null where two levels are compared. */
export function overFilms({ rise, since: first, earlier }: Alarm): string | null {
  if (rise.seenAs !== 'trend' || earlier < 2) return null;
  return t('over the {0} films since {1}', countWords[earlier + 1] ?? earlier + 1, sayDay(first));
}

const countWords = spoken([
  '',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
]);

/** `3.6 ± 1.1 mm`, `6.2 ± 2.9°`. */
export function sayBy({ by, sd }: Pick<Rise, 'by' | 'sd'>, unit: 'mm' | 'deg'): string {
  return `${say(by, '1', 1)} ± ${say(sd, unit)}`;
}

/** By whose placings, where several people have placed the films; and who of them sees nothing. */
export function sayReaders(reader: string | null, against: readonly string[]): string {
  if (reader === null) return '';
  return against.length === 0
    ? t(' By the placings of {0}.', reader)
    : t(
        ' The readers disagree: this is by the placings of {0}; by those of {1} nothing is seen.',
        reader,
        list(against),
      );
}

export function ended({ by, day }: Ended): string {
  return by === 'vet'
    ? t('Seen by the vet on {0}; later films are held against what was filmed by then.', sayDay(day))
    : t('The later films, up to {0}, show it where it was before.', sayDay(day));
}

/** An open alarm stands at the newest film of the foot, an ended one at the film on which it was first told. */
export function alarmRemark(
  films: readonly StudiedFilm[],
  alarm: Alarm,
  severity: NonNullable<CaseRemark['severity']>,
  message: string,
  measure?: string,
): CaseRemark {
  const told = films.findLast(({ day }) => day === alarm.raised);
  const film = (alarm.ended ? told : films.at(-1)) ?? (films[0] as StudiedFilm);
  const first = films.find(({ day }) => day === alarm.since);
  const placeOf = ({ visit, film: { head } }: StudiedFilm) => ({
    start: visit.start + head.start,
    end: visit.start + head.end,
  });
  return {
    start: film.visit.start,
    at: film.film.head,
    severity,
    message,
    ...(measure !== undefined && { measure }),
    value: alarm.rise.by,
    source: t('the earlier films of this foot'),
    related: [
      ...(first && first !== film
        ? [{ at: placeOf(first), message: t('The first of the films that it is held against.') }]
        : []),
      ...(told && told !== film && told !== first
        ? [{ at: placeOf(told), message: t('The film on which it was first seen.') }]
        : []),
    ],
  };
}
