import { t } from '../../language/words.ts';
import { newestState, type Grade } from '../../course/care.ts';
import { changeOfValue } from '../../course/error-of-films.ts';
import { countWhile } from '../../notation/count-while.ts';
import { valuesOfFilm } from '../../course/value-of-film.ts';
import type { Value } from '../../measures/take.ts';
import type { StudiedFilm, Study } from '../../trim/study.ts';
import { animalOn } from '../../trim/case-animal.ts';
import { isClear, isGraver, oneLower, usualLines, type LimitLine } from '../limits/limits.ts';
import { sayDay } from '../wording/say-day.ts';
import { say } from '../wording/wording.ts';
import type { Severity } from '../finding.ts';
import type { Beyond } from './beyond-a-line.ts';

/** mm. Under `protect` the foot wants protection (Taylor and others 2014, as quoted by others); 12 mm is the line of the band. */
const protect = 7;
const thin = 12;

/** Obel: lame at the walk. */
const lame = 2;

/**
 * A thin sole is no error by itself: sound horses have 8.6 ± 3.3 mm after a trim. It is a warning where it has clearly become
 * thinner, and an error under 7 mm where it has, where the animal is lame at the walk, or where no lameness is written. What
 * made it graver is the line that is told.
 */
export function soleJudged(found: Beyond, film: StudiedFilm, study: Study): Beyond {
  const { value } = found;
  const fall = value.value < thin ? clearFall(film, study) : null;
  const { grade, unread, score } = newestState(study);
  const isLame = grade !== null && grade.value >= lame;
  const grave = fall !== null || grade === null || isLame;
  const levels: readonly (readonly [line: number, severity: Severity])[] = [
    ...(grave ? [[protect, 'error'] as const] : []),
    ...(fall === null ? [] : [[thin, 'warning'] as const]),
  ];
  let { severity, line, clear } = found;
  const take = (at: number): void => {
    const drawn = lineAt(at, film, study);
    if (drawn) [line, clear] = [drawn, isClear(value, at)];
  };
  for (const [at, wanted] of levels) {
    if (value.value >= at) continue;
    const raised = isClear(value, at) ? wanted : oneLower(wanted);
    if (!isGraver(raised, severity)) continue;
    severity = raised;
    take(at);
  }
  const under = value.value < protect;
  // Where nothing of one's own is drawn, the foot is told by the line that asks for protection.
  if (under && line.own === null && line.set === null) take(protect);
  const also = [
    ...(fall === null ? [] : [t('It is {0} less than on {1}.', say(fall.by, 'mm'), sayDay(fall.day))]),
    ...(under && line.at !== protect ? [t('Under {0} mm: protect the foot, and take none of the sole.', protect)] : []),
    ...(under && grade && isLame ? [t('The animal is lame ({0}).', lameness(grade))] : []),
    ...(under && grade === null
      ? [
          unread
            ? t('Its grade of lameness cannot be read: write obel and 0, 1, 2, 3 or 4.')
            : score
              ? t('Its lameness is written by another score: write its Obel grade too.')
              : t('No lameness is written for this animal: write its Obel grade (obel 0 where it is sound).'),
        ]
      : []),
  ];
  const plain = line.own === null && line.set === null && line.at === thin;
  return { ...found, severity, line, clear, also: [...found.also, ...also], ...(plain && { plain }) };
}

const lameness = ({ scale, value, said }: Grade): string =>
  scale === 'obel' ? t('Obel {0}', Math.min(value, 4)) : said;

/** The published line at that depth. */
function lineAt(at: number, { film, day }: StudiedFilm, study: Study): LimitLine | undefined {
  const ground = { animal: animalOn(study.animal, day), reference: [] };
  return usualLines('sole-depth.tip', film.foot, ground).lines.find((line) => line.side === 'low' && line.at === at);
}

/** By how much the sole is clearly thinner than on the film of the day before, or than on the first; null where it is not. */
function clearFall(film: StudiedFilm, study: Study): { by: number; day: number } | null {
  const { day } = film;
  const now = depthOn(film);
  if (day === null || !now) return null;
  const all = study.series.of(film.film.foot, film.film.view);
  const earlier = countWhile(all, (one) => (one.day ?? 0) < day);
  // Only as far as the nearest that has a depth, from either end: of a case of years every film asks.
  const before = nearest(all, earlier - 1, -1);
  const first = before && nearest(all, 0, 1);
  if (!before || !first) return null;
  // Where it has grown since the film before, it is on the mend: what it was at first is past.
  const since = changeOfValue(before.was, now, study, [before.on, film]);
  for (const { was, day: then, on } of since.difference > 0 && since.clear ? [] : [before, first]) {
    const change = changeOfValue(was, now, study, [on, film]);
    if (change.clear && change.difference < 0) return { by: -change.difference, day: then };
  }
  return null;
}

/** From a film on, forwards or backwards, the first that has a depth of the sole. */
function nearest(
  films: readonly StudiedFilm[],
  from: number,
  step: 1 | -1,
): { was: Value; day: number; on: StudiedFilm } | null {
  for (let index = from, on = films[index]; on; index += step, on = films[index]) {
    const was = depthOn(on);
    if (was && on.day !== null) return { was, day: on.day, on };
  }
  return null;
}

const depthOn = (film: StudiedFilm): Value | undefined => valuesOfFilm(film)?.get('sole-depth.tip');
