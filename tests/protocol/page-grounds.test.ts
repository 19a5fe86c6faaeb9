import { expect, it } from 'vitest';
import { pageGroundsRequest, type PageGrounds } from '../../shared/protocol/page-grounds.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import { caseText, filmText } from '../unit/plain-foot.ts';
import { LanguageClient } from './language-client.ts';

const uri = 'file:///grounds.hoof';

it('gives what the inspection of the open text rests on, as plain data', async () => {
  const client = await LanguageClient.start();
  client.notify('workspace/didChangeConfiguration', {
    settings: { ungula: { trim: { filmAge: 20 }, severity: { 'trim/film-age': 'info' } } },
  });
  const text = caseText(filmText());
  client.open(uri, text, 3);
  const ask = (of: string): Promise<PageGrounds> => client.request(pageGroundsRequest, { textDocument: { uri: of } });
  const grounds = await ask(uri);
  expect(grounds.version).toBe(3);
  expect(grounds.text).toBe(text);
  expect(grounds.settings.trim).toEqual({ ...usualStudy.trim, filmAge: 20 });
  expect(grounds.settings.spread).toEqual(usualStudy.spread);
  expect(grounds.levels).toEqual([
    ['notation/empty', 'hint'],
    ['trim/film-age', 'info'],
  ]);
  expect(await ask('file:///closed.hoof')).toMatchObject({ version: null, text: '' });
  await client.stop();
});
