import type { TextDocumentEdit } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { describe, expect, it } from 'vitest';
import { acceptActions } from '../../server/features/accept-actions.ts';
import { clientAbilities } from '../../server/serving/client-abilities.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { applied } from '../protocol/text-positions.ts';
import { caseText, filmText } from './plain-foot.ts';

const thin = { 'sole.tip': [0, 11] } as const;
const snippets = { workspace: { workspaceEdit: { documentChanges: true, snippetEditSupport: true } } };

/**
 * As editors put a snippet into a text: each of its lines but the first is indented by the blanks that the line begins with
 * into which it is put, up to the place where it is put.
 */
function withSnippet(text: string, start: number, end: number, value: string): string {
  const before =
    text
      .slice(0, start)
      .split(/\r\n|\n|\r/)
      .at(-1) ?? '';
  const blanks = /^[ \t]*/.exec(before)?.[0] ?? '';
  const written = value.replace('$0', '').replace(/\\([\\$}])/g, '$1');
  const eol = /\r\n|\n|\r/.exec(text)?.[0] ?? '\n';
  return text.slice(0, start) + written.split('\n').join(`${eol}${blanks}`) + text.slice(end);
}

function accepted(text: string, code: string, capabilities: object): string {
  const document = TextDocument.create('file:///a.hoof', 'hoof', 1, text);
  const inspection = inspect(text);
  const at = inspection.findings.find((one) => one.code === code)?.at;
  if (!at) throw new Error(`${code} is not told`);
  const [action] = acceptActions(document, inspection, at, undefined, clientAbilities(capabilities));
  const [edit] = ((action?.edit?.documentChanges ?? []) as TextDocumentEdit[]).flatMap(({ edits }) => edits);
  if (!edit) throw new Error('nothing is offered');
  if ('newText' in edit) return applied(text, [edit]);
  const { range, snippet } = edit as { range: TextDocumentEdit['edits'][number]['range']; snippet: { value: string } };
  return withSnippet(text, document.offsetAt(range.start), document.offsetAt(range.end), snippet.value);
}

const tabbed = (text: string): string => text.replace(/^ {4}/gm, '\t\t').replace(/^ {2}/gm, '\t');

describe.each([
  ['of a client with snippets', snippets],
  ['of a client without', { workspace: { workspaceEdit: { documentChanges: true } } }],
])('the line that accepts, %s', (_, capabilities) => {
  it.each<[string, string, string, string]>([
    ['as the lines of its film are', caseText(filmText(thin)), 'range/sole-depth.tip', '\n    accept  range/'],
    [
      'as its film is by hand',
      caseText(filmText(thin).replace(/^ {4}/gm, '       ')),
      'range/sole-depth.tip',
      '\n       accept  range/',
    ],
    ['by tabs where its film is', tabbed(caseText(filmText(thin))), 'range/sole-depth.tip', '\n\t\taccept  range/'],
    [
      'by a tab more than a header that stands alone',
      'hoof 1\n\nvisit 2026-03-04\n\tfilm LF lateral "x.png"',
      'frame/no-landmark',
      '\n\t\taccept  frame/',
    ],
    [
      'by two blanks more than one at the edge',
      'hoof 1\n\nvisit 2026-03-04\n  film LF lateral "a$b}.png"\n',
      'frame/no-landmark',
      '\n    accept  frame/',
    ],
    [
      'as the first group of a block is that has nothing else',
      'hoof 1\n\nvisit 2026-03-04\n\tfilm LF lateral "x.png"\n\t\tread "B"\n\t\t\tp3.tip @ 1, 2\n\t\t\tp3.wing @ 1, 20\n\t\t\ttoe.ground @ 1, 2\n\t\t\theel.ground @ 100, 2',
      'frame/no-scale',
      '"x.png"\n\t\taccept  frame/',
    ],
  ])('is indented %s', (__, text, code, expected) => {
    for (const eol of ['\n', '\r\n']) {
      const before = text.replaceAll('\n', eol);
      const after = accepted(before, code, capabilities);
      expect(after).toContain(expected.replaceAll('\n', eol));
      // Nothing but the one line is new.
      const lines = after.split(eol);
      const added = lines.findIndex((line) => line.trim().startsWith('accept '));
      expect(lines.toSpliced(added, 1).join(eol)).toBe(before);
      expect(lines[added]).toMatch(/ because ""$/);
    }
  });
});
