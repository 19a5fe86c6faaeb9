import type { PageState, SheetsMessage } from '../extension/messages.ts';
import { meaningOf } from '../../shared/report/about-measures.ts';
import type { FilmSheet } from '../../shared/report/film-sheet.ts';
import { laidCut } from './cut-choice.ts';
import { cutsView, cutToggles } from './cuts-view.ts';
import { element } from './element.ts';
import { landmarkOn } from './film-choice.ts';
import { filmRow } from './film-row.ts';
import { measureTable } from './measure-table.ts';
import { foldedNotes } from './notes-list.ts';

const caution =
  'Decision support only. Diagnosis, radiographs and pain belong to the vet; local law decides who may trim or shoe.';

export interface Shown {
  readonly message: SheetsMessage | null;
  readonly sheet: FilmSheet | null;
  readonly line: number | null;
  readonly shows: PageState['shows'];
  /** The cut that was chosen by hand. */
  readonly chosenCut: string | null;
  readonly trouble: string | null;
  /** Why the picture does not show. */
  readonly pictureSays: string | null;
}

/** The whole page from what is known. The plate itself is put into `.plate` by its own module. */
export function page({ message, sheet, line, shows, chosenCut, trouble, pictureSays }: Shown): HTMLElement {
  const landmark = sheet && landmarkOn(sheet, line);
  const laid = sheet && laidCut(sheet, chosenCut, line);
  return element(
    'main',
    { id: 'page', class: sheet ? 'with-film' : 'empty' },
    trouble !== null && element('p', { class: 'trouble', role: 'status' }, trouble),
    element(
      'header',
      { 'data-key': 'header' },
      message && element('h1', {}, message.caseName ?? message.fileName),
      message && sheet && filmRow(message.sheets, sheet),
    ),
    element(
      'figure',
      { 'data-key': 'figure' },
      sheet &&
        element(
          'figcaption',
          {},
          element('span', { class: 'title' }, sheet.title),
          toggles(shows),
          cutToggles(sheet.cuts, laid),
        ),
      element('div', { class: plateClass(shows), 'data-own': '' }),
      pictureSays !== null && element('p', { class: 'picture-says' }, pictureSays),
      sheet && nextPlaces(sheet),
    ),
    element(
      'div',
      { class: 'reading', 'data-key': 'reading' },
      sheet && findings(sheet),
      sheet && measureTable(sheet, landmark),
      sheet && cutsView(sheet.cuts, laid),
    ),
    element('footer', { 'data-key': 'footer' }, caution),
  );
}

function plateClass(shows: PageState['shows']): string {
  return shows.drawing ? 'plate' : 'plate no-drawing';
}

function toggles(shows: PageState['shows']): HTMLElement {
  const button = (name: keyof PageState['shows'], word: string): HTMLElement =>
    element('button', { type: 'button', 'data-toggle': name, 'aria-pressed': String(shows[name]) }, word);
  return element(
    'span',
    { class: 'toggles', role: 'group', 'aria-label': 'What the plate shows' },
    button('picture', 'Picture'),
    button('drawing', 'Drawing'),
    button('lettering', 'Lettering'),
  );
}

function findings({ notes }: FilmSheet): HTMLElement | null {
  const lists = foldedNotes(notes);
  if (lists.length === 0) return null;
  return element(
    'section',
    { 'aria-labelledby': 'findings', 'data-key': 'findings' },
    element('h2', { id: 'findings' }, 'What there is to say'),
    ...lists,
  );
}

/** The one next step at a film that has some landmarks; the plate itself says it where there is none. */
function nextPlaces({ missing, placed }: FilmSheet): HTMLElement | null {
  if (missing.length === 0 || Object.keys(placed).length === 0) return null;
  return element(
    'details',
    { class: 'missing' },
    element(
      'summary',
      {},
      missing.length === 1 ? 'One landmark is not placed yet' : `${missing.length} landmarks are not placed yet`,
    ),
    element('dl', {}, ...missing.flatMap((name) => [element('dt', {}, name), element('dd', {}, meaningOf(name))])),
  );
}
