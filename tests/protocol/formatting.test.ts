import { describe, expect, it } from 'vitest';
import type { TextEdit } from 'vscode-languageserver';
import { LanguageClient } from './language-client.ts';
import { applied, cursorIn } from './text-positions.ts';

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

const layout = { options: { tabSize: 8, insertSpaces: false } };
const untidy = 'hoof 1\ncase "A"\nbreed   "cob"\nheight 148   cm\nvisit   2026-03-04\nweight   512 kg\n';

describe('formatting a range', () => {
  it('lays out the lines that it touches, a range that ends at the start of a line not that line', async () => {
    const client = await LanguageClient.start();
    const uri = 'file:///range.hoof';
    client.open(uri, untidy);
    const ranged = async (start: [number, number], end: [number, number]): Promise<string> => {
      const range = {
        start: { line: start[0], character: start[1] },
        end: { line: end[0], character: end[1] },
      };
      return applied(untidy, await client.about<TextEdit[]>('rangeFormatting', uri, { range, ...layout }));
    };
    const first = untidy.replace('breed   "cob"', '  breed     "cob"');
    expect(await ranged([2, 3], [2, 3])).toBe(first);
    expect(await ranged([2, 0], [3, 0])).toBe(first);
    expect(await ranged([2, 0], [3, 1])).toBe(first.replace('height 148   cm', '  height    148 cm'));
    expect(await ranged([0, 0], [9, 0])).toBe(applied(untidy, await client.formatting(uri)));
    await client.stop();
  });

  it('takes several ranges at once, and a line that two of them touch once', async () => {
    const client = await LanguageClient.start();
    const uri = 'file:///ranges.hoof';
    client.open(uri, untidy);
    const range = (line: number, from: number, to: number) => ({
      start: { line, character: from },
      end: { line, character: to },
    });
    const ranges = [range(5, 0, 3), range(2, 0, 3), range(2, 4, 6)];
    const edits = await client.about<TextEdit[]>('rangesFormatting', uri, { ranges, ...layout });
    expect(edits).toHaveLength(2);
    expect(applied(untidy, edits)).toBe(
      untidy.replace('breed   "cob"', '  breed     "cob"').replace('weight   512 kg', '  weight     512 kg'),
    );
    await client.stop();
  });
});

describe('formatting after Enter', () => {
  it.each([
    ['visit   2026-03-04\n¦', 'hoof 1\n\nvisit 2026-03-04\n  '],
    ['visit 2026-03-04\n  | Sound. 🐴\n  ¦', 'hoof 1\nvisit 2026-03-04\n  | Sound. 🐴\n  | '],
    ['visit 2026-03-04\n  | Sound.\n  | \n  ¦\n# end', 'hoof 1\nvisit 2026-03-04\n  | Sound.\n  \n# end'],
  ])('%j', async (marked, after) => {
    const client = await LanguageClient.start();
    const uri = 'file:///enter.hoof';
    for (const ending of ['\n', '\r\n']) {
      const { text, position } = cursorIn(`hoof 1\n${marked}`.replaceAll('\n', ending));
      client.open(uri, text);
      const edits = await client.about<TextEdit[]>('onTypeFormatting', uri, { position, ch: '\n', ...layout });
      expect(applied(text, edits)).toBe(after.replaceAll('\n', ending));
      expect(await client.about('onTypeFormatting', uri, { position, ch: '}', ...layout })).toEqual([]);
      client.close(uri);
    }
    await client.stop();
  });
});
