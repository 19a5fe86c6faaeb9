import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { parse } from '../../shared/notation/parse.ts';
import { assemble } from '../../shared/record/assemble.ts';
import { caseRecordSchema } from '../../shared/record/schema.ts';
import { seenWords } from '../../shared/views/seen-words.ts';

const visit = (lines: string): string => `hoof 1\nvisit 2026-03-04\n${lines}\n`;

function read(lines: string) {
  const { record, problems } = assemble(parse(visit(lines)));
  expect(problems.map(({ message }) => message)).toEqual([]);
  expect(caseRecordSchema.parse(record)).toEqual(record);
  const [is] = record.visits.map((placed) => placed.is);
  if (!is) throw new Error('no visit');
  return is;
}

describe('what was seen at a visit', () => {
  it.each([
    ['meier 5', 'Modified Obel score (Meier 2019): 5 of 12'],
    ['lameness LF 2.5', 'Lameness over ground: 2.5 of 5, left fore'],
    ['lameness 3', 'Lameness over ground: 3 of 5'],
    ['landing LF RF toe', 'Lands toe first: left fore and right fore'],
    ['landing LH flat', 'Lands flat: left hind'],
    ['testers LF toe sole moderate', 'Hoof testers at toe and sole: moderate answer, left fore'],
    ['testers RF frog none', 'Hoof testers at frog: no answer, right fore'],
    ['sole LF gives', 'Sole gives to the thumb: left fore'],
    ['temperature 38.2 C', 'Temperature: 38.2 C'],
    ['temperature LF hot', 'Hoof hot: left fore'],
    ['pulse LH RH absent', 'Pulse absent: left hind and right hind'],
    ['seen LF coronet "a dip over the toe"', 'Coronet, left fore: a dip over the toe'],
    ['seen RF white-line "as wide as a pencil"', 'White line, right fore: as wide as a pencil'],
    ['vet seen 2026-03-04 "box rest"', 'Seen by the vet on 2026-03-04: box rest'],
    ['seen LF abscess "drained at the toe"', 'Abscess, left fore: drained at the toe'],
  ])('%s', (line, words) => {
    expect(seenWords(read(line))).toEqual([words]);
  });

  it('holds a temperature in either unit, as the thermometer shows it', () => {
    // 100.4 °F is 38 °C by the definition of the two scales.
    expect(read('temperature 100.4 F').temperatures[0]).toMatchObject({ value: 100.4, unit: 'F' });
    expect(read('temperature 100.4 °F').temperatures[0]?.base).toBeCloseTo(38, 9);
    expect(read('temperature 38 °C').temperatures[0]).toMatchObject({ unit: 'C', base: 38 });
  });
});

describe('a line that is not right', () => {
  it.each([
    ['meier 13', 'This goes from 0 to 12, whole numbers; 13 is not one of them.'],
    ['lameness LF 6', 'This goes from 0 to 5 in halves; 6 is not one of them.'],
    ['temperature 382 C', '«temperature» goes from 30 to 44 C; 382 C is more. Did you mean 38.2 C?'],
    ['temperature 38.2 F', '«temperature» goes from 86 to 111 F; 38.2 F is less. Did you mean 38.2 C?'],
    ['temperature 38.2', 'The number 38.2 has no unit. Write 38.2 C'],
    ['landing LF heal', '«heal» is not one of heel, flat or toe. Did you mean heel?'],
    ['testers LF toe', '«testers» still needs none, mild, moderate or severe'],
    ['testers LF mild', 'toe, inner, outer, heel, frog or sole'],
    ['pulse LF bouncing', 'Did you mean bounding?'],
    ['seen LF tail "x"', 'is not one of coronet'],
    ['sole firm', 'LF, RF, LH or RH'],
  ])('%s', (line, says) => {
    const [told] = assemble(parse(visit(line))).problems;
    expect(told?.message).toContain(says);
  });
});

describe('by tape and gauge', () => {
  const told = (line: string) =>
    inspect(visit(`tape LF\n  ${line}`)).findings.map(({ code, message }) => [code, message]);

  it.each([
    'groove-depth.apex 12 mm',
    'groove-depth.heel 1.8 cm',
    'white-line-width 4 mm',
    'coronet-girth 14.5 in',
    'toe-height 81 mm',
    'heel-toe-share 48 %',
    'sole-ultrasound 13.5 mm',
  ])('%s', (line) => {
    expect(told(line)).toEqual([]);
  });

  it('the share of heel to toe follows from the two heights', () => {
    expect(seenWords(read('tape LF\n  heel-height 40 mm\n  toe-height 8 cm'))).toEqual([
      'By hand, left fore: heel height 40 mm, toe height 8 cm, heel height for the toe height 50 %',
    ]);
  });

  it('a name with a slip is named, and so is a unit that does not fit', () => {
    expect(told('coronet-grith 350 mm')[0]?.[1]).toBe(
      'There is no measure «coronet-grith». Did you mean «coronet-girth»?',
    );
    expect(told('white-line-width 4 deg')[0]?.[1]).toBe(
      'Width of the white line is given in mm, cm or in, not in deg.',
    );
  });

  it('is no limit: nothing computes it', () => {
    const text = 'hoof 1\n\nlimits\n  coronet-girth <= 380 mm\n';
    expect(inspect(text).findings.map(({ code, message }) => [code, message])).toEqual([
      [
        'measure/unknown',
        '«coronet-girth» is taken on the hoof by hand and stands under tape; no picture gives it, and no limit holds for it.',
      ],
    ]);
  });
});
