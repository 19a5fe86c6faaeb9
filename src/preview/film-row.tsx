import type { FilmSheet } from '../../shared/views/film-sheet.ts';
import { t } from '../../shared/language/words.ts';
import { useActions } from './actions.ts';
import { filmKey } from './film-choice.ts';

const feet: Readonly<Record<FilmSheet['foot'], string>> = {
  LF: t('left fore'),
  RF: t('right fore'),
  LH: t('left hind'),
  RH: t('right hind'),
};

const views: Readonly<Record<FilmSheet['view'], string | null>> = {
  lateral: null,
  front: t('front'),
  solar: t('solar'),
};

/** The films of the case, by date and foot. */
export function FilmRow({ sheets, current }: { readonly sheets: readonly FilmSheet[]; readonly current: FilmSheet }) {
  const { chooseFilm } = useActions();
  if (sheets.length < 2) return null;
  return (
    <nav class="films" aria-label={t('Films of this case')}>
      {sheets.map((sheet) => (
        <button
          type="button"
          title={sheet.title}
          aria-current={sheet === current ? 'true' : undefined}
          onClick={() => chooseFilm(filmKey(sheet))}
        >
          <span class="date">{sheet.date ?? t('no date')}</span> <span>{detail(sheet)}</span>
        </button>
      ))}
    </nav>
  );
}

function detail({ foot, view, kind, reader }: FilmSheet): string {
  const more = [views[view], kind === 'photo' ? t('photo') : null, reader];
  return [feet[foot], ...more.filter((part) => part)].join(', ');
}
