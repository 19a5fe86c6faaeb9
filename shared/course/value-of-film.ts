import type { Values } from '../measures/take.ts';
import type { StudiedFilm, StudiedReading } from '../trim/study.ts';

/** What a film stands for across visits: of several readers the first whose landmarks make a frame. */
export function readingOfFilm({ readings }: StudiedFilm): StudiedReading | undefined {
  return readings.find(({ taking }) => taking.frame);
}

export const valuesOfFilm = (film: StudiedFilm): Values | undefined => readingOfFilm(film)?.taking.values;
