import { ErrorCodes } from 'vscode-languageserver';
import { expect, it } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { inspect } from '../../shared/findings/inspect.ts';
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

it('parameters out of all bounds are refused with the protocol’s error, and those at the bounds are written as they are read', async () => {
  const client = await LanguageClient.start();
  client.open(uri, text);
  const ask = (params: object): Promise<PlaceResult> =>
    client.request(placeRequest, { textDocument: { uri, version: 1 }, film, placements: [], ...params });
  const tip = (x: number, y: number) => ({ kind: 'landmark', name: 'p3.tip', at: { x, y } });
  const ground = (x: number) => ({
    kind: 'ground',
    ends: [
      { x: 1, y: 2 },
      { x, y: 2 },
    ],
  });
  for (const params of [
    { placements: [tip(100_000.1, 0)] },
    { placements: [tip(0, -100_001)] },
    { placements: [tip(1e308, 0)] },
    { placements: [ground(1e9)] },
    { placements: [{ ...tip(1, 2), name: 'p'.repeat(101) }] },
    // One thing in two places would be written twice.
    { placements: [tip(1, 2), tip(3, 4)] },
    { placements: Array.from({ length: 201 }, (_, index) => ({ ...tip(1, 2), name: `x${index}` })) },
    { film: { ...film, line: 1e9 } },
    { film: { ...film, foot: 'XX' } },
    { film: { ...film, view: 'above' } },
    { film: { ...film, picture: 'p'.repeat(100_001) } },
    { film: { ...film, reader: 'r'.repeat(100_001) } },
    { textDocument: { uri, version: 0.5 } },
  ])
    await expect(ask(params), JSON.stringify(params).slice(0, 200)).rejects.toMatchObject({
      code: ErrorCodes.InvalidParams,
    });

  const words = async (placement: object): Promise<string> => {
    const result = await ask({ placements: [placement] });
    return result.kind === 'refused' ? result.says : 'written';
  };
  expect(await words({ kind: 'landmark', name: 'p9.tip', at: { x: 1, y: 2 } })).toContain('no landmark “p9.tip”');
  for (const mm of [0, -5, 0.004, 1000.1, 1e12])
    expect(await words({ ...ground(5), kind: 'marker', mm }), String(mm)).toContain('1 mm to 1000 mm');

  for (const [placement, line] of [
    [tip(100_000, -100_000), 'p3.tip            @ 100000, -100000 +- 3'],
    [{ ...ground(5), kind: 'marker', mm: 1 }, 'scale   1 mm = 1, 2 .. 5, 2'],
    [{ ...ground(-100_000), kind: 'marker', mm: 1000 }, 'scale   1000 mm = 1, 2 .. -100000, 2'],
  ] as const) {
    const after = written(await ask({ placements: [placement] }));
    expect(after).toContain(line);
    // What is let through here the notation takes too.
    expect(inspect(after).findings.filter(({ code }) => code.startsWith('notation/'))).toEqual([]);
  }
  await client.stop();
});
