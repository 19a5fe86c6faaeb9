import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { pairSheets } from '../../shared/views/pair-sheet.ts';
import { caseText, filmText, type Places } from './plain-foot.ts';
import { wing } from './course-text.ts';

const film = (foot: string, places: Places = {}, kind = 'film'): string =>
  filmText(places, { header: `${kind} ${foot} lateral "${foot}.png"` });

describe('left and right of a pair', () => {
  const pairsIn = (...films: readonly string[]) => pairSheets(inspect(caseText(films.join('\n'))).study);
  const row = (pairs: ReturnType<typeof pairsIn>, measure: string) =>
    pairs[0]?.rows.find((one) => one.measure === measure);

  it('stand side by side where both were filmed at one visit', () => {
    const [pair, ...others] = pairsIn(film('LF'), film('RF'));
    expect(others).toEqual([]);
    expect(pair?.title).toBe('Left fore and right fore, lateral, 2026-03-04');
    expect(pair?.rows.every(({ clear, said }) => !clear && said === 'within the error')).toBe(true);
    for (const films of [[film('LF')], [film('LF'), film('LH')], [film('LF'), film('RF', {}, 'photo')]])
      expect(pairsIn(...films)).toEqual([]);
  });

  it('are told apart in words where they clearly differ, on the side that is more', () => {
    // A wing 80 mm behind the tip and 14 mm above it is 9.93° (atan(14 / 80)), 7 mm above it 5.00°.
    const found = row(pairsIn(film('LF', wing(14)), film('RF')), 'palmar-angle');
    expect(found).toMatchObject({ text: '+4.9°', clear: true, said: 'clear: the left is more' });
    expect(row(pairsIn(film('LF'), film('RF', wing(14))), 'palmar-angle')?.said).toBe('clear: the right is more');
    // What is beyond the first things is there where it differs clearly, and only then.
    const bone = pairsIn(film('LF', wing(14)), film('RF'))[0]?.rows.map(({ measure }) => measure);
    expect(bone).toContain('palmar-angle');
    expect(row(pairsIn(film('LF'), film('RF')), 'heel-angle')).toBeUndefined();
    const heel = pairsIn(film('LF', { 'heel.ground': [-104, 0] }), film('RF'));
    expect(row(heel, 'heel-angle')?.clear).toBe(true);
  });
});

describe('a pair of which one foot was never filmed', () => {
  const told = (visit: string, ...films: readonly string[]): string[] =>
    inspect(caseText(`${visit}\n${films.join('\n')}`))
      .findings.filter(({ code }) => code === 'film/other-foot')
      .map(({ message, severity }) => `${severity} ${message}`);

  it('is told of an animal that was lame, and of no other', () => {
    expect(told('  obel 2', film('LF'))).toEqual([
      'info Left fore: filmed, while the right fore never was, in an animal with Obel 2 on 2026-03-04. Both feet of a pair are usually filmed (common practice, no source); whether to is for the vet to say.',
    ]);
    expect(told('  obel 0', film('LF'))).toEqual([]);
    expect(told('  meier 11', film('LF'))[0]).toContain('in an animal with a modified Obel score of 11 on 2026-03-04');
    expect(told('  meier 0', film('LF'))).toEqual([]);
    expect(told('  lameness RF 2', film('LF'))).toHaveLength(1);
    expect(told('  obel 2', film('LF'), film('RF'))).toEqual([]);
    expect(told('  obel 2')).toEqual([]);
  });

  it('is a matter of films, and of the pair that is lame', () => {
    expect(told('  obel 2', film('LF'), film('RF', {}, 'photo'))).toHaveLength(1);
    expect(told('  obel 2', film('LH'))).toEqual([]);
    expect(told('  lameness 2', film('LH'))).toEqual([]);
    expect(told('  lameness RH 1', film('LH'))).toHaveLength(1);
  });
});
