import type { SemanticTokens, SemanticTokensDelta } from 'vscode-languageserver';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { LanguageClient } from './language-client.ts';
import { randomChange, seeded } from './random-edits.ts';
import { linesOf } from './text-positions.ts';

let client: LanguageClient;
beforeAll(async () => {
  client = await LanguageClient.start();
});
afterAll(() => client.stop());

/** Each token as its text and type, decoded by the protocol's own words. */
function tokens(text: string, data: readonly number[]): string[] {
  const types = client.initialized.capabilities.semanticTokensProvider?.legend.tokenTypes ?? [];
  const lines = linesOf(text);
  const all: string[] = [];
  let line = 0;
  let character = 0;
  for (let at = 0; at < data.length; at += 5) {
    const [down = 0, along = 0, length = 0, type = 0, modifiers] = data.slice(at, at + 5);
    line += down;
    character = down === 0 ? character + along : along;
    const from = lines[line];
    if (!from || character + length > from.length || length === 0 || modifiers !== 0)
      throw new Error(`a token outside its line: ${line}:${character}+${length}`);
    all.push(`${text.slice(from.start + character, from.start + character + length)} ${types[type]}`);
  }
  return all;
}

async function tokensOf(uri: string, text: string): Promise<string[]> {
  client.open(uri, text);
  return tokens(text, (await client.about<SemanticTokens>('semanticTokens/full', uri)).data);
}

const text = `hoof 1
case "A 🐴" # who
  code EX-01
limits
  sole-depth.tip >= 16 mm because "agreed"
visit 2026-03-04
  pulse LF bounding
  | prose
  film LF lateral "a.png"
    scale 100 mm = 1, 2 .. 3, 4
    p3.tip @ 5, 6 +- 2 followed
    expect palmar-angle 5 deg
  plan LF
    heel down 2 mm
`;

const expected = [
  ['hoof keyword', '1 number'],
  ['case keyword', '"A 🐴" string', '# who comment'],
  ['code property', 'EX-01 string'],
  ['limits keyword'],
  ['sole-depth.tip variable', '>= operator', '16 number', 'mm keyword', 'because operator', '"agreed" string'],
  ['visit keyword', '2026-03-04 number'],
  ['pulse property', 'LF enumMember', 'bounding enumMember'],
  ['film keyword', 'LF enumMember', 'lateral enumMember', '"a.png" string'],
  ['scale property', '100 number', 'mm keyword', '= operator', '1 number', '2 number', '3 number', '4 number'],
  ['p3.tip type', '@ operator', '5 number', '6 number', '+- operator', '2 number', 'followed operator'],
  ['expect property', 'palmar-angle variable', '5 number', 'deg keyword'],
  ['plan keyword', 'LF enumMember'],
  ['heel property', 'down operator', '2 number', 'mm keyword'],
];

describe('semantic tokens', () => {
  it.each([
    ['LF', text],
    ['CR LF', text.replace(/\n/g, '\r\n')],
  ])('say what each word is (%s)', async (ending, written) => {
    expect(await tokensOf(`file:///tokens ${ending}.hoof`, written)).toEqual(expected.flat());
  });

  it('are none on a line with a mistake, and all on the others', async () => {
    const broken = `hoof 1
case "A"
  breed cob # of some kind
limits
  sole-depth.tp >= 12 mm
visit 2026-03-04
  wieght 512 kg
  weight 512
  feed "hay
  film LF lateral "a.png"
    wall.medial @ 1, 2
    expect palmer-angle 3 deg
    p3.tip @ 1, 2
`;
    expect(await tokensOf('file:///tokens-broken.hoof', broken)).toEqual([
      'hoof keyword',
      '1 number',
      'case keyword',
      '"A" string',
      'limits keyword',
      'visit keyword',
      '2026-03-04 number',
      'film keyword',
      'LF enumMember',
      'lateral enumMember',
      '"a.png" string',
      'p3.tip type',
      '@ operator',
      '1 number',
      '2 number',
    ]);
  });

  it('of a range are those of its lines', async () => {
    const uri = 'file:///tokens-range.hoof';
    client.open(uri, text);
    const range = { start: { line: 4, character: 9 }, end: { line: 6, character: 0 } };
    const { data } = await client.about<SemanticTokens>('semanticTokens/range', uri, { range });
    expect(tokens(text, data)).toEqual(expected.slice(4, 7).flat());
  });

  it('are told after edits as what differs, and come to what a fresh look finds', async () => {
    const uri = 'file:///tokens-edited.hoof';
    const random = seeded(5);
    let written = text;
    client.open(uri, written);
    let known = await client.about<SemanticTokens>('semanticTokens/full', uri);
    const { data: whole } = known;
    let sent = 0;
    for (let version = 2; version <= 80; version++) {
      const next = randomChange(written, random);
      written = next.text;
      client.change(uri, version, [next.change]);
      const previousResultId = known.resultId;
      const told = await client.about<SemanticTokensDelta>('semanticTokens/full/delta', uri, { previousResultId });
      const data = [...known.data];
      for (const { start, deleteCount, data: put = [] } of told.edits) {
        data.splice(start, deleteCount, ...put);
        sent += put.length;
      }
      known = { resultId: told.resultId ?? '', data };
      expect(tokens(written, data)).toEqual(await tokensOf(`file:///tokens-fresh-${version}.hoof`, written));
    }
    expect(sent).toBeGreaterThan(100);
    expect(sent).toBeLessThan((79 * whole.length) / 2);
  });

  it('come whole to a client that holds another result', async () => {
    const uri = 'file:///tokens-other.hoof';
    client.open(uri, text);
    const previousResultId = 'never given';
    const told = await client.about<SemanticTokens>('semanticTokens/full/delta', uri, { previousResultId });
    expect(tokens(text, told.data)).toEqual(expected.flat());
  });
});
