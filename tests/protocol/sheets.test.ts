import { expect, it } from 'vitest';
import { sheetsRequest, type SheetsResult } from '../../shared/protocol/sheets.ts';
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
    sheets: [],
    yardsticks: {},
    visits: [],
    tapes: [],
    pairs: [],
  });
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
