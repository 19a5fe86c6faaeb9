import { t } from '../../language/words.ts';
import { keyRefusalWords } from '../../lessons/key-refusal.ts';
import { filmsSeen, type KeyFilmSeen } from '../../lessons/key-seen.ts';
import { isSameFilm } from '../../lessons/same-film.ts';
import { toldName } from '../../picture/told-name.ts';
import type { LessonKey } from '../../record/schema.ts';
import type { CaseRemark, Rule } from '../rule.ts';

/** A key that cannot be held against what is placed. */
export const lessonKey: Rule = {
  code: 'lesson/key',
  severity: 'warning',
  title: 'Key of a lesson that cannot be used',
  about:
    'A case is a lesson by its line `key`, and the key is not to be had: the file is not there, lies where files of the case may not be, has no reading by the reader that is named, or none of a film of the lesson. What is placed is then held against nothing. A film is the same in both files where foot, view and the name of its picture are. Where nobody can look, as in a browser without files, nothing is told.',
  *onCase({ record, key: seen }) {
    const { animal } = record;
    const key = animal?.is.key;
    if (!animal || !key) return;
    const { start } = animal;
    const { file, by } = key;
    if (file && file.text.trim() === '') yield { start, at: file.at, message: keyRefusalWords('no name', file.text) };
    else if (file && seen && 'refused' in seen)
      yield { start, at: file.at, message: keyRefusalWords(seen.refused, file.text) };
    else if (!file || seen) {
      const films = (file && seen && 'films' in seen ? seen.films : filmsSeen(record)).filter(hasPlaces);
      const lack = lackOf(films, key);
      if (lack !== null) yield { start, at: by?.at ?? file?.at ?? key.at, message: lack };
      else yield* filmsWithout(record, films, key);
    }
  },
};

const hasPlaces = ({ readers }: KeyFilmSeen): boolean => readers.length > 0;

function lackOf(films: readonly KeyFilmSeen[], { by, file }: LessonKey): string | null {
  if (by === null)
    return films.length > 0
      ? null
      : t('Nothing is placed on any film of {0}, so it is no key yet.', toldName(file?.text ?? ''));
  if (films.some(({ readers }) => readers.includes(by.text))) return null;
  return file
    ? t(
        '{0} has no reading by “{1}”. Write the name as its line `read` has it.',
        toldName(file.text),
        toldName(by.text),
      )
    : t('No film of this case has a reading by “{0}”. Write the name as its line `read` has it.', toldName(by.text));
}

function* filmsWithout(
  { visits }: Parameters<typeof filmsSeen>[0],
  films: readonly KeyFilmSeen[],
  { by }: LessonKey,
): Iterable<CaseRemark> {
  for (const { start, is } of visits)
    for (const { foot, view, path } of is.films) {
      const isRead = films.some(
        (film) => isSameFilm(film, { foot, view, picture: path.text }) && (!by || film.readers.includes(by.text)),
      );
      if (!isRead)
        yield {
          start,
          at: path.at,
          severity: 'info',
          message: t('The key of this lesson has no reading of this film, so that nothing is held against it here.'),
        };
    }
}
