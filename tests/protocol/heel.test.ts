import { expect, it } from 'vitest';
import { heelRequest, type HeelParams } from '../../shared/protocol/plans.ts';
import type { PlaceResult } from '../../shared/protocol/placing.ts';
import { caseText, filmText } from '../unit/plain-foot.ts';
import { LanguageClient } from './language-client.ts';

const uri = 'file:///heel.hoof';
const text = caseText(`${filmText()}\n\n  plan LF\n    heel down 2 mm # agreed`);
const line = text.split('\n').findIndex((one) => one.includes('plan LF'));

const ask = (client: LanguageClient, part: Partial<HeelParams> = {}): Promise<PlaceResult> =>
  client.request(heelRequest, { textDocument: { uri, version: 7 }, line, mm: 3.5, ...part });

it('a heel cut of the slider becomes one edit of the plan’s own number', async () => {
  const client = await LanguageClient.start();
  client.open(uri, text, 7);
  const from = (text.split('\n')[line + 1] ?? '').indexOf('2 mm');
  expect(await ask(client)).toEqual({
    kind: 'edits',
    version: 7,
    edits: [
      {
        range: { start: { line: line + 1, character: from }, end: { line: line + 1, character: from + 4 } },
        newText: '3.5 mm',
      },
    ],
  });
  await client.stop();
});

it('a heel cut is refused in words where the text or the plan is another, or the file is not open', async () => {
  const client = await LanguageClient.start();
  client.open(uri, text, 7);
  const kinds = async (part: Partial<HeelParams>) => {
    const { kind, ...rest } = await ask(client, part);
    return { kind, stale: 'stale' in rest ? rest.stale : null };
  };
  expect(await kinds({ textDocument: { uri, version: 6 } })).toEqual({ kind: 'refused', stale: true });
  expect(await kinds({ line: 0 })).toEqual({ kind: 'refused', stale: false });
  expect(await kinds({ textDocument: { uri: 'file:///none.hoof', version: 1 } })).toEqual({
    kind: 'refused',
    stale: false,
  });
  for (const mm of [-1, 60.1, 1e308]) await expect(ask(client, { mm })).rejects.toThrow(/mm: not as expected/);
  await expect(ask(client, { line: 1e9 })).rejects.toThrow(/line: not as expected/);
  await client.stop();
});
