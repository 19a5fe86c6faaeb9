import { shownDate } from '../../shared/language/dates.ts';
import { t } from '../../shared/language/words.ts';
import { useActions } from './actions.ts';
import { filmKey, type FilmName, type ListedFilm } from '../../shared/views/film-choice.ts';

const feet: Readonly<Record<FilmName['foot'], string>> = {
  LF: t('left fore'),
  RF: t('right fore'),
  LH: t('left hind'),
  RH: t('right hind'),
};

const views: Readonly<Record<FilmName['view'], string | null>> = {
  lateral: null,
  front: t('front'),
  solar: t('solar'),
};

interface RowProps {
  readonly films: readonly ListedFilm[];
  readonly current: FilmName;
}

/** The films of the case, by date and foot. */
export function FilmRow({ films, current }: RowProps) {
  const { chooseFilm } = useActions();
  if (films.length < 2) return null;
  return (
    <nav class="films" aria-label={t('Films of this case')}>
      {films.map((film) => (
        <button
          type="button"
          title={film.title}
          aria-current={film.line === current.line && film.reader === current.reader ? 'true' : undefined}
          onClick={() => chooseFilm(filmKey(film))}
        >
          <span class="date">{film.date === null ? t('no date') : shownDate(film.date)}</span>{' '}
          <span>{detail(film)}</span>
        </button>
      ))}
    </nav>
  );
}

function detail({ foot, view, kind, reader }: FilmName): string {
  const more = [views[view], kind === 'photo' ? t('photo') : null, reader];
  return [feet[foot], ...more.filter((part) => part)].join(', ');
}
