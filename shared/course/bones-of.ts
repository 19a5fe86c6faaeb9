import type { Measure } from '../measures/registry.ts';
import type { FootName } from '../notation/choices.ts';
import { once } from '../notation/once.ts';
import { judgedBones, type JudgedBones } from '../trim/bone-lengths.ts';
import type { FilmSeries } from '../trim/film-series.ts';
import type { StudiedFilm, Study } from '../trim/study.ts';

type OfCase = Pick<Study, 'series' | 'animal'>;

const bonesByFoot = once<FilmSeries, Map<FootName, readonly JudgedBones[]>>(() => new Map());

/** The films of a foot by the size of its bones, in the order of their days; looked at once for a study. */
export function bonesOf(foot: FootName, { series, animal }: OfCase): readonly JudgedBones[] {
  const feet = bonesByFoot(series);
  let bones = feet.get(foot);
  if (!bones) feet.set(foot, (bones = judgedBones(series.of(foot, 'lateral'), animal)));
  return bones;
}

/** What speaks against the scale of a film; null where nothing does. */
export function accusationOf({ film, readings }: StudiedFilm, study: OfCase): JudgedBones | null {
  if (film.view !== 'lateral') return null;
  return accusedOf(bonesOf(film.foot, study)).get(readings) ?? null;
}

/** Those whose scale is accused, by the readings of their film. */
const accusedOf = once((bones: readonly JudgedBones[]) => {
  const accused = new Map<StudiedFilm['readings'], JudgedBones>();
  for (const one of bones) if (one.accused && !accused.has(one.film.readings)) accused.set(one.film.readings, one);
  return accused;
});

/** Whether a measure rests on the scale of its film. */
export const isLength = ({ kind }: Pick<Measure, 'kind'>): boolean => kind === 'length';
