import type { Hover, MarkupContent } from 'vscode-languageserver';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { courseText } from '../unit/course-text.ts';
import { LanguageClient } from './language-client.ts';
import { cursorIn, textIn } from './text-positions.ts';

let client: LanguageClient;
let count = 0;
beforeAll(async () => {
  client = await LanguageClient.start();
});
afterAll(() => client.stop());

async function hoverAt(marked: string): Promise<{ says: string; over: string } | null> {
  const { text, position } = cursorIn(marked);
  const uri = `file:///hover-${(count += 1)}.hoof`;
  client.open(uri, text);
  const hover: Hover | null = await client.hover(uri, position);
  client.close(uri);
  return hover && { says: (hover.contents as MarkupContent).value, over: hover.range ? textIn(text, hover.range) : '' };
}

/** The slope of 3 to 4 is 36.9 degrees; at 0.1 mm to the pixel 400 by 300 px are 40 by 30 mm. */
const film = (lines: string): string => `hoof 1

visit 2026-03-04
  film LH lateral "a.png"
    scale 0.1 mm/px
    ground 0, 2000 .. 1000, 2000
    p3.tip @ 100, 1000
    p3.wing @ 500, 700
    coronet.dorsal @ 100, 400
${lines}`;

describe('hover', () => {
  it('on followed tells what it means, which film it was followed from and what both share', async () => {
    const before = film('').replace('100, 1000', '100, 1000 +- 5');
    const after = film('')
      .replace('hoof 1\n', '')
      .replace('2026-03-04', '2026-04-04')
      .replace('100, 1000', '100, 1000 +- 6.1 fol¦lowed');
    const found = await hoverAt(`${before}\n${after}`);
    expect(found?.over).toBe('followed');
    expect(found?.says).toContain('confirmed by a person');
    expect(found?.says).toContain(
      'Followed from “a.png”, 4 March 2026. It may be off by 0.61 mm (one standard deviation), 0.50 mm of it as that placing is.',
    );
    const nothing = await hoverAt(film('').replace('100, 1000', '100, 1000 fol¦lowed'));
    expect(nothing?.says).toContain('confirmed by a person');
    expect(nothing?.says).not.toContain('Followed from');
  });

  it('on a landmark tells where it is and the measures that rest on it, with their values here', async () => {
    const found = await hoverAt(film('').replace('p3.tip', 'p3.t¦ip'));
    expect(found?.over).toBe('p3.tip');
    expect(found?.says).toContain('**p3.tip** · lateral view');
    expect(found?.says).toContain('the dorsal end of its solar margin');
    expect(found?.says).toMatch(/- palmar angle: \*\*36\.9° ± \d/);
    expect(found?.says).toMatch(/sole depth[^\n]*: needs `sole\.tip`/i);
  });

  it('on a landmark takes the reading that it is written in', async () => {
    const text = film('    read "B"\n      p3.tip @ 100, 1000\n      p3.w¦ing @ 500, 600\n');
    expect((await hoverAt(text))?.says).toMatch(/palmar angle: \*\*45\.0°/);
  });

  it('on a landmark of a film without a scale says that lengths need one', async () => {
    const text = film('    sole.t¦ip @ 100, 1100\n').replace('scale 0.1 mm/px', '');
    expect((await hoverAt(text))?.says).toContain('needs a scale');
  });

  it('on a point speaks of its landmark', async () => {
    const found = await hoverAt(film('').replace('500, 700', '5¦00, 700'));
    expect(found?.over).toBe('500, 700');
    expect(found?.says).toContain('**p3.wing**');
  });

  it('on a measure tells what it is, what is usual and what it comes to here', async () => {
    const found = await hoverAt(film('    expect palm¦ar-angle 37 deg\n'));
    expect(found?.over).toBe('palmar-angle');
    expect(found?.says).toContain('plantar angle');
    expect(found?.says).toContain('`slope(p3.tip, p3.wing)`');
    expect(found?.says).toContain('Here: **36.9°');
    // A hind foot: the limit of Clements and others for hind feet, not the one for fore feet.
    expect(found?.says).toContain('Usual: from 0° (Clements');
    // From 0° to 36.9° and a quarter of that on either side, in 41 signs: the limits in the 8th and the 15th, the value in the 34th.
    expect(found?.says).toContain('```text\n·······├──────┤··················●·······\n      0°     10°\n```');
  });

  it('on a measure in limits tells fore and hind apart', async () => {
    const found = await hoverAt('hoof 1\nlimits\n  palmar-an¦gle <= 8 deg\n');
    expect(found?.says).toMatch(/Fore: Usual: from 2° \(.+\), up to 8° \(limit of this case\)/);
    expect(found?.says).toMatch(/Hind: Usual: from 0°/);
  });

  it('on a measure of sinking says what all films of the foot say of it', async () => {
    const visits = ['2026-01-01', '2026-01-29'].map((date) => ({ date }));
    const last = courseText(visits).trimEnd();
    const found = await hoverAt(`${last}\n    expect founder-dist¦ance.level 3 mm\n`);
    expect(found?.says).toMatch(/Sinking, over all films of this foot: None seen; 2\.\d mm or more would have been\./);
    const other = await hoverAt(`${last}\n    expect palm¦ar-angle 5 deg\n`);
    expect(other?.says).not.toContain('Sinking');
  });

  it('on a measure in a tape tells of the foot that is taped', async () => {
    const found = await hoverAt('hoof 1\nvisit 2026-03-04\n  tape LF\n    toe-len¦gth 92 mm\n');
    expect(found?.says).toContain('toe length');
    expect(found?.says).toContain('by hand');
  });

  it('on a word tells what it takes, what it is for, and an example', async () => {
    const found = await hoverAt('hoof 1\nvisit 2026-03-04\n  we¦ight 512 kg\n');
    expect(found?.over).toBe('weight');
    expect(found?.says).toBe(
      '```hoof\nweight QUANTITY\n```\n\nBody weight. From 15 to 1500 kg.\n\nFor example:\n\n```hoof\nweight 512 kg\n```',
    );
  });

  it('on a word with several forms shows each', async () => {
    const { says } = (await hoverAt(film('').replace('scale', 'sc¦ale'))) ?? { says: '' };
    expect(says).toContain('scale QUANTITY = SEGMENT\nscale QUANTITY\nscale dicom');
  });

  it('on a unit tells its size', async () => {
    const found = await hoverAt('hoof 1\ncase "A"\n  height 14.2 h¦h\n');
    expect(found?.over).toBe('hh');
    expect(found?.says).toContain('14 hands and 2 inches');
  });

  it('on a foot names it', async () => {
    const found = await hoverAt('hoof 1\nvisit 2026-03-04\n  pulse R¦F bounding\n');
    expect(found?.over).toBe('RF');
    expect(found?.says).toContain('Right fore foot.');
  });

  it('on a film’s header shows its key values', async () => {
    const found = await hoverAt(film('').replace('film', 'fi¦lm'));
    expect(found?.over).toBe('film');
    expect(found?.says).toContain('Left hind, lateral film, 2026-03-04');
    expect(found?.says).toContain('Scale 0.100 mm/px');
    expect(found?.says).toMatch(/\| plantar angle \| 36\.9° ± \d\.\d \| 0° to 10° \|/);
  });

  it('on a broken header falls back to the word', async () => {
    expect((await hoverAt('hoof 1\nvisit 2026-03-04\n  fi¦lm LF\n'))?.says).toContain(
      'film FOOT lateral|front|solar|venogram|skyline|heel TEXT',
    );
  });

  it('after astral characters and CR LF points at the right piece', async () => {
    const found = await hoverAt('hoof 1\r\nvisit 2026-03-04 "🐴🐴"\r\n  # 🐴\r\n  pulse L¦F bounding # 🐴\r\n');
    expect(found?.over).toBe('LF');
  });

  it.each([
    ['a blank line', 'hoof 1\n¦\n'],
    ['a remark', 'hoof 1\n# we¦ight\n'],
    ['prose', 'hoof 1\nvisit 2026-03-04\n  | we¦ight\n'],
    ['a word that nobody knows', 'hoof 1\nvisit 2026-03-04\n  zzz¦zz 3\n'],
    ['an empty file', '¦'],
    ['the end of the file', 'hoof 1\n  ¦'],
  ])('has nothing to say on %s', async (_, marked) => {
    expect(await hoverAt(marked)).toBeNull();
  });
});

it('shows signs of Markdown in a reader’s name as they are', async () => {
  const found = await hoverAt(
    film('    read "*_<b>|`[x](y)"\n      p3.tip @ 100, 1000\n      p3.wing @ 500, 600\n').replace('film', 'fi¦lm'),
  );
  expect(found?.says).toContain('read by \\*\\_\\<b\\>\\|\\`\\[x\\](y)');
});
