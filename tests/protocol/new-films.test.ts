import { afterAll, beforeAll, expect, it } from 'vitest';
import { newFilmsRequest, type NewFilmsParams, type NewFilmsResult } from '../../shared/protocol/new-films.ts';
import { LanguageClient } from './language-client.ts';

const uri = 'file:///cases/oak%20lane.hoof';
const text = 'hoof 1\n\ncase "Oak"\n  animal horse mare\n\nvisit 2026-03-04\n  weight     512 kg\n';
let client: LanguageClient;

beforeAll(async () => {
  client = await LanguageClient.start();
  client.open(uri, text);
});
afterAll(() => client.stop());

const ask = (params: Partial<NewFilmsParams>): Promise<NewFilmsResult | null> =>
  client.request(newFilmsRequest, {
    textDocument: { uri },
    position: { line: 6, character: 3 },
    pictures: [{ name: 'x.png', path: 'x.png' }],
    taken: [],
    ...params,
  });

it('answers where the block goes, how it is written and what is copied whereto', async () => {
  expect(
    await ask({
      pictures: [
        { name: 'front lf.png', path: 'films/front lf.png' },
        { name: 'IMG_7.jpg', path: null },
      ],
      taken: ['oak-lane-2026-03-04.jpg'],
    }),
  ).toEqual({
    range: { start: { line: 7, character: 0 }, end: { line: 7, character: 0 } },
    snippet: [
      '',
      '  film ${1|LF,RF,LH,RH|} ${2|front,lateral,solar|} "films/front lf.png"',
      '',
      '  film ${3|LF,RF,LH,RH|} ${4|lateral,front,solar|} "films/oak-lane-2026-03-04-2.jpg"$0',
      '',
    ].join('\n'),
    copies: [null, 'films/oak-lane-2026-03-04-2.jpg'],
  });
});

it('outside a visit it is the day on the clock of whoever writes', async () => {
  const today = (): string => {
    const now = new Date();
    return [now.getFullYear(), now.getMonth() + 1, now.getDate()]
      .map((part) => String(part).padStart(2, '0'))
      .join('-');
  };
  const before = today();
  const snippet = (await ask({ position: { line: 2, character: 0 } }))?.snippet ?? '';
  // Midnight may have struck in between.
  expect([before, today()]).toContain(/\nvisit ([\d-]+)\n {2}film /.exec(snippet)?.[1]);
});

it('of a document that is not open nothing', async () => {
  expect(await ask({ textDocument: { uri: 'file:///cases/other.hoof' } })).toBeNull();
});

it('what the picture’s file says is proposed, and nothing else is let in', async () => {
  const said = { taken: '2026-03-01', scale: true, side: 'left', limb: 'hind', view: 'lateral' } as const;
  const { snippet } = (await ask({ pictures: [{ name: 'x.dcm', path: 'x.dcm', said }] })) ?? {};
  expect(snippet).toContain(
    '${1|LH,LF,RF,RH|} ${2|lateral,front,solar|} "x.dcm"${3:\n    taken   2026-03-01}${4:\n    scale   dicom}$0',
  );
  for (const odd of [
    { ...said, taken: '2026-03-01\n  owner "Smith"' },
    { ...said, side: 'Smith' },
    { ...said, limb: 'Smith' },
    { ...said, view: 'Smith' },
    { ...said, scale: 'Smith' },
    { side: ['Smith'], limb: {}, view: 7, taken: ['Smith'] },
    'Smith',
  ]) {
    const answer = await ask({ pictures: [{ name: 'x.dcm', path: 'x.dcm', said: odd as never }] });
    expect(answer?.snippet).toMatch(/film .*(?:LF|LH).*"x\.dcm"/);
    expect(JSON.stringify(answer)).not.toContain('Smith');
  }
});

it.each([
  [[]],
  [[{ name: 'x.png' }]],
  [[{ name: 3, path: null }]],
  [null],
  [Array.from({ length: 101 }, () => ({ name: '', path: null }))],
])('pictures that are none are refused: %j', async (pictures) => {
  await expect(ask({ pictures: pictures as never })).rejects.toThrow('pictures needs');
});

it('a picture whose path no text can hold is copied to one that can', async () => {
  const { snippet, copies } =
    (await ask({ pictures: [{ name: 'a\nb.png', path: 'films/a\nvisit 2026-01-01\n.png' }] })) ?? {};
  expect(copies).toEqual([expect.stringMatching(/^films\/[\w-]+\.png$/)]);
  expect(snippet?.match(/visit/g) ?? []).toHaveLength((await ask({}))?.snippet.match(/visit/g)?.length ?? 0);
  expect(snippet).toContain(`"${copies?.[0]}"`);
});

it('a name or a path without end is refused', async () => {
  const long = 'x'.repeat(10_001);
  await expect(ask({ pictures: [{ name: long, path: null }] })).rejects.toThrow('pictures needs');
  await expect(ask({ pictures: [{ name: 'x.png', path: long }] })).rejects.toThrow('pictures needs');
});
