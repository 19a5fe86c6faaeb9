import type { FilmSheet } from '../../shared/report/film-sheet.ts';
import { useActions } from './actions.ts';
import { filmKey } from './film-choice.ts';

const feet: Readonly<Record<FilmSheet['foot'], string>> = {
  LF: 'left fore',
  RF: 'right fore',
  LH: 'left hind',
  RH: 'right hind',
};

/** The films of the case, by date and foot. */
export function FilmRow({ sheets, current }: { readonly sheets: readonly FilmSheet[]; readonly current: FilmSheet }) {
  const { chooseFilm } = useActions();
  if (sheets.length < 2) return null;
  return (
    <nav class="films" aria-label="Films of this case">
      {sheets.map((sheet) => (
        <button
          type="button"
          title={sheet.title}
          aria-current={sheet === current ? 'true' : undefined}
          onClick={() => chooseFilm(filmKey(sheet))}
        >
          <span class="date">{sheet.date ?? 'no date'}</span> <span>{detail(sheet)}</span>
        </button>
      ))}
    </nav>
  );
}

function detail({ foot, view, kind, reader }: FilmSheet): string {
  const what = view === 'lateral' ? '' : `, ${view}`;
  return `${feet[foot]}${what}${kind === 'photo' ? ', photo' : ''}${reader ? `, ${reader}` : ''}`;
}
