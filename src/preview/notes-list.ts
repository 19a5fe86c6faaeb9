import type { Note } from '../../shared/report/film-sheet.ts';
import { noteWord, severityCounts } from '../../shared/report/severity-words.ts';
import { element } from './element.ts';

const order: readonly Note['severity'][] = ['error', 'warning', 'info', 'hint'];

/** As many as are read without being a wall of text. */
const FEW = 3;

/** What there is to say, the gravest first; errors stand open, much else behind one line that counts it. */
export function foldedNotes(notes: readonly Note[]): HTMLElement[] {
  const errors = notes.filter(({ severity }) => severity === 'error');
  const rest = notes.filter(({ severity }) => severity !== 'error');
  if (notes.length <= FEW) return [notesList(notes)].filter((one) => one !== null);
  const summary = element('summary', {}, severityCounts(rest.map(({ severity }) => severity)));
  return [notesList(errors), element('details', { 'data-key': 'rest' }, summary, notesList(rest))].filter(
    (one) => one !== null,
  );
}

/** Each sentence is a way to its line. */
export function notesList(notes: readonly Note[]): HTMLElement | null {
  if (notes.length === 0) return null;
  const sorted = [...notes].sort((a, b) => order.indexOf(a.severity) - order.indexOf(b.severity) || a.line - b.line);
  return element(
    'ul',
    { class: 'notes' },
    ...sorted.map((note) =>
      element(
        'li',
        { class: `severity-${note.severity}`, 'data-line': String(note.line) },
        element('span', { class: 'severity' }, noteWord(note)),
        element('button', { type: 'button', class: 'go' }, ...withWords(note.message)),
      ),
    ),
  );
}

/** What stands between backticks is a word of the notation. */
function withWords(message: string): (string | HTMLElement)[] {
  return message.split('`').map((part, index) => (index % 2 === 1 ? element('code', {}, part) : part));
}
