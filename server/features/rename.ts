import { t } from '../../shared/language/words.ts';
import {
  LSPErrorCodes,
  ResponseError,
  type CancellationToken,
  type Range,
  type TextDocumentEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Inspection } from '../../shared/findings/inspect.ts';
import { unquote } from '../../shared/notation/lines.ts';
import { parse } from '../../shared/notation/parse.ts';
import type { Span } from '../../shared/notation/tree.ts';
import type { ClientAbilities } from '../serving/client-abilities.ts';
import { stopIfCancelled } from '../serving/guard.ts';
import { mentionsAt, namedIn, type Mentioned } from './mentions.ts';
import { rangeOf } from '../text/ranges.ts';
import { otherTexts } from '../workspace/other-texts.ts';
import type { Workspace } from '../workspace/workspace.ts';

/** The name under the cursor, without its quotes. Refuses in words what the notation, and not the user, has named. */
export function prepareRename(
  document: TextDocument,
  inspection: Inspection,
  offset: number,
): { range: Range; placeholder: string } {
  const { here } = renamed(inspection, offset);
  const { text } = inspection.tree;
  const inside = withoutQuotes(text, here);
  return { range: rangeOf(document, inside), placeholder: text.slice(inside.start, inside.end) };
}

interface RenameRequest {
  readonly name: unknown;
  readonly client: ClientAbilities;
  readonly workspace: Workspace;
  readonly token: CancellationToken;
}

/** In the document and in every other case of the workspace that has the same name in it, as it stands there now. */
export async function rename(
  document: TextDocument,
  inspection: Inspection,
  offset: number,
  { name, client, workspace, token }: RenameRequest,
): Promise<WorkspaceEdit> {
  const found = renamed(inspection, offset);
  const { kind } = found;
  const written = kind === 'reader' ? readerText(name) : codeText(name);
  const change = { before: found.name, after: written.value };
  refuseClash(kind, change, namedIn(inspection.tree, kind, change.after).length > 0, null);
  const { version } = document;
  const files: FileRanges[] = [
    { uri: document.uri, version, ranges: found.mentions.map((mention) => rangeOf(document, mention)) },
  ];
  if (workspace.counts(document)) {
    await workspace.index.complete(token);
    stopIfCancelled(token);
    if (workspace.index.lack === 'too much')
      throw refusal(
        t(
          'There are more case files here than are read, so a name cannot be changed in all of them. Open a smaller folder, and rename there.',
        ),
      );
    for await (const text of otherTexts(workspace, document, [change.before, change.after], kind)) {
      stopIfCancelled(token);
      refuseClash(kind, change, text.places(change.after).length > 0, text.called);
      const ranges = text.places(change.before);
      if (ranges.length === 0) continue;
      if (!text.sound)
        throw refusal(
          t(
            '«{0}» stands in {1} too, and that file is not saved as UTF-8. Save it as UTF-8 first, then rename.',
            change.before,
            text.called,
          ),
        );
      files.push({ uri: text.uri, version: text.version, ranges });
    }
    // The places were counted in the text as it was when this began.
    if (document.version !== version)
      throw new ResponseError(LSPErrorCodes.ContentModified, t('The file was changed meanwhile: rename once more.'));
  }
  return editOf(files, written.text, client);
}

interface Renamed extends Mentioned {
  readonly kind: 'reader' | 'code';
}

function renamed(inspection: Inspection, offset: number): Renamed {
  const found = mentionsAt(inspection, offset);
  const kind = found?.kind;
  if (kind !== 'reader' && kind !== 'code')
    throw refusal(
      t('Only the name of a reader and the study code can be renamed: every other word is the notation’s own.'),
    );
  return { ...(found as Mentioned), kind };
}

/** What is to be written, and what it then means. */
interface NewName {
  readonly text: string;
  readonly value: string;
}

/** UTF-16 units. */
const longestName = 1000;

function readerText(name: unknown): NewName {
  if (typeof name !== 'string' || name.trim() === '') throw refusal(t('A reader needs a name.'));
  if (/[\r\n]/.test(name)) throw refusal(t('The name of a reader stands on one line.'));
  // Half a character would be lost when the file is saved.
  if (/[\p{Cc}\p{Cs}]/u.test(name)) throw refusal(t('The name of a reader has a sign in it that cannot be written.'));
  if (name.length > longestName) throw refusal(t('The name of a reader has at most {0} letters.', longestName));
  // The editor was shown the name as it is written, so what comes back may have its escapes already.
  const written = /^(?:[^"\\]|\\["\\])*$/.test(name) ? name : name.replace(/["\\]/g, '\\$&');
  const text = `"${written}"`;
  return { text, value: unquote(text) };
}

function codeText(name: unknown): NewName {
  const written = typeof name === 'string' ? name.trim() : '';
  for (const text of [written, `"${written}"`]) {
    const problems = parse(`case "x"\n  code ${text}\n`).blocks.flatMap(({ block }) => block.problems);
    if (written !== '' && !/[\r\n#]/.test(written) && problems.length === 0) return { text, value: written };
  }
  throw refusal(t('A study code is letters and digits in one piece, for example S07.'));
}

/** Two that become one cannot be told apart again, in this file or another. */
function refuseClash(
  kind: Renamed['kind'],
  { before, after }: TextChange,
  taken: boolean,
  called: string | null,
): void {
  if (!taken || before === after) return;
  const where = called === null ? '' : t(' in {0}', called);
  throw refusal(
    kind === 'reader'
      ? t(
          'There is a reader «{0}» already{1}: two readers under one name could not be told apart again. Choose another name.',
          after,
          where,
        )
      : t(
          'There is the study code «{0}» already{1}: two cases under one code could not be told apart again. Choose another code.',
          after,
          where,
        ),
  );
}

interface TextChange {
  readonly before: string;
  readonly after: string;
}

interface FileRanges {
  readonly uri: string;
  /** Null for a file that is not open. */
  readonly version: number | null;
  readonly ranges: readonly Range[];
}

function editOf(files: readonly FileRanges[], newText: string, { versionedEdits }: ClientAbilities): WorkspaceEdit {
  const edits = (ranges: readonly Range[]) => ranges.map((range) => ({ range, newText }));
  return versionedEdits
    ? {
        documentChanges: files.map(({ uri, version, ranges }): TextDocumentEdit => ({
          textDocument: { uri, version },
          edits: edits(ranges),
        })),
      }
    : { changes: Object.fromEntries(files.map(({ uri, ranges }) => [uri, edits(ranges)])) };
}

function withoutQuotes(text: string, { start, end }: Span): Span {
  return text[start] === '"' && end - start >= 2 ? { start: start + 1, end: end - 1 } : { start, end };
}

function refusal(why: string): ResponseError<void> {
  return new ResponseError(LSPErrorCodes.RequestFailed, why);
}
