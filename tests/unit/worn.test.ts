import { describe, expect, it } from 'vitest';
import { format } from '../../shared/notation/format.ts';
import { parse } from '../../shared/notation/parse.ts';
import { assemble } from '../../shared/record/assemble.ts';
import { Wearing } from '../../shared/record/wearing.ts';
import { dayNumber } from '../../shared/notation/dates.ts';
import { measuredCase } from '../../shared/export/measured.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { shodWords } from '../../shared/findings/wording/shod-words.ts';
import { visitSheets } from '../../shared/views/visit-sheet.ts';
import type { FootName } from '../../shared/notation/choices.ts';

const day = (date: string): number => dayNumber(date) ?? NaN;
const problems = (text: string) => assemble(parse(text)).problems;

/** What a foot wears at the end of a day, in words; `bare` where nothing. */
function worn(text: string, foot: FootName, date: string, place?: number): string {
  const { record, problems: told } = assemble(parse(text));
  expect(told.map(({ message }) => message)).toEqual([]);
  const shod = new Wearing(record.visits).shoeOn(foot, day(date), place);
  return shod ? shodWords(shod) : 'bare';
}

const shoe = 'hoof 1\nvisit 2026-03-04\n  shoe LF RF 10 mm wedge 3 deg "concave, rolled toe"\n';

describe('what a foot wears', () => {
  it('is in the record as written and in mm and degrees', () => {
    const [visit] = assemble(parse(`${shoe}  pad LF 0.5 cm "leather"\n  shoe LH off\n`)).record.visits;
    expect(visit?.is.worn).toMatchObject([
      {
        kind: 'shoe',
        feet: ['LF', 'RF'],
        off: false,
        thickness: { base: 10 },
        wedge: { base: 3 },
        text: { text: 'concave, rolled toe' },
      },
      { kind: 'pad', feet: ['LF'], thickness: { value: 0.5, unit: 'cm', base: 5 }, wedge: null },
      { kind: 'shoe', feet: ['LH'], off: true, thickness: null },
    ]);
  });

  it('is worn from its visit on by the feet that are named', () => {
    expect(worn(shoe, 'LF', '2026-03-03')).toBe('bare');
    expect(worn(shoe, 'LF', '2026-03-04')).toBe('shoe 10 mm, wedge 3 deg, concave, rolled toe');
    expect(worn(shoe, 'RF', '2026-09-04')).toBe('shoe 10 mm, wedge 3 deg, concave, rolled toe');
    expect(worn(shoe, 'LH', '2026-09-04')).toBe('bare');
  });

  it.each([
    ['off', '  shoe LF off\n', 'bare'],
    ['a trim of the foot', '  trim LF\n    heel down 3 mm\n', 'bare'],
    ['another one', '  shoe LF 8 mm "plain"\n', 'shoe 8 mm, plain'],
  ])('until %s', (_until, line, after) => {
    const text = `${shoe}visit 2026-04-04\n${line}`;
    expect(worn(text, 'LF', '2026-04-03')).toMatch(/^shoe 10 mm/);
    expect(worn(text, 'LF', '2026-04-04')).toBe(after);
    expect(worn(text, 'RF', '2026-04-04')).toMatch(/^shoe 10 mm/);
  });

  it('keeps the pad under the shoe, until a new shoe comes without one', () => {
    const both = `${shoe}  pad LF 5 mm wedge 2 deg\n`;
    expect(worn(both, 'LF', '2026-03-05')).toBe('pad 5 mm, wedge 2 deg; shoe 10 mm, wedge 3 deg, concave, rolled toe');
    expect(worn(`${both}visit 2026-04-04\n  shoe LF 8 mm\n`, 'LF', '2026-04-04')).toBe('shoe 8 mm');
    expect(worn(`${both}visit 2026-04-04\n  pad LF off\n`, 'LF', '2026-04-04')).toMatch(/^shoe 10 mm/);
    // The order of the two lines in a visit is nobody's matter.
    const other = 'hoof 1\nvisit 2026-03-04\n  pad LF 5 mm\n  shoe LF 8 mm\n';
    expect(worn(other, 'LF', '2026-03-04')).toBe('pad 5 mm; shoe 8 mm');
  });

  it('adds up thickness and wedge', () => {
    const { record } = assemble(parse(`${shoe}  pad LF 5 mm wedge 2 deg\n  boots RH "foam"\n`));
    const wearing = new Wearing(record.visits);
    expect(wearing.shoeOn('LF', day('2026-03-04'))).toMatchObject({ thickness: 15, wedge: 5 });
    expect(wearing.shoeOn('RH', day('2026-03-04'))).toMatchObject({ thickness: null, wedge: null });
    expect([wearing.isTold('RH'), wearing.isTold('LH')]).toEqual([true, false]);
  });

  it('within a day goes by the order of the text: shod on arrival, bare after the trim, shod again', () => {
    const text =
      'hoof 1\nvisit 2026-03-04\n  shoe LF 10 mm\n  trim LF\n    heel down 2 mm\n  shoe LF 8 mm\n  trim RF\n    heel down 1 mm\n';
    expect(worn(text, 'LF', '2026-03-04', text.indexOf('trim LF'))).toBe('shoe 10 mm');
    expect(worn(text, 'LF', '2026-03-04', text.indexOf('shoe LF 8'))).toBe('bare');
    expect(worn(text, 'LF', '2026-03-04')).toBe('shoe 8 mm');
  });
});

describe('boots', () => {
  it('with feet belong to the visit, wherever they stand', () => {
    const text = 'hoof 1\nvisit 2026-03-04\n  trim LF\n    heel down 2 mm\n  boots LF RF 12 mm "foam pads"\n';
    expect(worn(text, 'RF', '2026-03-04')).toBe('boots 12 mm, foam pads');
    expect(worn(text, 'LF', '2026-03-04')).toBe('boots 12 mm, foam pads');
  });

  it('with a text alone belong to the trim, and its foot wears them from then on', () => {
    const text = 'hoof 1\nvisit 2026-03-04\n  trim LF\n    boots "foam pads"\n';
    expect(worn(text, 'LF', '2026-03-04')).toBe('boots foam pads');
    expect(worn('hoof 1\nvisit 2026-03-04\n  plan LF\n    boots "foam pads"\n', 'LF', '2026-03-04')).toBe('bare');
  });
});

describe('a line that is not right', () => {
  it.each([
    ['shoe', 'needs a foot: LF, RF, LH or RH'],
    ['shoe LF 10', 'The number 10 has no unit. Write 10 mm or 10 cm'],
    ['shoe LF wedge', '«shoe» still needs a number with its unit, such as 12 deg'],
    ['shoe LF 10 mm wedge 3 mm', 'The unit mm does not fit here. It takes'],
    ['shoe LF 3 deg', 'The unit deg does not fit here. It takes'],
    ['shoe LF 10 mm of', 'is complete before this'],
    ['boots "foam"', 'wants a foot: LF, RF, LH or RH'],
    ['pad LF 300 mm', '«pad» goes from 0.5 to 100 mm; 300 mm is more. Did you mean 30 mm?'],
  ])('%s', (line, says) => {
    const [told] = problems(`hoof 1\nvisit 2026-03-04\n  ${line}\n`);
    expect(told?.message).toContain(says);
  });
});

it('is laid out by the formatter, which changes nothing of it', () => {
  expect(format('hoof 1\n\nvisit 2026-03-04\nshoe LF   10 mm  wedge 3 deg "x"\nboots LF off\n')).toBe(
    'hoof 1\n\nvisit 2026-03-04\n  shoe       LF 10 mm wedge 3 deg "x"\n  boots      LF off\n',
  );
});

describe('a film of a shod foot', () => {
  const film = (more: string): string => `${shoe}  film LF lateral "a.png"\n    p3.tip @ 1, 2\n${more}`;

  it('has the bearing plane beside the ground', () => {
    const [sheet] = filmSheets(inspect(film('    ground 0, 9 .. 90, 9\n    bearing 0, 5 .. 90, 6\n')));
    expect(sheet).toMatchObject({ isShod: true, ground: [{ y: 9 }, { y: 9 }] });
    expect(sheet?.bearing).toEqual([
      { x: 0, y: 5 },
      { x: 90, y: 6 },
    ]);
    expect(sheet?.said).toEqual(['On the foot: shoe 10 mm, wedge 3 deg, concave, rolled toe.']);
  });

  it('refuses a bearing plane of one point', () => {
    expect(problems(film('    bearing 3, 4 .. 3, 4\n')).map(({ code, message }) => [code, message])).toEqual([
      ['record/scale', 'The two ends of the bearing line are the same point; it shows no direction.'],
    ]);
  });

  it('says bare only of a foot that was shod before', () => {
    const bare = (text: string) => filmSheets(inspect(text))[0]?.said;
    expect(bare('hoof 1\nvisit 2026-03-04\n  film LF lateral "a.png"\n')).toEqual([]);
    expect(bare(`${shoe}visit 2026-05-04\n  shoe LF off\n  film LF lateral "a.png"\n`)).toEqual(['The foot is bare.']);
  });

  it('is in the JSON, and the visit says what was put on', () => {
    const inspection = inspect(film(''));
    expect(measuredCase('x.hoof', inspection).visits[0]).toMatchObject({
      seen: ['Shoe on left fore and right fore: 10 mm, wedge 3 deg, concave, rolled toe'],
      films: [{ worn: [{ kind: 'shoe', thickness: 10, wedge: 3, text: 'concave, rolled toe' }] }],
    });
    expect(visitSheets(inspection)[0]?.seen).toHaveLength(1);
  });
});
