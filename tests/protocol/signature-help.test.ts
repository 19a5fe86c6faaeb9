import type { SignatureHelp } from 'vscode-languageserver';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { LanguageClient } from './language-client.ts';
import { cursorIn } from './text-positions.ts';

let client: LanguageClient;
let count = 0;
beforeAll(async () => {
  client = await LanguageClient.start();
});
afterAll(() => client.stop());

async function helpAt(marked: string, of: LanguageClient = client): Promise<SignatureHelp | null> {
  const { text, position } = cursorIn(marked);
  const uri = `file:///signature-${(count += 1)}.hoof`;
  of.open(uri, text);
  return of.about('signatureHelp', uri, { position });
}

/** The forms as they are shown, the active argument of the active one in brackets. */
async function shownAt(marked: string): Promise<string[] | null> {
  const help = await helpAt(marked);
  return (
    help &&
    help.signatures.map(({ label, parameters }, index) => {
      const found = index === help.activeSignature ? parameters?.[help.activeParameter ?? -1]?.label : undefined;
      if (!found) return label;
      const [start, end] = found as [number, number];
      return `${label.slice(0, start)}[${label.slice(start, end)}]${label.slice(end)}`;
    })
  );
}

const inVisit = (line: string): string => `hoof 1\r\nvisit 2026-03-04 "🐴"\r\n${line}\r\n  feed "hay"\r\n`;
const inFilm = (line: string): string => inVisit(`  film LF lateral "a.png"\r\n${line}`);

describe('signature help', () => {
  it.each([
    ['an argument not begun', '  weight ¦', ['weight [QUANTITY]']],
    ['one that is touched', '  weight 512¦', ['weight [QUANTITY]']],
    ['one that lacks its unit', '  weight 512 ¦', ['weight [QUANTITY]']],
    ['its unit', '  weight 512 k¦', ['weight [QUANTITY]']],
    ['the second of three', '  film LF ¦', ['film FOOT [lateral|front|solar|venogram|skyline|heel] TEXT']],
    [
      'an earlier one again',
      '  film L¦F lateral "a.png"',
      ['film [FOOT] lateral|front|solar|venogram|skyline|heel TEXT'],
    ],
    ['a text that is open', '  film LF lateral "a b¦', ['film FOOT lateral|front|solar|venogram|skyline|heel [TEXT]']],
    ['what may be many', '  pulse LF RF ¦', ['pulse [FOOT…] absent|normal|raised|bounding']],
    ['what one has got wrong', '  film LX ¦', ['film [FOOT] lateral|front|solar|venogram|skyline|heel TEXT']],
    ['the first of two forms', '  next ¦', ['next [QUANTITY]', 'next DATE']],
  ])('shows %s', async (_, line, expected) => {
    expect(await shownAt(inVisit(line))).toEqual(expected);
  });

  it.each([
    ['the sign of a placing', '    p3.tip ¦', ['p3.tip [@] POINT [+- NUMBER] [followed]']],
    ['half a point', '    p3.tip @ 12, ¦', ['p3.tip @ [POINT] [+- NUMBER] [followed]']],
    ['what may follow', '    p3.tip @ 12, 13 ¦', ['p3.tip @ POINT [[+- NUMBER]] [followed]']],
    ['half a spread', '    p3.tip @ 12, 13 +- ¦', ['p3.tip @ POINT [[+- NUMBER]] [followed]']],
    [
      'the form that fits what is written',
      '    scale 0.1 mm/px¦',
      ['scale [QUANTITY] = SEGMENT', 'scale QUANTITY', 'scale dicom', 'scale bone'],
    ],
    [
      'a form further on',
      '    scale 100 mm ¦',
      ['scale QUANTITY [=] SEGMENT', 'scale QUANTITY', 'scale dicom', 'scale bone'],
    ],
    [
      'a tolerance in the measure’s unit',
      '    expect palmar-angle 5 deg +- 1 ¦',
      ['expect MEASURE QUANTITY [[+- QUANTITY]]'],
    ],
  ])('in a film shows %s', async (_, line, expected) => {
    expect(await shownAt(inFilm(line))).toEqual(expected);
  });

  it('shows the forms of a limit and of a line of a tape', async () => {
    const forms = ['toe-length >=|<= [QUANTITY]', 'toe-length >=|<= QUANTITY because TEXT'];
    expect(await shownAt('hoof 1\nlimits\n  toe-length <= ¦\n')).toEqual(forms);
    expect(await shownAt('hoof 1\nlimits\n  toe-length <= 90 mm because ¦\n')).toEqual([
      'toe-length >=|<= QUANTITY',
      'toe-length >=|<= QUANTITY because [TEXT]',
    ]);
    expect(await shownAt(inVisit('  tape LF\n    toe-length ¦'))).toEqual(['toe-length [QUANTITY]']);
  });

  it('tells what the word is', async () => {
    expect((await helpAt(inVisit('  weight ¦')))?.signatures[0]?.documentation).toBe('Body weight.');
    expect((await helpAt(inFilm('    p3.tip ¦')))?.signatures[0]?.documentation).toMatch(/^Distal phalanx/);
    const ranges = (await helpAt(inFilm('    p3.tip ¦')))?.signatures[0]?.parameters?.map(
      ({ documentation }) => documentation,
    );
    expect(ranges).toEqual([undefined, 'From -100000 to 100000 px.', 'From 0 to 500 px.', undefined]);
  });

  it.each([
    ['on the word itself', '  wei¦ght 512 kg'],
    ['behind a whole line', '  weight 512 kg ¦'],
    ['in a remark', '  weight # ¦'],
    ['in prose', '  | weight ¦'],
    ['on an empty line', '  ¦'],
    ['behind a word that takes nothing', 'limits ¦'],
    ['behind a word that there is none of', '  zzzzz ¦'],
  ])('is none %s', async (_, line) => {
    expect(await helpAt(inVisit(line))).toBeNull();
  });

  it('names the arguments as words to a client that counts no places in the label', async () => {
    const plain = await LanguageClient.start({ capabilities: {} });
    const help = await helpAt(inVisit('  film LF ¦'), plain);
    expect(help?.signatures[0]?.parameters?.map(({ label }) => label)).toEqual([
      'FOOT',
      'lateral|front|solar|venogram|skyline|heel',
      'TEXT',
    ]);
    await plain.stop();
  });
});
