import type { Form } from '../../../shared/notation/signature.ts';
import { isGroup, isStatement, type Entry, type Statement } from '../../../shared/notation/tree.ts';
import type { WordRow } from '../../../shared/notation/vocabulary.ts';

/**
 * Whether a word that may be said once is said already. Where every form of it opens with a word of its own, as in
 * `toe down` and `toe back`, each form is a thing to say.
 */
export function isSaid(row: WordRow, form: Form, entries: readonly Entry[]): boolean {
  if (row.repeats) return false;
  const own = row.takes.length > 1 && row.takes.every((one) => one[0]?.take === 'mark');
  return statements(entries).some(
    (statement) => statement.row === row && (!own || statement.args.has(form[0]?.name ?? '')),
  );
}

export function placedIn(entries: readonly Entry[]): Set<string> {
  return namesOf(entries, 'placing');
}

export function tapedIn(entries: readonly Entry[]): Set<string> {
  return namesOf(entries, 'taped');
}

function namesOf(entries: readonly Entry[], kind: Statement['kind']): Set<string> {
  return new Set(
    statements(entries)
      .filter((statement) => statement.kind === kind)
      .map(({ word }) => word),
  );
}

function statements(entries: readonly Entry[]): Statement[] {
  return entries.flatMap((entry) => (isGroup(entry) ? [entry.header] : isStatement(entry) ? [entry] : []));
}
