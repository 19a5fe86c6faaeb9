import type { Entry, Span, Statement } from '../notation/tree.ts';
import { spanOf } from './arguments.ts';
import type { RecordProblem } from './problems.ts';

/**
 * The entries of a group without those that say again what may be said once: the first counts, the others are
 * reported. `toe down` and `toe back` are two things to say.
 */
export function sayOnce(entries: readonly Entry[], problems: RecordProblem[]): Entry[] {
  const said = new Map<string, Span>();
  return entries.filter((entry) => {
    if (entry.kind !== 'statement' || !entry.row || entry.row.repeats || !entry.whole) return true;
    const key = keyOf(entry);
    const earlier = said.get(key);
    if (!earlier) {
      said.set(key, entry);
      return true;
    }
    problems.push({
      code: 'record/duplicate-word',
      at: spanOf(entry.head),
      message: `«${key}» is said twice here; the first counts. Keep one of the two lines.`,
      fixes: [{ title: 'Remove this line', edits: [{ ...spanOf(entry), text: '', wholeLine: true }] }],
      related: [{ at: spanOf(earlier), message: 'Said here first.' }],
    });
    return false;
  });
}

function keyOf(statement: Statement): string {
  const direction = statement.word === 'toe' ? (statement.args.has('back') ? ' back' : ' down') : '';
  return `${statement.word}${direction}`;
}
