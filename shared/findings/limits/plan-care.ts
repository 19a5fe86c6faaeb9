import { t } from '../../language/words.ts';
import { gradeIn, loneScore, newestGraded, vetDays } from '../../course/care.ts';
import { dayOf, inOrderOfDays } from '../../course/order-of-days.ts';
import { vetSince } from '../../course/vet-agrees.ts';
import { findMeasure } from '../../measures/registry.ts';
import { dayNumber } from '../../notation/dates.ts';
import type { Study, StudiedFilm } from '../../trim/study.ts';
import { openAlarms } from '../open-alarms.ts';
import { contactsOff } from '../rules/landmark-off-ground.ts';
import { placesInDoubt } from '../rules/landmark-order.ts';
import { differing } from '../rules/shoe-disagrees.ts';
import { perhapsFever } from '../rules/temperature.ts';
import { nameOf } from '../wording/name-of-film.ts';
import { belowGround, sayBelowGround } from '../wording/say-below-ground.ts';
import { sayDoubtOf } from '../wording/say-bones.ts';
import { sayDate } from '../wording/say-day.ts';
import { sentence } from '../wording/wording.ts';
import type { PlanPlace } from './plan-place.ts';

/** What has to come before any cut is written down: a sentence, or empty where nothing has. */
export function careFirst(place: PlanPlace, film: StudiedFilm, study: Study): string {
  const [alarm] = openAlarms(study);
  if (alarm) return t('An alarm is open, so no cut is written down: {0}', alarm.message);
  const fever = feverOpen(study);
  if (fever !== '') return fever;
  const doubt = planDoubt(film, study);
  if (doubt !== '') return doubt;
  const age = film.day === null ? 0 : place.moment.day - film.day;
  if (age > study.trim.filmAge)
    return t(
      '{0} is {1} days old; after {2} it shows another foot (a judgement, no source). Ask the vet for a new one.',
      sentence(nameOf(film)),
      age,
      study.trim.filmAge,
    );
  return lameWithoutVet(place, study) || unreadLine(film, study);
}

/** The newest temperature may be a fever, and no day on which the vet saw the animal is written since. */
function feverOpen(study: Study): string {
  const visits = inOrderOfDays(study.record.visits);
  const last = visits.findLast(({ is }) => is.temperatures.length > 0)?.is;
  const found = last && perhapsFever(last, study.animal);
  if (!found) return '';
  const day = last.date === null ? null : dayNumber(last.date);
  if (vetDays(study).some((one) => day === null || one >= day)) return '';
  return t(
    'The newest temperature is {0} °C, which may be a fever, so no cut is written down. Tell the vet; when the vet has been, write: vet seen DATE. Where it has gone down, write the new one.',
    found.degrees,
  );
}

/**
 * A line that is not understood may be a sign, a grade, millimetres that were taken, or a limit: no cut goes by what nobody can read. Of
 * films only the one that is planned on counts, as the others say nothing of it.
 */
function unreadLine(film: StudiedFilm, { record }: Study): string {
  const { visits, outside } = record;
  const unread = visits.find(({ is }) => is.unreadAt !== null);
  if (unread)
    return t(
      'A line of the visit of {0} is not understood, and it may be a sign, a grade, or what was taken. Mend it first.',
      unread.is.date === null ? t('no date') : sayDate(unread.is.date),
    );
  if (film.film.unreadAt !== null)
    return t('A line of {0} is not understood, and every millimetre may hang on it. Mend it first.', nameOf(film));
  if (outside.length > 0)
    return t('A line outside every visit speaks of the animal’s state, and nobody knows of which day. Mend it first.');
  const isLimitLost = record.limits.some(({ is }) => !findMeasure(is.measure));
  return record.unreadOutsideAt !== null || isLimitLost
    ? t('A line outside every visit is not understood, and it may be a limit, or say what animal it is. Mend it first.')
    : '';
}

/** Lame from Obel 1 on, or by a score alone, and no line from then to the plan says what the vet agrees to. */
function lameWithoutVet({ moment }: PlanPlace, { record: { visits } }: Study): string {
  const until = inOrderOfDays(visits).filter((visit) => {
    const day = dayOf(visit);
    return day === null || day < moment.day || (day === moment.day && visit.start <= moment.at);
  });
  const last = newestGraded(until);
  const graded = until[last];
  const grade = graded && gradeIn(graded.is);
  const alone = loneScore(until);
  if (alone && !alone.against) {
    if (vetSince(until, until.indexOf(alone.visit))) return '';
    return t(
      'The lameness is written by a modified Obel score of {0} alone, which is no Obel grade, and no vet line says what the vet agrees to. Ask the vet, and write down both: obel, and vet "…"',
      alone.score.value,
    );
  }
  if (!graded || (grade && grade.value < 1 && !alone)) return '';
  if (vetSince(until, last)) return '';
  if (alone?.against)
    return t(
      'The lameness is written as {0} and as a modified Obel score of {1}, which do not agree, and no vet line says what the vet agrees to. Keep the one that is right, ask the vet, and write it down: vet "…"',
      alone.against.said,
      alone.score.value,
    );
  return t(
    'The lameness is {0}, and no vet line says what the vet agrees to. Ask the vet, and write it down: vet "…"',
    grade ? grade.said : t('written so that no grade can be read'),
  );
}

/** Why no millimetre that is planned on a film can be relied on; empty where neither its scale nor what it stands on is in doubt. */
export function planDoubt(film: StudiedFilm, study: Study): string {
  const ground = groundDoubt(film);
  if (ground !== '') return ground;
  const [exchanged] = film.readings.flatMap((reading) => placesInDoubt(film, reading));
  if (exchanged !== undefined)
    return t('Landmarks on {0} contradict each other, and no plan goes by them. {1}', nameOf(film), exchanged);
  const doubt = sayDoubtOf([film], study);
  return doubt === '' ? '' : t('Scale in doubt: {0}. No millimetre of a plan on it can be relied on.', doubt);
}

/** Why nothing can be laid on what the foot stands on: no cut is worked out there, nor told what it would leave. */
export function groundDoubt(film: StudiedFilm): string {
  const below = film.film.bearing ? (film.readings.map(belowGround).find((ends) => ends.length > 0) ?? []) : [];
  if (below.length > 0)
    return t(
      'The bearing plane lies below the ground on {0}: {1}. No millimetre of a plan on it can be relied on. Look at both lines and place what is off again.',
      nameOf(film),
      sayBelowGround(below),
    );
  const [another] = film.readings.flatMap((reading) => contactsOff(film, reading) ?? [...differing(film, reading)]);
  return another
    ? t(
        'No millimetre of a plan on {0} can be relied on, as its ground does not agree with the foot. {1}',
        nameOf(film),
        another.message,
      )
    : '';
}
