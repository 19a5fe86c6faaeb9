import type { CodeAction, TextDocumentEdit } from 'vscode-languageserver';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { LanguageClient } from './language-client.ts';
import { applied, cursorIn } from './text-positions.ts';

let client: LanguageClient;
let count = 0;
beforeAll(async () => {
  client = await LanguageClient.start();
});
afterAll(() => client.stop());

async function actionsAt(marked: string): Promise<{ uri: string; text: string; actions: CodeAction[] }> {
  const { text, position } = cursorIn(marked);
  const uri = `file:///actions-${(count += 1)}.hoof`;
  client.open(uri, text);
  return { uri, text, actions: await client.codeActions(uri, { start: position, end: position }) };
}

function afterAction(text: string, action: CodeAction | undefined): string {
  const [change] = (action?.edit?.documentChanges ?? []) as TextDocumentEdit[];
  if (!change) throw new Error('the action changes nothing');
  return applied(text, change.edits as { range: TextDocumentEdit['edits'][number]['range']; newText: string }[]);
}

describe('code actions', () => {
  it('mend a missing unit, one action for each unit that could be meant', async () => {
    const { uri, text, actions } = await actionsAt('hoof 1\nvisit 2026-03-04\n  weight 51¦2\n');
    expect(actions.map(({ title, kind, isPreferred }) => ({ title, kind, isPreferred }))).toEqual([
      { title: 'Write 512 kg', kind: 'quickfix', isPreferred: undefined },
      { title: 'Write 512 lb', kind: 'quickfix', isPreferred: undefined },
    ]);
    expect(actions[0]?.diagnostics?.map(({ code }) => code)).toEqual(['notation/missing-unit']);
    const mended = afterAction(text, actions[0]);
    expect(mended).toBe('hoof 1\nvisit 2026-03-04\n  weight 512 kg\n');
    client.change(uri, 2, [{ text: mended }]);
    expect(await client.diagnostics(uri, 2)).toEqual([]);
    expect(
      await client.codeActions(uri, { start: { line: 2, character: 10 }, end: { line: 2, character: 10 } }),
    ).toEqual([]);
  });

  it('name the version that they are meant for, and follow the text as it is now', async () => {
    const { uri } = await actionsAt('hoof 1\nvisit 2026-03-04\n  wieght¦ 512 kg\n');
    client.change(uri, 9, [
      { range: { start: { line: 2, character: 0 }, end: { line: 2, character: 0 } }, text: '# 🐴\n    ' },
    ]);
    const at = { line: 3, character: 7 };
    const [action] = await client.codeActions(uri, { start: at, end: at });
    expect(action?.isPreferred).toBe(true);
    expect(action?.edit?.documentChanges).toEqual([
      {
        textDocument: { uri, version: 9 },
        edits: [{ range: { start: { line: 3, character: 6 }, end: { line: 3, character: 12 } }, newText: 'weight' }],
      },
    ]);
  });

  it.each([
    ['a text without quotes', 'case "A"\r\n  breed c¦ob 🐴 mix\r\n', 'case "A"\r\n  breed "cob 🐴 mix"\r\n'],
    [
      'a text without its end',
      'visit 2026-03-04\r\n  feed "soaked h¦ay\r\n',
      'visit 2026-03-04\r\n  feed "soaked hay"\r\n',
    ],
    ['a decimal comma', 'visit 2026-03-04\r\n  condition 6¦,5\r\n', 'visit 2026-03-04\r\n  condition 6.5\r\n'],
    ['a date of another country', 'visit 4.3.2¦026\r\n', 'visit 2026-03-04\r\n'],
  ])('mend %s in a file of CR LF lines', async (_, marked, mended) => {
    const { text, actions } = await actionsAt(`hoof 1\r\n${marked}`);
    expect(actions.length).toBe(1);
    expect(afterAction(text, actions[0])).toBe(`hoof 1\r\n${mended}`);
  });

  it('write a missing version line', async () => {
    const { text, actions } = await actionsAt('¦case "A"\n');
    expect(afterAction(text, actions[0])).toBe('hoof 1\n\ncase "A"\n');
  });

  it('are none where nothing is wrong, and none of another kind', async () => {
    const { uri, actions } = await actionsAt('hoof¦ 1\nvisit 2026-03-04\n  weight 512\n');
    expect(actions).toEqual([]);
    const range = { start: { line: 0, character: 0 }, end: { line: 3, character: 0 } };
    expect(await client.codeActions(uri, range)).toHaveLength(2);
    expect(await client.codeActions(uri, range, { diagnostics: [], only: ['refactor'] })).toEqual([]);
    expect(await client.codeActions(uri, range, { diagnostics: [], only: ['quickfix'] })).toHaveLength(2);
  });

  it('use plain changes for a client that knows no versions', async () => {
    const plain = await LanguageClient.start({ capabilities: {} });
    const uri = 'file:///plain.hoof';
    plain.open(uri, 'hoof 1\nvisit 2026-03-04\n  weight 512\n');
    const [action] = await plain.codeActions(uri, { start: { line: 2, character: 9 }, end: { line: 2, character: 9 } });
    const at = { line: 2, character: 12 };
    expect(action?.edit).toEqual({ changes: { [uri]: [{ range: { start: at, end: at }, newText: ' kg' }] } });
    await plain.stop();
  });
});
