import { DocumentHighlightKind, type DocumentHighlight, type Location, type Range } from 'vscode-languageserver';
import type { TextDocumentEdit, WorkspaceEdit } from 'vscode-languageserver';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { LanguageClient } from './language-client.ts';
import { applied, positionAt, textIn } from './text-positions.ts';

let client: LanguageClient;
let count = 0;
beforeAll(async () => {
  client = await LanguageClient.start();
});
afterAll(() => client.stop());

const text = `hoof 1
case "A 🐴"
  code EX02 # of the series
limits
  palmar-angle <= 8 deg
  toe-length <= 90 mm
visit 2026-03-04
  film LF lateral "first.png"
    p3.tip @ 1, 2
    p3.wing @ 3, 4
    expect palmar-angle 5 deg
    read "Ann"
      p3.tip @ 5, 6
      p3.tip @ 7, 8
    read "Ben \\"B\\" B."
      p3.tip @ 9, 10
  film RF lateral "second.png"
    p3.wing @ 11, 12
    p3.tip @ 13, 14
    read "Ann"
      p3.tip @ 15, 16
  tape LF
    toe-length 92 mm
visit 2026-04-04
  film LF lateral "third.png"
    p3.tip @ 17, 18
    wall.lower @ 19, 20
  plan LF
    heel down 2 mm
    boots "foam"
  trim RH
    heel down 2 mm
  tape RF
    palmar-angle 6 deg
visit 2026-05-04
  photo LF lateral "last.png"
    p3.tip @ 21, 22
  film LF front "front.png"
    coronet.medial @ 1, 2
`.replace(/\n/g, '\r\n');

/** Opens the text anew and asks at the first character of `place` on the line that holds `line`. */
function asked(line: string, place: string): { uri: string; position: { line: number; character: number } } {
  const from = text.indexOf(line);
  const at = text.indexOf(place, from);
  if (from < 0 || at < 0) throw new Error(`«${place}» of «${line}» is not in the text`);
  const uri = `file:///names-${(count += 1)}.hoof`;
  client.open(uri, text);
  return { uri, position: positionAt(text, at) };
}

/** The lines where something is, each with the piece that is meant in brackets. */
const shown = (ranges: readonly Range[]): string[] =>
  ranges.map((range) => {
    const { line } = range.start;
    const written = text.split('\r\n')[line] ?? '';
    return `${written.slice(0, range.start.character)}[${textIn(text, range)}]${written.slice(range.end.character)}`.trim();
  });

async function definition(line: string, place: string): Promise<string[]> {
  const { uri, position } = asked(line, place);
  const found = await client.about<Location[]>('definition', uri, { position });
  expect(found.every((location) => location.uri === uri)).toBe(true);
  return shown(found.map(({ range }) => range));
}

async function references(line: string, place: string, includeDeclaration = true): Promise<string[]> {
  const { uri, position } = asked(line, place);
  const more = { position, context: { includeDeclaration } };
  return shown((await client.about<Location[]>('references', uri, more)).map(({ range }) => range));
}

const tips = (numbers: readonly number[]): string[] => numbers.map((x) => `[p3.tip] @ ${x}, ${x + 1}`);

describe('definition', () => {
  it('of a plan is the newest film that it is predicted on, from its header and its cuts', async () => {
    const film = ['[film] LF lateral "third.png"'];
    expect(await definition('  plan LF', 'plan')).toEqual(film);
    expect(await definition('  plan LF', 'LF')).toEqual(film);
    expect(await definition('    heel down', 'down')).toEqual(film);
    expect(await definition('    boots', 'boots')).toEqual([]);
    expect(await definition('  trim RH', 'trim')).toEqual([]);
  });

  it('of a trim is the last plan of its foot, else the film; of what it took off always the film', async () => {
    const uri = 'file:///trims.hoof';
    const own = text.replace('trim RH', 'trim LF').replace('heel down 2 mm\r\n  tape', 'toe down 2 mm\r\n  tape');
    client.open(uri, own);
    const from = async (place: string): Promise<string[]> => {
      const position = positionAt(own, own.indexOf(place));
      const found = await client.about<Location[]>('definition', uri, { position });
      return found.map(({ range }) => own.split('\r\n')[range.start.line]?.trim() ?? '');
    };
    expect(await from('trim LF')).toEqual(['plan LF']);
    expect(await from('LF\r\n    toe down')).toEqual(['plan LF']);
    expect(await from('toe down')).toEqual(['film LF lateral "third.png"']);
    client.change(uri, 2, [{ text: own.replace('plan LF', 'plan RH') }]);
    expect(await from('trim LF')).toEqual(['film LF lateral "third.png"']);
  });

  it('of a measure is the first of its landmarks that is placed: in the film around it', async () => {
    expect(await definition('    expect', 'palmar')).toEqual(tips([1]));
    expect(await definition('    expect', '5 deg')).toEqual([]);
  });

  it('of a measure in a tape: in the newest film of that foot up to then', async () => {
    expect(await definition('    palmar-angle 6', 'palmar')).toEqual(tips([13]));
    // None of its landmarks is placed in that film.
    expect(await definition('    toe-length 92', 'toe')).toEqual(['[film] LF lateral "first.png"']);
  });

  it('of a limit: in the newest film of each foot', async () => {
    expect(await definition('  palmar-angle <=', 'palmar')).toEqual(tips([17, 13]));
  });

  it('of a reader is where the name first stands', async () => {
    const second = text.lastIndexOf('"Ann"');
    const uri = 'file:///reader.hoof';
    client.open(uri, text);
    const found = await client.about<Location[]>('definition', uri, { position: positionAt(text, second + 2) });
    expect(found.map(({ range }) => [textIn(text, range), range.start.line])).toEqual([['"Ann"', 11]]);
  });

  it('of anything else is nothing', async () => {
    expect(await definition('    p3.wing', 'p3.wing')).toEqual([]);
    expect(await definition('visit', 'visit')).toEqual([]);
    expect(await definition('  code', '# of')).toEqual([]);
  });
});

describe('references', () => {
  it('of a landmark are its placings in every film and photo of the foot', async () => {
    expect(await references('    p3.tip', 'p3.tip')).toEqual(tips([1, 5, 7, 9, 17, 21]));
    expect(await references('    p3.tip @ 13', 'p3.tip')).toEqual(tips([13, 15]));
  });

  it('of a measure are its lines in limits, tape and expect', async () => {
    const all = ['[palmar-angle] <= 8 deg', 'expect [palmar-angle] 5 deg', '[palmar-angle] 6 deg'];
    expect(await references('  palmar-angle <=', 'palmar')).toEqual(all);
    expect(await references('    expect', 'palmar')).toEqual(all);
    expect(await references('    toe-length 92', 'toe', false)).toEqual([
      '[toe-length] <= 90 mm',
      '[toe-length] 92 mm',
    ]);
  });

  it('of a reader and of the study code leave the first out where it is not asked for', async () => {
    expect(await references('    read "Ann"', 'Ann')).toEqual(['read ["Ann"]', 'read ["Ann"]']);
    expect(await references('    read "Ann"', 'Ann', false)).toEqual(['read ["Ann"]']);
    expect(await references('  code', 'EX02')).toEqual(['code [EX02] # of the series']);
    expect(await references('  code', 'EX02', false)).toEqual([]);
  });

  it('are none of a word of the notation, of numbers, remarks and texts', async () => {
    for (const [line, place] of [
      ['  code', 'code'],
      ['    p3.tip', '@'],
      ['  code', '# of'],
      ['    boots', '"foam"'],
      ['    expect', '5 deg'],
    ] as const)
      expect(await references(line, place), place).toEqual([]);
  });
});

describe('highlights', () => {
  it('set a landmark in the reading under the cursor apart from the others', async () => {
    const { uri, position } = asked('      p3.tip @ 5', 'p3.tip');
    const found = await client.about<DocumentHighlight[]>('documentHighlight', uri, { position });
    expect(shown(found.map(({ range }) => range))).toEqual(tips([1, 5, 7, 9, 17, 21]));
    const near = found.filter(({ kind }) => kind === DocumentHighlightKind.Write);
    expect(shown(near.map(({ range }) => range))).toEqual(tips([5, 7]));
  });

  it('of a measure are all alike', async () => {
    const { uri, position } = asked('    expect', 'palmar');
    const found = await client.about<DocumentHighlight[]>('documentHighlight', uri, { position });
    expect(found.map(({ kind }) => kind)).toEqual(Array.from({ length: 3 }, () => DocumentHighlightKind.Text));
  });
});

describe('rename', () => {
  async function renamed(line: string, place: string, newName: unknown): Promise<string> {
    const { uri, position } = asked(line, place);
    const edit = await client.about<WorkspaceEdit>('rename', uri, { position, newName });
    const [change] = edit.documentChanges as TextDocumentEdit[];
    expect(change?.textDocument).toEqual({ uri, version: 1 });
    return applied(text, (change?.edits ?? []) as { range: Range; newText: string }[]);
  }

  it('shows the name without its quotes', async () => {
    const ann = asked('    read "Ann"', 'Ann');
    const { range, placeholder } = await client.about<{ range: Range; placeholder: string }>('prepareRename', ann.uri, {
      position: ann.position,
    });
    expect([textIn(text, range), placeholder]).toEqual(['Ann', 'Ann']);
    const code = asked('  code', 'EX02');
    expect(await client.about('prepareRename', code.uri, { position: code.position })).toMatchObject({
      placeholder: 'EX02',
    });
  });

  it('of a reader changes every reading of that name and no other', async () => {
    expect(await renamed('    read "Ann"', 'Ann', 'Cleo 🐴')).toBe(text.replaceAll('"Ann"', '"Cleo 🐴"'));
    expect(await renamed('    read "Ann"', 'Ann', 'Ann')).toBe(text);
  });

  it('writes the escapes that a text needs, and keeps those that are there', async () => {
    const ben = '    read "Ben';
    expect(await renamed(ben, 'Ben', 'Ben \\"B\\" C.')).toBe(text.replace('B\\" B."', 'B\\" C."'));
    expect(await renamed(ben, 'Ben', 'Ben "B"')).toBe(text.replace('B\\" B."', 'B\\""'));
    expect(await renamed(ben, 'Ben', 'a\\b')).toBe(text.replace('"Ben \\"B\\" B."', '"a\\\\b"'));
  });

  it('of the study code changes it', async () => {
    expect(await renamed('  code', 'EX02', 'S-07')).toBe(text.replace('EX02', 'S-07'));
  });

  it.each([
    ['  code', 'EX02', 'two words', /letters and digits/],
    ['  code', 'EX02', '', /letters and digits/],
    ['  code', 'EX02', 'S07 # x', /letters and digits/],
    ['  code', 'EX02', 7, /letters and digits/],
    ['    read "Ann"', 'Ann', ' ', /needs a name/],
    ['    read "Ann"', 'Ann', null, /needs a name/],
    ['    read "Ann"', 'Ann', 'A\nB', /one line/],
    ['    read "Ann"', 'Ann', 'A\u001b[2J', /cannot be written/],
    ['    read "Ann"', 'Ann', 'A\ud83d', /cannot be written/],
    ['    read "Ann"', 'Ann', 'A'.repeat(1001), /at most 1000 letters/],
    ['    read "Ann"', 'Ann', 'Ben "B" B.', /already/],
    ['    p3.tip', 'p3.tip', 'p3.wing', /notation’s own/],
    ['visit', '2026', '2027-01-01', /notation’s own/],
  ])('at «%s», %s, to %j is refused in words', async (line, place, newName, why) => {
    await expect(renamed(line, place, newName)).rejects.toThrow(why);
  });

  it('is refused before it is begun where nothing can be renamed', async () => {
    for (const [line, place] of [
      ['    p3.tip', 'p3.tip'],
      ['  palmar-angle', 'palmar'],
      ['  film', '"first'],
      ['  code', 'code'],
    ] as const) {
      const { uri, position } = asked(line, place);
      await expect(client.about('prepareRename', uri, { position }), place).rejects.toMatchObject({
        code: -32803,
        message: expect.stringMatching(/reader.*study code/),
      });
    }
  });
});
