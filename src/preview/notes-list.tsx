import { graverFirst } from '../../shared/views/graver-first.ts';
import type { Note } from '../../shared/views/film-sheet.ts';
import { noteWord, severityCounts } from '../../shared/views/severity-words.ts';
import { GoToLine } from './go-to-line.tsx';

/** As many as are read without being a wall of text. */
const FEW = 3;

interface Notes {
  readonly notes: readonly Note[];
}

/** What there is to say, the gravest first; errors stand open, much else behind one line that counts it. */
export function FoldedNotes({ notes }: Notes) {
  if (notes.length <= FEW) return <NotesList notes={notes} />;
  const rest = notes.filter(({ severity }) => severity !== 'error');
  return (
    <>
      <NotesList notes={notes.filter(({ severity }) => severity === 'error')} />
      {rest.length > 0 && (
        <details>
          <summary>{severityCounts(rest.map(({ severity }) => severity))}</summary>
          <NotesList notes={rest} />
        </details>
      )}
    </>
  );
}

/** Each sentence is a way to its line. */
export function NotesList({ notes }: Notes) {
  if (notes.length === 0) return null;
  const sorted = [...notes].sort(graverFirst);
  return (
    <ul class="notes">
      {sorted.map((note) => (
        <li class={`severity-${note.severity}`}>
          <span class="severity">{noteWord(note)}</span>
          <GoToLine line={note.line}>{withWords(note.message)}</GoToLine>
        </li>
      ))}
    </ul>
  );
}

/** What stands between backticks is a word of the notation. */
function withWords(message: string) {
  return message.split('`').map((part, index) => (index % 2 === 1 ? <code>{part}</code> : part));
}
