import type { Values } from '../measures/take.ts';
import type { StudiedFilm } from '../trim/study.ts';

/** What a film stands for across visits: of several readers the first whose landmarks make a frame. */
export function valuesOfFilm({ readings }: StudiedFilm): Values | undefined {
  return readings.find(({ taking }) => taking.frame)?.taking.values;
}
