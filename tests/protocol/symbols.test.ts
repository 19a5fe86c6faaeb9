import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { SymbolKind, type DocumentSymbol, type Position, type Range } from 'vscode-languageserver';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { LanguageClient } from './language-client.ts';
import { textIn } from './text-positions.ts';

let client: LanguageClient;
beforeAll(async () => {
  client = await LanguageClient.start();
});
afterAll(() => client.stop());

const text = `hoof 1

case "Juniper 🐴"
  animal horse

limits
  sole-depth.tip >= 12 mm

visit 2026-03-04 "first visit"
  weight 512 kg
  film LF lateral "a.png"
    p3.tip @ 1, 2
    read "first reader" +- 3
      p3.wing @ 1, 2
    read "second reader"
      p3.wing @ 3, 4
  photo RH solar "b.jpg"
    toe @ 1, 2
  tape LF
    toe-length 92 mm
  plan LF
    heel down 8 mm
    toe back 3 mm
  trim RF
  next 4 weeks

visit 2026-04-01
  | Prose at the end.
`;

type Outline = readonly [name: string, ...children: readonly unknown[]];
const outline = ({ name, children = [] }: DocumentSymbol): Outline => [name, ...children.map(outline)];

const notAfter = (a: Position, b: Position): boolean =>
  a.line < b.line || (a.line === b.line && a.character <= b.character);
const holds = (outer: Range, inner: Range): boolean =>
  notAfter(outer.start, inner.start) && notAfter(inner.end, outer.end);

function checkNesting(symbols: readonly DocumentSymbol[], within: Range | null): number {
  let checked = 0;
  for (const [index, symbol] of symbols.entries()) {
    const before = symbols[index - 1];
    expect(holds(symbol.range, symbol.selectionRange), symbol.name).toBe(true);
    if (within) expect(holds(within, symbol.range), symbol.name).toBe(true);
    if (before) expect(notAfter(before.range.end, symbol.range.start), symbol.name).toBe(true);
    expect(symbol.name).not.toBe('');
    checked += 1 + checkNesting(symbol.children ?? [], symbol.range);
  }
  return checked;
}

describe('document symbols', () => {
  it.each([
    ['LF', text],
    ['CR LF', text.replace(/\n/g, '\r\n')],
  ])('nest as the blocks do (%s)', async (ending, written) => {
    const uri = `file:///symbols-${ending}.hoof`;
    client.open(uri, written);
    const symbols = await client.symbols(uri);
    expect(symbols.map(outline)).toEqual([
      ['case Juniper 🐴'],
      ['limits'],
      [
        '2026-03-04 first visit',
        ['film LF lateral', ['read first reader'], ['read second reader']],
        ['photo RH solar'],
        ['tape LF'],
        ['plan LF'],
        ['trim RF'],
      ],
      ['2026-04-01'],
    ]);
    expect(checkNesting(symbols, null)).toBe(11);
    const visit = symbols[2] as DocumentSymbol;
    expect(visit.kind).toBe(SymbolKind.Event);
    // The range covers all that the block holds, the selection its header line.
    expect(textIn(written, visit.range)).toMatch(/^visit[^]*next 4 weeks$/);
    expect(textIn(written, visit.selectionRange)).toBe('visit 2026-03-04 "first visit"');
    const [film, , , plan] = visit.children as [DocumentSymbol, DocumentSymbol, DocumentSymbol, DocumentSymbol];
    expect(textIn(written, film.range)).toMatch(/^film[^]*p3\.wing @ 3, 4$/);
    expect(film.detail).toBe('a.png');
    expect(plan.detail).toBe('heel down 8 mm, toe back 3 mm');
    expect(textIn(written, (symbols[3] as DocumentSymbol).range)).toMatch(/Prose at the end\.$/);
  });

  it('nest in a file full of mistakes too', async () => {
    const uri = 'file:///symbols-mistakes.hoof';
    client.open(
      uri,
      readFileSync(join(import.meta.dirname, 'fixtures', 'words.hoof'), 'utf8') +
        '\nvisit 2026-05-02\n  film\n    read\n      p3.tip @\n  plan LX\nvisit 2026-05-03 "x"\n',
    );
    const symbols = await client.symbols(uri);
    expect(symbols.map(outline).slice(-2)).toEqual([['2026-05-02', ['film', ['read']], ['plan']], ['2026-05-03 x']]);
    expect(checkNesting(symbols, null)).toBe(8);
  });

  it('are none in an empty file', async () => {
    client.open('file:///symbols-empty.hoof', '');
    expect(await client.symbols('file:///symbols-empty.hoof')).toEqual([]);
  });
});
