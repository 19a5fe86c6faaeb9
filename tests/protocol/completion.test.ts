import type { CompletionItem, TextEdit } from 'vscode-languageserver';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { LanguageClient } from './language-client.ts';
import { applied, cursorIn } from './text-positions.ts';

let client: LanguageClient;
let count = 0;
beforeAll(async () => {
  client = await LanguageClient.start();
});
afterAll(() => client.stop());

/** Offers in the order in which the client will show them, with the text that each leads to. */
async function offersAt(
  marked: string,
  of: LanguageClient = client,
): Promise<{ item: CompletionItem; label: string; inserts: string; becomes: string }[]> {
  const { text, position } = cursorIn(marked);
  const uri = `file:///completion-${(count += 1)}.hoof`;
  of.open(uri, text);
  const items = await of.completion(uri, position);
  of.close(uri);
  return items
    .toSorted((a, b) => ((a.sortText ?? '') < (b.sortText ?? '') ? -1 : 1))
    .map((item) => {
      const edit = item.textEdit as TextEdit;
      return { item, label: item.label, inserts: edit.newText, becomes: applied(text, [edit]) };
    });
}

async function labelsAt(marked: string): Promise<string[]> {
  return (await offersAt(marked)).map(({ label }) => label);
}

const inFilm = (line: string, view = 'lateral', foot = 'LF'): string =>
  `hoof 1\n\nvisit 2026-03-04\n  film ${foot} ${view} "a.png"\n    p3.tip @ 1, 2\n    scale dicom\n${line}`;

describe('completion at the start of a line', () => {
  it('in an empty file offers the version line, as it must be', async () => {
    const offers = await offersAt('¦');
    expect(offers.map(({ label }) => label)).toEqual(['hoof', 'case', 'limits', 'visit']);
    expect(offers[0]?.becomes).toBe('hoof 1');
  });

  it('offers neither a second version line nor a second case', async () => {
    expect(await labelsAt('hoof 1\n\n¦\n\ncase "A"\n')).toEqual(['limits', 'visit']);
  });

  it('in a visit offers its words, without those said already, also further down', async () => {
    const labels = await labelsAt(
      'hoof 1\nvisit 2026-03-04\n  weight 512 kg\n  ¦\n  pulse LF normal\n  girth 190 cm\n',
    );
    for (const there of ['condition', 'film', 'pulse', 'sign', 'next']) expect(labels).toContain(there);
    for (const said of ['weight', 'girth', 'breed', 'hoof']) expect(labels).not.toContain(said);
  });

  it('offers a word again for its own line, and counts a broken line as said', async () => {
    expect(await labelsAt('hoof 1\nvisit 2026-03-04\n  wei¦ght\n')).toContain('weight');
    expect(await labelsAt('hoof 1\nvisit 2026-03-04\n  weight 512\n  ¦\n')).not.toContain('weight');
  });

  it('gives snippets with stops, units to choose from, and no invented number', async () => {
    const offers = await offersAt('hoof 1\nvisit 2026-03-04\n  we¦\n');
    const weight = offers.find(({ label }) => label === 'weight');
    expect(weight?.item.insertTextFormat).toBe(2);
    expect(weight?.becomes).toBe('hoof 1\nvisit 2026-03-04\n  weight ${1} ${2|kg,lb|}\n');
    expect(weight?.item.documentation).toMatchObject({
      kind: 'markdown',
      value: expect.stringContaining('Body weight.'),
    });
    const film = offers.find(({ label }) => label === 'film');
    expect(film?.inserts).toBe('film ${1|LF,RF,LH,RH|} ${2|lateral,front,solar,venogram,skyline,heel|} "${3}"');
  });

  it('gives plain text to a client without snippets', async () => {
    const plain = await LanguageClient.start({ capabilities: {} });
    const weight = (await offersAt('hoof 1\nvisit 2026-03-04\n  we¦\n', plain)).find(({ label }) => label === 'weight');
    expect(weight?.item.insertTextFormat).toBe(1);
    expect(weight?.becomes).toBe('hoof 1\nvisit 2026-03-04\n  weight \n');
    await plain.stop();
  });

  it('in a film offers the landmarks of its view first, without the one that is placed', async () => {
    const offers = await offersAt(inFilm('    ¦\n'));
    const labels = offers.map(({ label }) => label);
    expect(labels.slice(0, 3)).toEqual(['p3.wing', 'p3.wing.other', 'p3.extensor']);
    expect(labels).not.toContain('p3.tip');
    expect(labels).not.toContain('wall.medial');
    expect(labels).not.toContain('scale');
    for (const there of ['ground', 'taken', 'expect', 'read', 'weight', 'plan', 'visit'])
      expect(labels).toContain(there);
    expect(labels.indexOf('sole.heel')).toBeLessThan(labels.indexOf('ground'));
    expect(labels.indexOf('ground')).toBeLessThan(labels.indexOf('weight'));
    expect(offers[0]?.inserts).toBe('p3.wing @ ');
  });

  it('of another view offers that view’s landmarks', async () => {
    const labels = await labelsAt(inFilm('    ¦\n', 'front'));
    expect(labels).toContain('wall.medial');
    expect(labels).not.toContain('p3.wing');
  });

  it('goes by the reader: what another one placed is offered, what this one placed is not', async () => {
    const labels = await labelsAt(inFilm('    read "B"\n      p3.wing @ 3, 4\n      ¦\n      sole.tip @ 5, 6\n'));
    expect(labels).toContain('p3.tip');
    expect(labels).not.toContain('p3.wing');
    expect(labels).not.toContain('sole.tip');
    expect(labels.filter((label) => label === 'p3.extensor')).toHaveLength(1);
  });

  it('replaces the whole name at the cursor, points and all, and keeps what follows', async () => {
    const offers = await offersAt(inFilm('    p3.w¦in @ 3, 4 # 🐴\n'));
    const wing = offers.find(({ label }) => label === 'p3.wing');
    expect(wing?.becomes).toBe(inFilm('    p3.wing @ 3, 4 # 🐴\n'));
    expect(wing?.item.filterText).toBe('p3.wing');
    expect((await offersAt(inFilm('    p3.¦\n'))).find(({ label }) => label === 'p3.wing')?.becomes).toBe(
      inFilm('    p3.wing @ \n'),
    );
  });

  it('goes by the indentation: further out come the words of the outer block first', async () => {
    expect((await labelsAt(inFilm('  ¦\n')))[0]).toBe('film');
    expect((await labelsAt(inFilm('¦\n')))[0]).toBe('case');
    expect((await labelsAt(inFilm('    ¦\n')))[0]).toBe('p3.wing');
  });

  it('in a file without any indentation stays with the innermost block', async () => {
    expect((await labelsAt('hoof 1\nvisit 2026-03-04\nfilm LF lateral "a.png"\np3.tip @ 1, 2\n¦\n'))[0]).toBe(
      'p3.wing',
    );
  });

  it('in a tape offers what a hand can measure, with its unit', async () => {
    const offers = await offersAt('hoof 1\nvisit 2026-03-04\n  tape LF\n    heel-height 55 mm\n    ¦\n');
    const labels = offers.map(({ label }) => label);
    expect(labels).toContain('toe-length');
    expect(labels).not.toContain('heel-height');
    expect(labels).not.toContain('palmar-angle');
    expect(offers.find(({ label }) => label === 'toe-length')?.inserts).toBe('toe-length ${1} mm');
    expect(offers.find(({ label }) => label === 'wall-angle')?.inserts).toBe('wall-angle ${1} deg');
  });

  it('in limits offers every measure that a limit can be written for', async () => {
    const offers = await offersAt('hoof 1\nlimits\n  sole¦\n');
    expect(offers.find(({ label }) => label === 'sole-depth.tip')?.inserts).toBe('sole-depth.tip ${1|>=,<=|} ${2} mm');
    expect(offers.map(({ label }) => label)).not.toContain('phalanx-ratio');
  });

  it('in a plan tells toe down and toe back apart', async () => {
    const labels = await labelsAt('hoof 1\nvisit 2026-03-04\n  plan LF\n    toe back 3 mm\n    ¦\n');
    expect(labels).toContain('toe down');
    expect(labels).not.toContain('toe back');
    expect(labels.slice(0, 2)).toEqual(['heel down', 'heel up']);
  });

  it('works at the end of a file without a last line end, and with CR LF', async () => {
    expect(await labelsAt('hoof 1\r\nvisit 2026-03-04\r\n  ¦')).toContain('weight');
    const [offer] = await offersAt('hoof 1\r\nvisit 2026-03-04 "🐴"\r\n  wei¦\r\n');
    expect(offer?.becomes.startsWith('hoof 1\r\nvisit 2026-03-04 "🐴"\r\n  ')).toBe(true);
    expect(offer?.becomes.endsWith('\r\n')).toBe(true);
  });
});

describe('completion further on in a line', () => {
  it('offers behind a place and behind its spread that it was followed, once', async () => {
    for (const line of ['    p3.wing @ 5, 6 ¦', '    p3.wing @ 5, 6 +- 2 ¦', '    p3.wing @ 5, 6 +- 2 fo¦']) {
      const [offer, ...others] = await offersAt(inFilm(line));
      expect(others, line).toEqual([]);
      expect(offer?.becomes, line).toContain('followed');
      expect(JSON.stringify(offer?.item.documentation), line).toContain('confirmed by a person');
    }
    expect(await labelsAt(inFilm('    p3.wing @ 5, 6 followed ¦'))).toEqual([]);
    expect(await labelsAt(inFilm('    p3.wing @ 5, 6 +- ¦'))).toEqual([]);
  });

  it.each([
    ['feet', '  film ¦', ['LF', 'RF', 'LH', 'RH']],
    ['views', '  film LF ¦', ['lateral', 'front', 'solar', 'venogram', 'skyline', 'heel']],
    ['views half written', '  film LF la¦', ['lateral', 'front', 'solar', 'venogram', 'skyline', 'heel']],
    ['choices', '  pulse LF ¦', ['RF', 'LH', 'RH', 'absent', 'normal', 'raised', 'bounding']],
    [
      'signs not said yet',
      '  sign fever ¦',
      ['recumbent', 'discharge', 'refuses-to-move', 'sweating', 'swelling', 'coronet-gap', 'sole-bulge', 'bleeding'],
    ],
    ['units', '  weight 512 ¦', ['kg', 'lb']],
    ['units half written', '  weight 512 k¦', ['kg', 'lb']],
    ['units of time', '  next 4 ¦', ['days', 'weeks', 'months']],
    ['nothing in a text', '  feed "we¦', []],
    ['nothing in prose', '  | we¦', []],
    ['nothing in a remark', '  # we¦', []],
    ['nothing after a whole line', '  weight 512 kg ¦', []],
    ['nothing after an unknown word', '  zzzzz ¦', []],
  ])('offers %s', async (_, line, expected) => {
    expect(await labelsAt(`hoof 1\nvisit 2026-03-04\n${line}\n`)).toEqual(expected);
  });

  it.each([
    ['the sign of a placing', '    p3.wing ¦', ['@']],
    ['measures', '    expect hoof-p¦', 'hoof-pastern-deviation'],
    ['units that fit the measure', '    expect palmar-angle 5 ¦', ['deg']],
    ['units of a tolerance', '    expect sole-depth.tip 15 mm +- 1 ¦', ['mm', 'cm', 'in']],
    ['the scale’s own word', '    scale ¦', ['dicom', 'bone']],
    ['units of a scale, known length or pixel', '    scale 100 ¦', ['mm', 'cm', 'in', 'mm/px']],
    ['what follows the marker’s length', '    scale 100 mm ¦', ['=']],
  ])('in a film offers %s', async (_, line, expected) => {
    const labels = await labelsAt(inFilm(`${line}\n`));
    if (typeof expected === 'string') expect(labels).toContain(expected);
    else expect(labels).toEqual(expected);
  });

  it('on a hind foot offers the plantar angle', async () => {
    const labels = await labelsAt(inFilm('    expect ¦\n', 'lateral', 'LH'));
    expect(labels).toContain('plantar-angle');
    expect(labels).not.toContain('palmar-angle');
  });

  it('puts a unit behind the number that the cursor touches', async () => {
    const offers = await offersAt('hoof 1\nvisit 2026-03-04\n  weight 512¦\n');
    expect(offers.map(({ becomes }) => becomes)).toEqual([
      'hoof 1\nvisit 2026-03-04\n  weight 512 kg\n',
      'hoof 1\nvisit 2026-03-04\n  weight 512 lb\n',
    ]);
    expect(await labelsAt('hoof 1\nvisit 2026-03-04\n  weight 5¦12\n')).toEqual([]);
    expect(await labelsAt('hoof 1\nvisit 2026-03-04\n  weight 512¦ kg\n')).toEqual([]);
  });

  it('in a plan and in limits offers what comes next', async () => {
    expect(await labelsAt('hoof 1\nvisit 2026-03-04\n  plan LF\n    toe ¦\n')).toEqual(['down', 'back']);
    expect(await labelsAt('hoof 1\nvisit 2026-03-04\n  plan LF\n    toe down 3 ¦\n')).toEqual(['mm', 'cm', 'in']);
    expect(await labelsAt('hoof 1\nlimits\n  palmar-angle ¦\n')).toEqual(['>=', '<=']);
    expect(await labelsAt('hoof 1\nlimits\n  palmar-angle <= 8 ¦\n')).toEqual(['deg']);
    expect(await labelsAt('hoof 1\nlimits\n  palmar-angle <= 8 deg ¦\n')).toEqual(['because']);
  });

  it('offers today’s date after visit and taken, over what is typed of it', async () => {
    const today = (): string =>
      new Date(Date.now() - new Date().getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
    const before = today();
    const visit = await offersAt('hoof 1\nvisit ¦\n');
    const taken = await offersAt(inFilm('    taken 20¦\n'));
    const days = [before, today()];
    expect(visit.map(({ label }) => label)).toHaveLength(1);
    expect(days).toContain(visit[0]?.label);
    expect(days.map((day) => inFilm(`    taken ${day}\n`))).toContain(taken[0]?.becomes);
    expect(await labelsAt('hoof 1\ncase "A"\n  foaled ¦\n')).toEqual([]);
  });

  it('works after lines that are broken', async () => {
    expect(await labelsAt('hoof 1\nvisit 2026-13-99\n  film\n  zzzz "\n  pulse ¦\n')).toEqual(['LF', 'RF', 'LH', 'RH']);
  });
});
