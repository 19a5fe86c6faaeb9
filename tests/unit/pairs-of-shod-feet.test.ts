import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { pairSheets, pairWords } from '../../shared/views/pair-sheet.ts';
import { wing } from './course-text.ts';
import { caseText, filmText, type Places } from './plain-foot.ts';

/**
 * Left and right of a pair on shoes. The plain foot at 0.1 mm/px, its bearing plane the level of y = 1000 px; the palmar angle is
 * atan(7 / 80) = 5.00° to that plane, 9.93° with the wing 14 mm above the tip. The figures are plane trigonometry on that.
 */
const wedged = (wedge: number): string => {
  const y = (x: number): number => 1100 + (2280 - x) * Math.tan((wedge * Math.PI) / 180);
  return `ground 0, ${y(0).toFixed(6)} .. 4000, ${y(4000).toFixed(6)}`;
};
const bearing = 'bearing 0, 1000 .. 4000, 1000';

const bare = (foot: string, places: Places = {}): string =>
  filmText(places, { header: `film ${foot} lateral "${foot}.png"` });
const shod = (foot: string, wedge: number, places: Places = {}, more: readonly string[] = [bearing]): string =>
  `  shoe ${foot} "plain"\n${filmText(places, { header: `film ${foot} lateral "${foot}.png"`, ground: wedged(wedge), more })}`;

const rowsOf = (...films: readonly string[]) => {
  const [pair] = pairSheets(inspect(caseText(films.join('\n'))).study);
  return new Map(pair?.rows.map((row) => [row.measure, row]));
};

describe('left and right where the feet wear other wedges', () => {
  it('are alike where the wedge alone makes the difference, and it is said so', () => {
    const rows = rowsOf(shod('LF', 5), bare('RF'));
    expect(rows.get('palmar-angle')).toMatchObject({
      text: '+5.0°',
      clear: false,
      said: 'within the error, without the +5.0° that the shoes make of it',
    });
    // What is shown only where it clearly differs is not shown for a wedge.
    for (const name of ['bone-angle', 'middle-angle', 'axis-angle']) expect(rows.get(name), name).toBeUndefined();
    expect([...rows.values()].some(({ clear }) => clear)).toBe(false);
  });

  it('differ where their feet do, which a wedge can hide', () => {
    expect(rowsOf(shod('LF', 5), bare('RF', wing(14))).get('palmar-angle')).toMatchObject({
      text: '+0.1°',
      clear: true,
      said: 'clear, without the +5.0° that the shoes make of it: the right is more',
    });
    expect(rowsOf(shod('LF', 3, wing(14)), shod('RF', 3)).get('palmar-angle')).toMatchObject({
      text: '+4.9°',
      clear: true,
      said: 'clear: the left is more',
    });
    expect(pairWords()).toContain('What the wedge of a shoe makes of an angle');
  });

  it('are not judged where nobody can tell what the shoe makes', () => {
    expect(rowsOf(shod('LF', 5, {}, []), bare('RF')).get('palmar-angle')).toMatchObject({
      text: '+5.0°',
      clear: false,
      said: 'not judged: a shoe without its bearing plane may be in it',
    });
  });
});

describe('a row of which one side is missing', () => {
  it('says what it lacks', () => {
    const rows = rowsOf(shod('LF', 0, {}, []), bare('RF'));
    expect(rows.get('heel-height')).toMatchObject({
      left: '–',
      right: '24.0 mm ± 0.7',
      difference: null,
      sd: null,
      text: '',
      clear: false,
      said: 'left: Place `bearing`, the plane between hoof and shoe.',
    });
    expect(rowsOf(bare('LF'), bare('RF', { 'wall.top': undefined })).get('founder-distance')).toMatchObject({
      left: '4.0 mm ± 0.7',
      right: '–',
      said: 'right: Place wall.top.',
    });
  });

  it('says it once where both lack the same, and nothing of what nobody began to place', () => {
    const rows = rowsOf(shod('LF', 0, {}, []), shod('RF', 0, {}, []));
    expect(rows.get('wall-angle')).toMatchObject({
      left: '–',
      right: '–',
      said: 'Place `bearing`, the plane between hoof and shoe.',
    });
    const without: Places = { 'wall.top': undefined };
    expect(rowsOf(bare('LF', without), bare('RF', without)).get('founder-distance')).toBeUndefined();
  });
});
