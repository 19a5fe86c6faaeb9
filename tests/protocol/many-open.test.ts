import { expect, it } from 'vitest';
import { smallCase } from './case-folder.ts';
import { LanguageClient } from './language-client.ts';

it('two hundred files are open at once: each is told what is wrong in it and in no other', async () => {
  const client = await LanguageClient.start();
  const uris = Array.from({ length: 200 }, (_, at) => `file:///many/${at}.hoof`);
  for (const [at, uri] of uris.entries())
    client.open(uri, `${smallCase({ name: `Case ${at}` })}${at % 3 === 0 ? 'visit 2031-02-30\n' : ''}`);
  for (const [at, uri] of uris.entries()) {
    const errors = (await client.diagnostics(uri)).filter(({ severity }) => severity === 1);
    expect(errors.length > 0, uri).toBe(at % 3 === 0);
  }
  // All change at once; the last text of each counts.
  for (const uri of uris) client.change(uri, 2, [{ text: 'hoof 1\nvisit 2031-02-30\n' }]);
  for (const uri of uris) client.change(uri, 3, [{ text: smallCase() }]);
  for (const uri of uris)
    expect((await client.diagnostics(uri, 3)).filter(({ severity }) => severity === 1)).toEqual([]);
  expect(client.log).toEqual([]);
  expect(await client.stop()).toBe(0);
});
