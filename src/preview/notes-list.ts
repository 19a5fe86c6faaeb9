import type { Note } from '../../shared/report/film-sheet.ts';
import { element } from './element.ts';

const words: Readonly<Record<Note['severity'], string>> = { error: 'Error', warning: 'Warning', info: 'Note', hint: 'Hint' };
const order: readonly Note['severity'][] = ['error', 'warning', 'info', 'hint'];

/** What there is to say, the gravest first, each sentence a way to its line. */
export function notesList(notes: readonly Note[]): HTMLElement | null {
  if (notes.length === 0) return null;
  const sorted = [...notes].sort((a, b) => order.indexOf(a.severity) - order.indexOf(b.severity) || a.line - b.line);
  return element('ul', { class: 'notes' }, ...sorted.map((note) =>
    element('li', { class: `severity-${note.severity}`, 'data-line': String(note.line) },
      element('span', { class: 'severity' }, words[note.severity]),
      element('button', { type: 'button', class: 'go' }, note.message),
    ),
  ));
}
