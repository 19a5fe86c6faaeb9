import { sidesOf, type StudiedSides } from '../trim/side-cut.ts';
import type { StudiedCut, StudiedFilm, StudiedReading, Study } from '../trim/study.ts';
import { grouped } from './grouped.ts';

/** The plans and trims that are told of on one reading of a film. */
export interface CutsOfReading {
  /** Those from toe to heel. */
  readonly along: readonly StudiedCut[];
  /** Those from side to side, on a front film. */
  readonly across: readonly { readonly cut: StudiedCut; readonly sides: StudiedSides }[];
}

/** Which plans and trims belong to a reading. By the film, not by its reading alone: two visits of one text may share their readings. */
export function cutsOfReadings(study: Study): (film: StudiedFilm, reading: StudiedReading) => CutsOfReading {
  const along = byReading(study.cuts, (cut) => cut);
  const across = byReading(
    study.cuts.flatMap((cut) => {
      const sides = sidesOf(cut, study.series, study.trims);
      return sides ? [{ cut, sides }] : [];
    }),
    ({ sides }) => sides,
  );
  return (film, reading) => ({
    along: along.get(film)?.get(reading) ?? [],
    across: across.get(film)?.get(reading) ?? [],
  });
}

type ReadingOfCut = Pick<StudiedCut, 'film' | 'reading'>;

function byReading<T>(
  cuts: readonly T[],
  placeOf: (cut: T) => ReadingOfCut,
): Map<ReadingOfCut['film'], Map<ReadingOfCut['reading'], T[]>> {
  const byFilm = grouped(cuts, (cut) => placeOf(cut).film);
  return new Map([...byFilm].map(([film, own]) => [film, grouped(own, (cut) => placeOf(cut).reading)]));
}
