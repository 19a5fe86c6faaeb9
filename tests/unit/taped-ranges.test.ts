import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { measures } from '../../shared/measures/registry.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { caseText, filmText } from './plain-foot.ts';

/** What a hand takes has its own range for each measure; what no hoof has is told with its mend, and counts for nothing. */

const taped = (line: string): string => caseText(`${filmText()}\n\n  tape LF\n    ${line}`);
const told = (text: string) => inspect(text).findings.map(({ code }) => code);

describe('a value taken by hand that no hoof has', () => {
  it.each([
    ['toe-length -5 mm', null],
    // 7.6 cm or 7.6 in: two ways, and nobody guesses.
    ['toe-length 7.6 mm', null],
    ['toe-length 760 cm', null],
    ['width-share -500 %', null],
    ['wall-angle -179 deg', null],
    ['wall-angle -50 deg', 'Write 50 deg'],
    ['wall-angle 500 deg', 'Write 50 deg'],
    ['heel-height 50 cm', 'Write 50 mm'],
    ['bearing-length 9 in', null],
  ] as const)('%s', (line, fix) => {
    const text = taped(line);
    const { findings } = inspect(text);
    if (line === 'bearing-length 9 in') expect(told(text)).toEqual(['tape/disagrees']);
    else {
      expect(told(text)).toEqual(['notation/number-range']);
      expect(text.slice(findings[0]?.at.start, findings[0]?.at.end)).toContain(line.split(' ')[1]);
      expect(findings[0]?.fixes.map(({ title }) => title)).toEqual(fix === null ? [] : [fix]);
      const [sheet] = filmSheets(inspect(text));
      expect(sheet?.rows.flatMap(({ tape }) => tape ?? [])).toEqual([]);
    }
  });

  it.each(['heel-surplus -4 mm', 'toe-heel-difference -20 deg', 'coronet-angle -5 deg', 'coronet-tilt -12 deg'])(
    '%s has a sign and is taken',
    (line) => {
      expect(told(taped(line))).not.toContain('notation/number-range');
    },
  );

  it('is every measure’s own matter: the range of none begins below 0 but of those with a sign', () => {
    const byHand = measures.flatMap(({ name, byHand: range }) => (range ? [{ name, ...range }] : []));
    expect(byHand.length).toBeGreaterThan(20);
    expect(byHand.filter(({ low }) => low < 0).map(({ name }) => name)).toEqual([
      'coronet-angle',
      'toe-heel-difference',
      'heel-surplus',
      'coronet-tilt',
    ]);
    for (const { name, low, high } of byHand) expect(low, name).toBeLessThan(high);
  });

  it('is told of a stated value too, which then is not compared', () => {
    const text = caseText(filmText({}, { more: ['expect toe-length -5 mm'] }));
    expect(told(text)).toEqual(['notation/number-range']);
  });

  it('is no limit’s matter', () => {
    expect(told(caseText(filmText(), { limits: '\nlimits\n  toe-length <= 5 mm\n' }))).not.toContain(
      'notation/number-range',
    );
  });
});
