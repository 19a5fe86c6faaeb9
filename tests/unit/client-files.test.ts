import type { Connection } from 'vscode-languageserver';
import { describe, expect, it } from 'vitest';
import { ClientFiles } from '../../server/client-files.ts';

const uri = 'vscode-vfs://stable/cases';

/** Files by way of a client that gives this answer to whatever it is asked. */
function filesWith(answer: () => unknown, { answers = true, initialized = true } = {}) {
  const asked: unknown[][] = [];
  const connection = {
    sendRequest: async (...request: unknown[]) => {
      asked.push(request);
      return answer();
    },
  };
  const files = new ClientFiles(connection as unknown as Connection);
  files.answers = answers;
  if (initialized) files.initialized();
  return { files, asked };
}

describe('files by way of the client', () => {
  it('a folder is listed as the client tells it, without entries that are none', async () => {
    const good = [
      { name: 'a film.dcm', kind: 'file', size: 12 },
      { name: 'films', kind: 'folder', size: null },
    ];
    const bad = [
      null,
      'a.dcm',
      {},
      { name: '..', kind: 'folder', size: null },
      { name: '.', kind: 'folder', size: null },
      { name: '', kind: 'file', size: 1 },
      { name: 'a/b', kind: 'file', size: 1 },
      { name: 'a', kind: 'link', size: 1 },
      { name: 'a', kind: 'file', size: '1' },
    ];
    const { files, asked } = filesWith(() => [...bad, ...good]);
    expect(await files.listFolder(uri)).toEqual(good);
    expect(asked).toEqual([['ungula/listFolder', { uri }]]);
  });

  it('bytes come as they were', async () => {
    const bytes = Uint8Array.from({ length: 256 }, (_, at) => at);
    const { files, asked } = filesWith(() => Buffer.from(bytes).toString('base64'));
    expect(await files.readBytes(uri)).toEqual(bytes);
    expect(asked).toEqual([['ungula/readFile', { uri }]]);
  });

  it.each([[null], [undefined], [7], ['not base64 at all!'], [{ bytes: [] }]])('%j is no file', async (answer) => {
    expect(await filesWith(() => answer).files.readBytes(uri)).toBeNull();
  });

  it('a client that fails gives neither', async () => {
    const { files } = filesWith(() => {
      throw new Error('no such method');
    });
    expect([await files.readBytes(uri), await files.listFolder(uri)]).toEqual([null, null]);
  });

  it('of a client that does not answer nothing is asked, and that is not taken for a missing file', async () => {
    const { files, asked } = filesWith(() => '', { answers: false });
    await expect(files.readBytes(uri)).rejects.toThrow('out of reach');
    await expect(files.listFolder(uri)).rejects.toThrow('out of reach');
    expect(asked).toEqual([]);
  });

  it('nothing is asked before the client has heard the greeting', async () => {
    const { files, asked } = filesWith(() => '', { initialized: false });
    const reading = files.readBytes(uri);
    await new Promise((resolve) => setTimeout(resolve, 10));
    expect(asked).toEqual([]);
    files.initialized();
    await reading;
    expect(asked).toHaveLength(1);
  });
});
