import type { Connection } from 'vscode-languageserver';
import { describe, expect, it } from 'vitest';
import { calibratedPicture } from '../protocol/case-folder.ts';
import { ClientFiles } from '../../server/serving/client-files.ts';

const uri = 'vscode-vfs://stable/cases';
const dicom = calibratedPicture('0.14');

/** Files by way of a client that gives this answer to whatever it is asked. */
function filesWith(answer: (params: unknown) => unknown, { answers = true, initialized = true } = {}) {
  const asked: unknown[][] = [];
  const connection = {
    sendRequest: async (...request: unknown[]) => {
      asked.push(request);
      return answer(request[1]);
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
    expect(await files.readBytes(uri, [], 256)).toEqual(bytes);
    expect(asked).toEqual([['ungula/readFile', { uri, most: 256 }]]);
    expect(await files.readBytes(uri, [], 255)).toBe('too large');
  });

  it('of a file that is too large the client may say so without reading it', async () => {
    const { files } = filesWith(() => ({ refused: 'too large' }));
    expect(await files.readBytes(uri, [], 9)).toBe('too large');
    expect(await filesWith(() => ({ refused: 'else' })).files.readBytes(uri, [], 9)).toBeNull();
  });

  it('a picture is read by pieces, its size asked for first', async () => {
    const bytes = dicom;
    const { files, asked } = filesWith((params) => {
      const { start, length } = params as { start: number; length: number };
      return {
        size: bytes.length,
        stamp: '1',
        bytes: Buffer.from(bytes.subarray(start, start + length)).toString('base64'),
      };
    });
    expect(await files.storedScale(`${uri}/a.dcm`, [], 'a.dcm')).toMatchObject({ found: { mmPerPx: 0.14 } });
    expect(asked[0]).toEqual(['ungula/readPicture', { uri: `${uri}/a.dcm`, start: 0, length: 0 }]);
    expect(await files.stampOf(`${uri}/a.dcm`)).toBe('1');
  });

  it('a picture that the client refuses, or says too much of, is told by its reason', async () => {
    const found = (answer: unknown) => filesWith(() => answer).files.storedScale(uri, [], 'a.dcm');
    expect(await found({ refused: 'leads out' })).toEqual({ refused: 'leads out' });
    expect(await found({ refused: 'no reason of ours' })).toEqual({ refused: 'not there' });
    expect(await found({ size: 5e9, stamp: '1', bytes: '' })).toEqual({ refused: 'too large' });
    expect(await found({ size: -1, stamp: '1', bytes: '' })).toEqual({ refused: 'not there' });
    expect(await found(null)).toEqual({ refused: 'not there' });
  });

  it.each([[null], [undefined], [7], ['not base64 at all!'], [{ bytes: [] }]])('%j is no file', async (answer) => {
    expect(await filesWith(() => answer).files.readBytes(uri, [], 1000)).toBeNull();
  });

  it('a client that fails gives neither', async () => {
    const { files } = filesWith(() => {
      throw new Error('no such method');
    });
    expect([await files.readBytes(uri, [], 1000), await files.listFolder(uri)]).toEqual([null, null]);
  });

  it('of a client that does not answer nothing is asked, and that is not taken for a missing file', async () => {
    const { files, asked } = filesWith(() => '', { answers: false });
    await expect(files.readBytes(uri, [], 1000)).rejects.toThrow('out of reach');
    await expect(files.listFolder(uri)).rejects.toThrow('out of reach');
    expect(asked).toEqual([]);
  });

  it('nothing is asked before the client has heard the greeting', async () => {
    const { files, asked } = filesWith(() => '', { initialized: false });
    const reading = files.readBytes(uri, [], 1000);
    await new Promise((resolve) => setTimeout(resolve, 10));
    expect(asked).toEqual([]);
    files.initialized();
    await reading;
    expect(asked).toHaveLength(1);
  });
});
