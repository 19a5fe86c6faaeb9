import type { LandmarkName } from '../notation/landmarks.ts';
import type { StudiedFilm, Study } from '../trim/study.ts';
import { levelSeries } from './levels.ts';
import { readersOf } from './readers.ts';

/** What the newest film of a foot lacks, so that it cannot tell whether the bone has sunk. */
export interface Unseen {
  readonly film: StudiedFilm;
  /** `common`: no landmark at the top that an earlier film has too. `earlier`: no earlier film has what it takes. */
  readonly lacks: readonly ('frame' | 'scale' | 'extensor' | 'top' | 'common' | 'earlier')[];
}

const tops: readonly LandmarkName[] = ['wall.top', 'coronet.dorsal'];

/** Null where the newest film can be held against an earlier one, or there is only one day of films. */
export function unseenOn(films: readonly StudiedFilm[], study: Study): Unseen | null {
  const newest = films.at(-1);
  if (!newest || newest.day === null || (films[0]?.day ?? newest.day) === newest.day) return null;
  if (levelSeries(films, study).some(({ levels }) => levels.at(-1)?.day === newest.day)) return null;
  const [reader] = readersOf(films);
  const topsOn = (film: StudiedFilm): readonly LandmarkName[] => {
    const { frame, scale } = reader.reads(film)?.taking ?? { frame: null, scale: null };
    return frame?.at('p3.extensor') && scale !== null ? tops.filter((name) => frame.at(name)) : [];
  };
  const { frame, scale } = reader.reads(newest)?.taking ?? { frame: null, scale: null };
  if (!frame) return { film: newest, lacks: ['frame'] };
  const lacks = [
    ...(scale === null ? (['scale'] as const) : []),
    ...(frame.at('p3.extensor') ? [] : (['extensor'] as const)),
    ...(tops.some((name) => frame.at(name)) ? [] : (['top'] as const)),
  ];
  if (lacks.length > 0) return { film: newest, lacks };
  const able = films.some(({ day }, index) => day !== newest.day && topsOn(films[index] as StudiedFilm).length > 0);
  return { film: newest, lacks: [able ? 'common' : 'earlier'] };
}
