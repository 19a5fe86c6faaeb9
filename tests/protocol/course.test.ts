import { expect, it } from 'vitest';
import { courseRequest, type CourseResult } from '../../shared/protocol/course.ts';
import { sheetsRequest, type SheetsResult } from '../../shared/protocol/sheets.ts';
import { courseText, wing } from '../unit/course-text.ts';
import { LanguageClient } from './language-client.ts';

const uri = 'file:///course.hoof';
const text = courseText([
  {
    date: '2026-01-01',
    places: wing(14),
    more: ['  weight 500 kg', '  obel 2', '  trim LF\n    heel down 4 mm', '  plan LF\n    heel down 5 mm'],
  },
  { date: '2026-01-29', places: wing(10) },
  { date: '2026-02-26', places: wing(9.9) },
]);
const ask = (client: LanguageClient, of = uri): Promise<CourseResult> =>
  client.request(courseRequest, { textDocument: { uri: of } });

it('the course is that of the version that is open', async () => {
  const client = await LanguageClient.start();
  client.open(uri, text, 3);
  const { version, feet } = await ask(client);
  expect([version, feet.map(({ foot, words }) => [foot, words])]).toEqual([3, [['LF', 'Left fore']]]);
  const [left] = feet;
  const row = left?.rows.find(({ measure }) => measure === 'palmar-angle');
  expect(row?.points.map(({ date, text: said }) => [date, said.slice(0, 4)])).toEqual([
    ['2026-01-01', '9.9°'],
    ['2026-01-29', '7.1°'],
    ['2026-02-26', '7.1°'],
  ]);
  expect(row?.changes.map(({ clear, text: said }) => [said, clear])).toEqual([
    ['−2.8°', true],
    ['−0.1°', false],
  ]);
  expect(row?.trend).toMatchObject({ n: 3, level: expect.closeTo(2 / 3, 9) as number });
  expect(left?.trims).toMatchObject([{ date: '2026-01-01', words: 'heel down 4 mm' }]);
  const lines = text.split('\n');
  for (const { line } of left?.films ?? []) expect(lines[line]).toMatch(/^ {2}film LF lateral/);
  expect(lines[left?.trims[0]?.line ?? 0]).toBe('  trim LF');
  const line = left?.films[1]?.line ?? 0;
  client.change(uri, 4, [{ range: { start: { line, character: 7 }, end: { line, character: 9 } }, text: 'RF' }]);
  const changed = await ask(client);
  expect([changed.version, changed.feet.map(({ foot, films }) => [foot, films.length])]).toEqual([
    4,
    [
      ['LF', 2],
      ['RF', 1],
    ],
  ]);
  await client.stop();
});

it('sheets tell the visits: how the animal was, and what was done before what was planned', async () => {
  const client = await LanguageClient.start();
  client.open(uri, text);
  const { visits } = await client.request<SheetsResult>(sheetsRequest, { textDocument: { uri } });
  expect(visits.map(({ date, comfort, weight, done }) => ({ date, comfort, weight, done }))).toEqual([
    {
      date: '2026-01-01',
      comfort: 'Obel 2',
      weight: '500 kg',
      done: ['Trim left fore: heel down 4 mm', 'Plan left fore: heel down 5 mm'],
    },
    { date: '2026-01-29', comfort: null, weight: null, done: [] },
    { date: '2026-02-26', comfort: null, weight: null, done: [] },
  ]);
  const lines = text.split('\n');
  for (const visit of visits) {
    expect(lines[visit.line]).toBe(`visit ${visit.date}`);
    expect(visit.picture).toBe('x.png');
  }
  await client.stop();
});

it('the course of a file that is not open is none, and a question without a file is refused', async () => {
  const client = await LanguageClient.start();
  expect(await ask(client, 'file:///nowhere.hoof')).toEqual({ version: null, feet: [] });
  await expect(client.request(courseRequest, {})).rejects.toThrow(/textDocument\.uri is missing/);
  await client.stop();
});
