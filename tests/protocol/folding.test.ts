import type { FoldingRange } from 'vscode-languageserver';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { LanguageClient } from './language-client.ts';

let client: LanguageClient;
beforeAll(async () => {
  client = await LanguageClient.start();
});
afterAll(() => client.stop());

const text = `hoof 1

case "Juniper"
  animal horse
  | One line of prose.

visit 2026-03-04
  | A paragraph
  | of two lines.

  | And one alone.
  film LF lateral "a.png"
    scale dicom
    p3.tip @ 1, 2

    # Between two of them a remark.
    p3.wing @ 3, 4
    p3.zzz @
    ground 1, 2 .. 3, 4
    sole.tip @ 5, 6
    read "B"
      p3.tip @ 1, 2
      p3.wing @ 3, 4
  plan LF
    heel down 2 mm
# The end.
`;

const folds = async (uri: string): Promise<string[]> =>
  (await client.about<FoldingRange[]>('foldingRange', uri))
    .map(({ startLine, endLine, kind }) => `${startLine}-${endLine}${kind ? ` ${kind}` : ''}`)
    .sort();

describe('folding', () => {
  it.each([
    ['LF', text],
    ['CR LF', text.replace(/\n/g, '\r\n')],
    ['CR', text.replace(/\n/g, '\r')],
  ])('is of blocks, runs of prose and runs of landmarks (%s)', async (ending, written) => {
    const uri = `file:///folding ${ending}.hoof`;
    client.open(uri, written);
    expect(await folds(uri)).toEqual(
      [
        '2-4', // case
        '6-24', // visit, without the remark below it
        '7-8 comment', // prose; a line alone is no run
        '11-22', // film
        '13-17', // landmarks, the broken one too
        '20-22', // read
        '21-22', // its landmarks
        '23-24', // plan
      ].sort(),
    );
  });

  it('has nothing where nothing is longer than its line', async () => {
    client.open('file:///short.hoof', 'hoof 1\ncase "A"\nvisit\nlimits');
    expect(await folds('file:///short.hoof')).toEqual([]);
    client.open('file:///empty.hoof', '');
    expect(await folds('file:///empty.hoof')).toEqual([]);
  });
});
