import type { FilmSheet } from '../../shared/report/film-sheet.ts';
import { element } from './element.ts';
import { filmKey } from './film-choice.ts';

const feet: Readonly<Record<FilmSheet['foot'], string>> = {
  LF: 'left fore',
  RF: 'right fore',
  LH: 'left hind',
  RH: 'right hind',
};

/** The films of the case, by date and foot. */
export function filmRow(sheets: readonly FilmSheet[], current: FilmSheet): HTMLElement | null {
  if (sheets.length < 2) return null;
  return element(
    'nav',
    { class: 'films', 'aria-label': 'Films of this case' },
    ...sheets.map((sheet) =>
      element(
        'button',
        {
          type: 'button',
          'data-film': filmKey(sheet),
          title: sheet.title,
          'aria-current': sheet === current && 'true',
        },
        element('span', { class: 'date' }, sheet.date ?? 'no date'),
        ' ',
        element('span', {}, detail(sheet)),
      ),
    ),
  );
}

function detail({ foot, view, kind, reader }: FilmSheet): string {
  const what = view === 'lateral' ? '' : `, ${view}`;
  return `${feet[foot]}${what}${kind === 'photo' ? ', photo' : ''}${reader ? `, ${reader}` : ''}`;
}
