import type { Measure } from '../measures/registry.ts';
import type { FootName } from '../notation/choices.ts';
import { judgedBones, type JudgedBones } from '../trim/bone-lengths.ts';
import type { FilmSeries } from '../trim/film-series.ts';
import type { StudiedFilm, Study } from '../trim/study.ts';

type OfCase = Pick<Study, 'series' | 'animal'>;

const made = new WeakMap<FilmSeries, Map<FootName, readonly JudgedBones[]>>();

/** The films of a foot by the size of its bones, in the order of their days; looked at once for a study. */
export function bonesOf(foot: FootName, { series, animal }: OfCase): readonly JudgedBones[] {
  let feet = made.get(series);
  if (!feet) made.set(series, (feet = new Map()));
  let bones = feet.get(foot);
  if (!bones) feet.set(foot, (bones = judgedBones(series.of(foot, 'lateral'), animal)));
  return bones;
}

/** What speaks against the scale of a film; null where nothing does. */
export function accusationOf({ film, readings }: StudiedFilm, study: OfCase): JudgedBones | null {
  if (film.view !== 'lateral') return null;
  const bones = bonesOf(film.foot, study);
  let accused = accusedIn.get(bones);
  if (!accused) {
    accused = new Map();
    for (const one of bones) if (one.accused && !accused.has(one.film.readings)) accused.set(one.film.readings, one);
    accusedIn.set(bones, accused);
  }
  return accused.get(readings) ?? null;
}

/** Those whose scale is accused, by the readings of their film. */
const accusedIn = new WeakMap<readonly JudgedBones[], Map<StudiedFilm['readings'], JudgedBones>>();

/** Whether a measure rests on the scale of its film. */
export const isLength = ({ kind }: Pick<Measure, 'kind'>): boolean => kind === 'length';
