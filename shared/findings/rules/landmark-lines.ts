import { t } from '../../language/words.ts';
import type { LandmarkName } from '../../notation/landmarks.ts';
import type { Fix } from '../../notation/problems.ts';
import type { Span } from '../../notation/tree.ts';
import type { StudiedFilm, StudiedReading } from '../../trim/study.ts';
import type { Related } from '../finding.ts';

/** Where a landmark is placed, as a remark has it: counted from the start of the visit. */
export function lineOf(name: LandmarkName, { film }: StudiedFilm, { reading }: StudiedReading): Span {
  return reading.placings.find((placing) => placing.name === name)?.at ?? film.head;
}

/** The lines of other landmarks, to be looked at together with the one a remark stands at. */
export function linesOf(
  names: readonly LandmarkName[],
  film: StudiedFilm,
  reading: StudiedReading,
  message = t('Look at this point too.'),
): Related[] {
  const { start } = film.visit;
  return names.map((name) => {
    const at = lineOf(name, film, reading);
    return { at: { start: start + at.start, end: start + at.end }, message };
  });
}

/** Writes each of two names at the line of the other. */
export function exchangeFix(
  names: readonly [LandmarkName, LandmarkName],
  film: StudiedFilm,
  reading: StudiedReading,
): Fix {
  const renamed = (name: LandmarkName, to: LandmarkName) => {
    const { start } = lineOf(name, film, reading);
    return { start, end: start + name.length, text: to };
  };
  const [one, other] = names;
  return { title: t('Exchange «{0}» and «{1}»', one, other), edits: [renamed(one, other), renamed(other, one)] };
}

export const readerWords = ({ reading }: StudiedReading): string =>
  reading.reader === null ? '' : t(' (reader {0})', reading.reader);

/** Where the sentence has no place for it. */
export const readerFirst = ({ reading }: StudiedReading): string =>
  reading.reader === null ? '' : t('Reader {0}: ', reading.reader);
