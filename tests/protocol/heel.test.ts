import { expect, it } from 'vitest';
import { heelRequest, type HeelResult } from '../../shared/protocol/plans.ts';
import { courseText } from '../unit/course-text.ts';
import { LanguageClient } from './language-client.ts';

const uri = 'file:///heel.hoof';
const text = courseText([{ date: '2026-01-01', more: ['  plan LF\n    heel down 5 mm'] }]);
const plan = text.split('\n').findIndex((line) => line.startsWith('  plan'));
const ask = (client: LanguageClient, version: number, line: number): Promise<HeelResult> =>
  client.request(heelRequest, { textDocument: { uri, version }, line, mm: 6.5 });

it('the slider’s heel cut is written where the plan has its number, in the version that is open', async () => {
  const client = await LanguageClient.start();
  client.open(uri, text, 3);
  const { edit } = await ask(client, 3, plan);
  expect(edit?.newText).toBe('6.5 mm');
  const { start, end } = edit?.range ?? { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };
  expect(text.split('\n')[start.line]?.slice(start.character, end.character)).toBe('5 mm');
  expect(await ask(client, 2, plan)).toEqual({ edit: null });
  expect(await ask(client, 3, 0)).toEqual({ edit: null });
  await client.stop();
});
