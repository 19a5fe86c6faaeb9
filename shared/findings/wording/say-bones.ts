import { wordList } from '../../notation/word-list.ts';
import { t } from '../../language/words.ts';
import { accusationOf, bonesOf } from '../../course/bones-of.ts';
import type { JudgedBones } from '../../trim/bone-lengths.ts';
import type { StudiedFilm, Study } from '../../trim/study.ts';
import { sayDay } from './say-day.ts';

/** `8 % larger`. */
export function sayOff(by: number): string {
  const share = (100 * Math.abs(by)).toFixed(0);
  return by > 0 ? t('{0} % larger', share) : t('{0} % smaller', share);
}

/** `the scale of the film of 1 April 2026 is in doubt, as its bones are 8 % larger than on the others`; of two films one is meant. */
export function sayDoubt(accused: readonly JudgedBones[]): string {
  const [first] = accused;
  if (!first) return '';
  const days = accused.flatMap(({ film: { day } }) => (day === null ? [] : [sayDay(day)]));
  if (accused.length > 1)
    return t('the scales of the films of {0} are in doubt, as the bones on them differ in size', wordList(days));
  return t(
    'the scale of the film of {0} is in doubt, as its bones are {1} than on the others',
    days.join(''),
    sayOff(first.by),
  );
}

/** The same of those films whose scale is accused; empty where none is. Where a foot has two such films both are named. */
export function sayDoubtOf(films: readonly StudiedFilm[], study: Pick<Study, 'series' | 'animal'>): string {
  const accused = new Set<JudgedBones>();
  for (const film of films) {
    const one = accusationOf(film, study);
    if (!one) continue;
    const bones = bonesOf(film.film.foot, study);
    for (const each of bones.length === 2 ? bones : [one]) accused.add(each);
  }
  return sayDoubt([...accused]);
}
