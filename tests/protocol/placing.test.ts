import { expect, it } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { placeRequest, type PlaceParams, type PlaceResult } from '../../shared/protocol/placing.ts';
import { LanguageClient } from './language-client.ts';

const uri = 'file:///placing.hoof';
const text = `hoof 1

visit 2026-03-04
  film LF lateral "a.png"
    p3.tip            @  100, 1000 +- 3
    read "K. M."
      p3.tip            @  101, 1001
`;
const film: PlaceParams['film'] = { line: 3, picture: 'a.png', foot: 'LF', view: 'lateral', reader: null };

function written(result: PlaceResult, of = text): string {
  if (result.kind === 'refused') throw new Error(result.says);
  const document = TextDocument.create(uri, 'hoof', 1, of);
  return TextDocument.applyEdits(document, [...result.edits]);
}

it('the server makes the edits that place a landmark, for the version that is open', async () => {
  const client = await LanguageClient.start();
  client.open(uri, text, 3);
  const ask = (params: Partial<PlaceParams>, version = 3): Promise<PlaceResult> =>
    client.request(placeRequest, { textDocument: { uri, version }, film, placements: [], ...params });

  const moved = await ask({ placements: [{ kind: 'landmark', name: 'p3.tip', at: { x: 99.96, y: 7 } }] });
  expect(moved).toMatchObject({ kind: 'edits', version: 3 });
  expect(written(moved)).toBe(text.replace('100, 1000', '100,    7'));

  const added = await ask({
    film: { ...film, reader: 'K. M.' },
    placements: [{ kind: 'landmark', name: 'p3.wing', at: { x: 500, y: 900.25 } }],
  });
  expect(written(added)).toBe(`${text}      p3.wing           @  500,  900.3\n`);

  const stale = await ask({ placements: [{ kind: 'landmark', name: 'p3.tip', at: { x: 1, y: 2 } }] }, 2);
  expect(stale).toMatchObject({ kind: 'refused', stale: true });

  const elsewhere = await ask({ film: { ...film, picture: 'b.png' } });
  expect(elsewhere).toMatchObject({ kind: 'refused', stale: false, says: expect.stringContaining('b.png') });

  const closed = await client.request<PlaceResult>(placeRequest, {
    textDocument: { uri: 'file:///nowhere.hoof', version: 1 },
    film,
    placements: [],
  });
  expect(closed).toMatchObject({ kind: 'refused', stale: false, says: expect.stringContaining('not open') });
  await client.stop();
});

it.each([
  ['placements', { film, placements: [{ kind: 'landmark', name: 'p3.tip', at: { x: '1', y: 2 } }] }],
  ['placements', { film, placements: [{ kind: 'wall' }] }],
  ['film.line', { film: { ...film, line: -1 }, placements: [] }],
  ['film', { placements: [] }],
])('malformed parameters are an error that names %s', async (named, params) => {
  const client = await LanguageClient.start();
  client.open(uri, text);
  await expect(client.request(placeRequest, { textDocument: { uri, version: 1 }, ...params })).rejects.toThrow(named);
  await client.stop();
});
