import { LSPErrorCodes, ResponseError, type Range, type WorkspaceEdit } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Inspection } from '../shared/findings/inspect.ts';
import { unquote } from '../shared/notation/lines.ts';
import { parse } from '../shared/notation/parse.ts';
import type { Span } from '../shared/notation/tree.ts';
import type { ClientAbilities } from './client-abilities.ts';
import { workspaceEdit } from './code-actions.ts';
import { everyStatement } from './every-statement.ts';
import { mentionsAt, readerIn, type Mentioned } from './mentions.ts';
import { rangeOf } from './ranges.ts';

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

export function rename(
  document: TextDocument,
  inspection: Inspection,
  offset: number,
  { name, client }: { readonly name: unknown; readonly client: ClientAbilities },
): WorkspaceEdit {
  const found = renamed(inspection, offset);
  const text = found.kind === 'reader' ? readerText(name, found, inspection) : codeText(name);
  const edits = found.mentions.map(({ start, end }) => ({ start, end, text }));
  return workspaceEdit(document, { title: '', edits }, client);
}

function renamed(inspection: Inspection, offset: number): Mentioned {
  const found = mentionsAt(inspection, offset);
  if (found?.kind !== 'reader' && found?.kind !== 'code')
    throw refusal(
      'Only the name of a reader and the study code can be renamed: every other word is the notation’s own.',
    );
  return found;
}

function readerText(name: unknown, { here }: Mentioned, { tree }: Inspection): string {
  if (typeof name !== 'string' || name.trim() === '') throw refusal('A reader needs a name.');
  if (/[\r\n]/.test(name)) throw refusal('The name of a reader stands on one line.');
  // The editor was shown the name as it is written, so what comes back may have its escapes already.
  const written = /^(?:[^"\\]|\\["\\])*$/.test(name) ? name : name.replace(/["\\]/g, '\\$&');
  const text = `"${written}"`;
  const value = unquote(text);
  const before = unquote(tree.text.slice(here.start, here.end));
  const others = [...everyStatement(tree)].flatMap((one) => readerIn(one)?.value ?? []);
  if (value !== before && others.includes(value))
    throw refusal(`There is a reader «${value}» already: two readers under one name could not be told apart again.`);
  return text;
}

function codeText(name: unknown): string {
  const written = typeof name === 'string' ? name.trim() : '';
  for (const text of [written, `"${written}"`]) {
    const problems = parse(`case "x"\n  code ${text}\n`).blocks.flatMap(({ block }) => block.problems);
    if (written !== '' && !/[\r\n#]/.test(written) && problems.length === 0) return text;
  }
  throw refusal('A study code is letters and digits in one piece, for example S07.');
}

function withoutQuotes(text: string, { start, end }: Span): Span {
  return text[start] === '"' && end - start >= 2 ? { start: start + 1, end: end - 1 } : { start, end };
}

function refusal(why: string): ResponseError<void> {
  return new ResponseError(LSPErrorCodes.RequestFailed, why);
}
