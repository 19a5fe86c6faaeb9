import { expect, it } from 'vitest';
import { sheetsRequest, type SheetsParams, type SheetsResult } from '../../shared/protocol/sheets.ts';
import { filmKey, type FilmLook } from '../../shared/views/film-choice.ts';
import { LanguageClient } from './language-client.ts';

const uri = 'file:///sheets.hoof';
const text = `hoof 1
case "Juniper"
visit 2026-03-04
  film LF lateral "a.png"
    scale 0.1 mm/px
    ground 0, 2000 .. 1000, 2000
    p3.tip @ 100, 1000
    p3.wing @ 500, 700
  film RF lateral "b.png"
`;
const ask = (client: LanguageClient, of = uri): Promise<SheetsResult> =>
  client.request(sheetsRequest, { textDocument: { uri: of } });
const angle = (result: SheetsResult): string | undefined =>
  result.sheets[0]?.rows.find(({ measure }) => measure === 'palmar-angle')?.text;

/** A small angle is off by the deviation of height difference over distance: sqrt(2) s / 50 mm across the line here. */
const deviation = (mm: number): string => ((Math.SQRT2 * mm * 180) / (50 * Math.PI)).toFixed(1);

it('sheets are those of the version that is open', async () => {
  const client = await LanguageClient.start();
  client.open(uri, text, 4);
  const result = await ask(client);
  expect(result.version).toBe(4);
  expect(result.caseName).toBe('Juniper');
  expect(result.animal).toEqual({ kind: null, heightMm: null });
  expect(result.sheets.map(({ title, line, picture }) => [title, line, picture])).toEqual([
    ['Left fore, lateral film, 2026-03-04', 3, 'a.png'],
    ['Right fore, lateral film, 2026-03-04', 8, 'b.png'],
  ]);
  expect(angle(result)).toMatch(/^36\.9° ± /);
  client.change(uri, 5, [
    { range: { start: { line: 7, character: 19 }, end: { line: 7, character: 22 } }, text: '600' },
  ]);
  const changed = await ask(client);
  expect([changed.version, angle(changed)?.slice(0, 5)]).toEqual([5, '45.0°']);
  await client.stop();
});

it('sheets of a file that is not open are none', async () => {
  const client = await LanguageClient.start();
  expect(await ask(client, 'file:///nowhere.hoof')).toEqual({
    version: null,
    caseName: null,
    animal: { kind: null, heightMm: null },
    alarms: [],
    films: [],
    sheet: null,
    over: null,
    before: null,
    lesson: null,
    keepsBack: false,
    sheets: [],
    visits: [],
    tapes: [],
    pairs: [],
  });
  await client.stop();
});

it('of a film that is looked at only that one is made whole, beside a list of all', async () => {
  const client = await LanguageClient.start();
  client.open(uri, text, 4);
  const all = await ask(client);
  expect([all.sheet, all.over, all.sheets.length]).toEqual([null, null, 2]);
  const [left, right] = all.films;
  if (!left || !right) throw new Error('the case has two films');
  const look = async (part: Partial<FilmLook>): Promise<(string | null)[]> => {
    const params: SheetsParams = {
      textDocument: { uri },
      look: { film: null, line: null, moved: false, over: null, ...part },
    };
    const { sheets, sheet, over, films } = await client.request<SheetsResult>(sheetsRequest, params);
    expect(sheets).toEqual([]);
    expect(films).toEqual(all.films);
    // Whole, and the same as among all.
    expect(all.sheets).toContainEqual(sheet);
    return [sheet && sheet.picture, over && over.picture];
  };
  // Of two films of one day the first; else the chosen one, else the one at the cursor.
  expect(await look({})).toEqual(['a.png', null]);
  expect(await look({ film: filmKey(right) })).toEqual(['b.png', null]);
  expect(await look({ film: filmKey(right), line: 6 })).toEqual(['b.png', null]);
  expect(await look({ film: filmKey(right), line: 6, moved: true })).toEqual(['a.png', null]);
  expect(await look({ line: 8, over: filmKey(left) })).toEqual(['b.png', 'a.png']);
  // A film is not laid over itself, nor one that is gone.
  expect(await look({ line: 6, over: filmKey(left) })).toEqual(['a.png', null]);
  expect(await look({ over: 'gone' })).toEqual(['a.png', null]);
  for (const wrong of [7, null, { film: 7 }, { film: null, line: -1, moved: false, over: null }])
    await expect(client.request(sheetsRequest, { textDocument: { uri }, look: wrong })).rejects.toThrow(
      /look.*not as expected/,
    );
  await client.stop();
});

it('of what was taken by hand, and of pairs, comes what belongs to the visit that is looked at', async () => {
  const client = await LanguageClient.start();
  const two = `${text}  tape LF
    toe-length 80 mm
visit 2026-04-01
  tape LF
    toe-length 82 mm
`;
  client.open(uri, two);
  expect((await ask(client)).tapes.map(({ date }) => date)).toEqual(['2026-03-04', '2026-04-01']);
  const look: FilmLook = { film: null, line: null, moved: false, over: null };
  const { tapes } = await client.request<SheetsResult>(sheetsRequest, { textDocument: { uri }, look });
  expect(tapes.map(({ date }) => date)).toEqual(['2026-03-04']);
  // Without a film there is no visit that is looked at.
  client.open('file:///hand.hoof', two.replaceAll(/^ {2}film .*\n(?: {4}.*\n)*/gm, ''));
  const byHand = await client.request<SheetsResult>(sheetsRequest, {
    textDocument: { uri: 'file:///hand.hoof' },
    look,
  });
  expect([byHand.sheet, byHand.tapes.length]).toEqual([null, 2]);
  await client.stop();
});

it('the placing spread of the settings counts: pushed, at once', async () => {
  const client = await LanguageClient.start();
  client.open(uri, text);
  // The ground line is placed too: 100 mm long, so its own part is half as large, added in squares.
  const expected = (mm: number): string => Math.hypot(Number(deviation(mm)), Number(deviation(mm)) / 2).toFixed(1);
  expect(angle(await ask(client))).toBe(`36.9° ± ${expected(0.5)}`);
  client.notify('workspace/didChangeConfiguration', {
    settings: { ungula: { placing: { spreadMm: 2, spreadPx: 5 } } },
  });
  expect(angle(await ask(client))).toBe(`36.9° ± ${expected(2)}`);
  client.notify('workspace/didChangeConfiguration', { settings: { ungula: { placing: { spreadMm: 'two' } } } });
  expect(angle(await ask(client))).toBe(`36.9° ± ${expected(0.5)}`);
  await client.stop();
});

it('a client that answers for its configuration is asked, and diagnostics follow the answer', async () => {
  const near = text.replace('500, 700', '500, 920');
  const configuration = { ungula: { placing: { spreadMm: 0.01 } } };
  const client = await LanguageClient.start({ capabilities: { workspace: { configuration: true } }, configuration });
  client.open(uri, near);
  const says = async (): Promise<string> => (await client.diagnostics(uri)).map(({ message }) => message).join('\n');
  // 11.3 degrees, 1.3 above the limit: within the error of half a millimetre, far outside that of a hundredth.
  while ((await says()).includes('So near the line')) await ask(client);
  expect(await says()).toContain('11.3 ± 0.0°');
  configuration.ungula.placing.spreadMm = 0.5;
  client.notify('workspace/didChangeConfiguration', { settings: null });
  while (!(await says()).includes('So near the line')) await ask(client);
  expect(await says()).toContain('11.3 ± 1.1°');
  await client.stop();
});
