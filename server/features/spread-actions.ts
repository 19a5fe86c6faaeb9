import { CodeActionKind, type CodeAction, type CodeActionContext } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { ownSpreads } from '../../shared/agreement/own-spread.ts';
import { ReadFilms, takenFilms } from '../../shared/agreement/read-films.ts';
import { spreadLines } from '../../shared/edits/reader-spread.ts';
import type { Inspection } from '../../shared/findings/inspect.ts';
import { t } from '../../shared/language/words.ts';
import type { Span } from '../../shared/notation/tree.ts';
import { notEnough, spreadWords } from '../../shared/views/spread-words.ts';
import type { ClientAbilities } from '../serving/client-abilities.ts';
import { workspaceEdit } from './code-actions.ts';

/** At a `read` line: the reader's spread, by the films of this file that they have read again, for all of their `read` lines in it. */
export function spreadActions(
  document: TextDocument,
  { tree, study }: Inspection,
  range: Span,
  context: CodeActionContext | undefined,
  client: ClientAbilities,
): CodeAction[] {
  const kind = CodeActionKind.RefactorRewrite;
  if (context?.only && !context.only.some((one) => one === '' || kind.startsWith(one))) return [];
  const here = study.films
    .flatMap(({ visit, readings }) => readings.map(({ reading }) => ({ from: visit.start, ...reading })))
    .find(({ from, reader, at }) => reader !== null && from + at.start <= range.end && from + at.end >= range.start);
  if (!here) return [];
  const films = new ReadFilms();
  films.add('', takenFilms(study.films));
  const spread = ownSpreads(films.all()).find(({ reader }) => reader === here.reader);
  if (!spread) return [];
  const title = t(
    'Write the spread found for {0} into each of their readings here: {1}',
    spread.reader,
    spreadWords(spread),
  );
  const few = notEnough(spread);
  if (few !== null) return client.disabledActions ? [{ title, kind, disabled: { reason: few } }] : [];
  const edits = spreadLines({ tree, study }, [spread]).flatMap(({ edit }) => edit ?? []);
  return edits.length > 0 ? [{ title, kind, edit: workspaceEdit(document, { title, edits }, client) }] : [];
}
