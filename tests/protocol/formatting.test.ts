import { expect, it } from 'vitest';
import { LanguageClient } from './language-client.ts';
import { applied } from './text-positions.ts';

it.each([
  ['LF', '\n'],
  ['CR LF', '\r\n'],
])('formatting lays out a file, keeps its %s and its broken lines, and is done after once', async (_, ending) => {
  const client = await LanguageClient.start();
  const lines = (...written: string[]): string => written.map((line) => line + ending).join('');
  const text = lines(
    'hoof 1',
    'visit   2026-03-04 "🐴"',
    'weight 512 kg  # 🐴',
    'wieght    5',
    'film LF lateral "a.png"',
    'p3.tip @ 1,2',
  );
  client.open('file:///format.hoof', text);
  const edits = await client.formatting('file:///format.hoof');
  const laidOut = applied(text, edits);
  expect(laidOut).toContain(`${ending}visit 2026-03-04 "🐴"${ending}`);
  expect(laidOut).toContain('wieght    5');
  expect(laidOut).toContain(`${ending}  film LF lateral "a.png"${ending}`);
  expect(laidOut.replaceAll('\r\n', '').includes('\r')).toBe(false);
  expect(laidOut.split(ending).length).toBeGreaterThan(text.split(ending).length);
  client.change('file:///format.hoof', 2, [{ text: laidOut }]);
  expect(await client.formatting('file:///format.hoof')).toEqual([]);
  await client.stop();
});
