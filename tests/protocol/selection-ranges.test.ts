import type { SelectionRange } from 'vscode-languageserver';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { LanguageClient } from './language-client.ts';
import { cursorIn, textIn } from './text-positions.ts';

let client: LanguageClient;
let count = 0;
beforeAll(async () => {
  client = await LanguageClient.start();
});
afterAll(() => client.stop());

/** What a selection grows to, first to last. */
async function grown(marked: string): Promise<string[]> {
  const { text, position } = cursorIn(marked);
  const uri = `file:///selection-${(count += 1)}.hoof`;
  client.open(uri, text);
  const [range] = await client.about<SelectionRange[]>('selectionRange', uri, { positions: [position] });
  const all: string[] = [];
  for (let one: SelectionRange | undefined = range; one; one = one.parent) all.push(textIn(text, one.range));
  return all;
}

const file = (line: string): string =>
  `hoof 1\r\nvisit 2026-03-04 "🐴"\r\n  film LF lateral "a b.png"\r\n    read "B"\r\n${line}\r\n`;

describe('selection ranges', () => {
  it('grow from a number to the file, a step for each thing that holds it', async () => {
    const line = '      p3.tip @ 41¦0, 1190 +- 3';
    const text = file(line).replace('¦', '');
    const read = `read "B"\r\n${line.replace('¦', '')}`;
    const film = `film LF lateral "a b.png"\r\n    ${read}`;
    const visit = `visit 2026-03-04 "🐴"\r\n  ${film}`;
    expect(await grown(file(line))).toEqual(['410', '410, 1190', 'p3.tip @ 410, 1190 +- 3', read, film, visit, text]);
  });

  it.each([
    ['a spread is one argument', '      p3.tip @ 4, 5 +- ¦3', ['3', '+- 3', 'p3.tip @ 4, 5 +- 3']],
    ['a unit', '  weight 512 k¦g', ['kg', '512 kg', 'weight 512 kg']],
    ['a word of a text', '  feed "soaked ha¦y"', ['hay', 'soaked hay', '"soaked hay"', 'feed "soaked hay"']],
    ['a segment', '  ground 1, 2 .. 3¦, 4', ['3', '3, 4', '1, 2 .. 3, 4', 'ground 1, 2 .. 3, 4']],
    ['a word of prose', '  | Came out of a w¦et autumn', ['wet', '| Came out of a wet autumn']],
    ['a word of a remark', '  # aft¦er the film', ['after', '# after the film']],
    ['several feet', '  pulse LF R¦F normal', ['RF', 'LF RF', 'pulse LF RF normal']],
    ['a broken line', '  weight "oh¦ no', ['"oh no', 'weight "oh no']],
  ])('%s', async (_, line, expected) => {
    const all = await grown(file(line));
    expect(all.slice(0, expected.length)).toEqual(expected);
    expect(all.at(-1)).toBe(file(line).replace('¦', ''));
  });

  it('answer each place asked for, beyond the text too', async () => {
    const uri = 'file:///several.hoof';
    client.open(uri, 'hoof 1\n');
    const positions = [
      { line: 0, character: 1 },
      { line: 99, character: 9 },
    ];
    const all = await client.about<SelectionRange[]>('selectionRange', uri, { positions });
    expect(all.map(({ range }) => textIn('hoof 1\n', range))).toEqual(['hoof', 'hoof 1\n']);
    expect(await client.about('selectionRange', uri, { positions: [] })).toEqual([]);
  });
});
