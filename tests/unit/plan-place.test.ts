import { readFileSync } from 'node:fs';
import type { TextDocumentEdit, TextEdit } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { expect, it } from 'vitest';
import { clientAbilities } from '../../server/serving/client-abilities.ts';
import { planEdit } from '../../server/features/plan-actions.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { applied } from '../protocol/text-positions.ts';

const juniper = readFileSync(new URL('../../examples/juniper.hoof', import.meta.url), 'utf8');
/** The rotated foot before anything was planned for it, its last landmark with a remark behind it. */
const upTo = juniper
  .slice(0, juniper.indexOf('  tape LF'))
  .trimEnd()
  // Of a lame animal none would be written.
  .replace(/obel +2/, 'obel       0')
  .replace('bounding', 'normal');

function planned(text: string): string {
  const document = TextDocument.create('file:///a.hoof', 'hoof', 1, text);
  const plan = { uri: document.uri, version: 1, film: 0, goal: { kind: 'sole-plane' } } as const;
  const client = clientAbilities({ workspace: { workspaceEdit: { documentChanges: true } } });
  const written = planEdit(document, inspect(text), { plan }, client);
  return applied(
    text,
    ((written?.edit.documentChanges ?? []) as TextDocumentEdit[]).flatMap(({ edits }) => edits as TextEdit[]),
  );
}

it.each([
  ['the remark that its film ends with', '  # by the second film'],
  ['remarks below its film that are the film’s', '\n    # p3.wing.other only where it shows\n    # not placed'],
  ['nothing', ''],
])('a plan is written behind %s', (_, remark) => {
  for (const rest of ['', '\n', '\n\n  # of the tape\n  tape LF\n    toe-length 92 mm\n']) {
    const text = `${upTo}${remark}${rest}`;
    const after = planned(text);
    expect(after.startsWith(`${upTo}${remark}\n\n  plan LF\n    heel  down `)).toBe(true);
    expect(after.endsWith(`"${rest}`) || /\n {4}\| [^\n]*$/.test(after.slice(0, after.length - rest.length))).toBe(
      true,
    );
    expect(after.endsWith(rest)).toBe(true);
  }
});
