import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { reportedMeasures } from '../../shared/series/reported-measures.ts';
import { SeriesSummary, type SummaryBy } from '../../shared/series/summary.ts';
import { summaryCsv, summaryDocument, summaryLines } from '../../shared/series/summary-data.ts';
import type { CourseSource } from '../../shared/course/course-sources.ts';
import { filmText, soundFoot } from './plain-foot.ts';

/** Numbers by hand are whole here, so that every mean can be checked on paper. */
const tape = (foot: string, mm: number): string => `  tape ${foot}\n    toe-length ${mm} mm\n`;

const first = `hoof 1

case "A"
  animal horse mare
  breed "cob"

visit 2026-03-04
${tape('LF', 90)}${tape('RF', 88)}
visit 2026-04-01
${tape('LF', 86)}${tape('LF', 88)}
visit 2026-05-01
${tape('LF', 84)}`;

const second = `hoof 1

case "B"
  animal pony gelding

visit 2026-03-04
${tape('LF', 70)}
visit 2026-03-20
${tape('LF', 71)}
visit 2026-03-99
${tape('LF', 99)}`;

function summaryOf(texts: readonly string[], by: SummaryBy, named = ['toe-length'], source: CourseSource = 'hand') {
  const { measures } = reportedMeasures(named, false, source);
  const summary = new SeriesSummary(by, source, measures ?? []);
  for (const text of texts) summary.add(inspect(text).study);
  return summary;
}

const rowsOf = (...given: Parameters<typeof summaryOf>) =>
  summaryOf(...given)
    .rows()
    .map(({ group, feet, animals, mean, sd, least, greatest }) => [group, feet, animals, mean, sd, least, greatest]);

describe('means over feet', () => {
  it('first, last and what changed, each foot once: 90, 88, 70 first; 84 and 71 last', () => {
    const [of3, of2] = [Math.sqrt(364 / 3), Math.sqrt(84.5)];
    expect(rowsOf([first, second], 'time')).toEqual([
      ['first', 3, 2, (90 + 88 + 70) / 3, expect.closeTo(of3, 12), 70, 90],
      ['last', 2, 2, 77.5, expect.closeTo(of2, 12), 71, 84],
      ['change', 2, 2, -2.5, expect.closeTo(Math.sqrt(24.5), 12), -6, 1],
    ]);
  });

  it('two tapes of one foot at one visit are one value, their mean, and not two feet', () => {
    expect(rowsOf([first], 'visit-number')).toEqual([
      ['1', 2, 1, 89, expect.closeTo(Math.SQRT2, 12), 88, 90],
      ['2', 1, 1, 87, null, 87, 87],
      ['3', 1, 1, 84, null, 84, 84],
    ]);
  });

  it('a visit without a day counts by its number, and for no first and last', () => {
    expect(rowsOf([second], 'visit-number').map(([group]) => group)).toEqual(['1', '2', '3']);
    expect(rowsOf([second], 'time').map(([, feet, , mean]) => [feet, mean])).toEqual([
      [1, 70],
      [1, 71],
      [1, 1],
    ]);
  });

  it.each([
    ['kind', ['horse', 'pony']],
    ['sex', ['gelding', 'mare']],
    ['breed', ['cob', '']],
    ['foot', ['LF', 'RF']],
  ] as const)('by %s', (by, groups) => {
    expect(rowsOf([first, second], by).map(([group]) => group)).toEqual(groups);
  });

  it('by kind a foot counts by its first day', () => {
    expect(rowsOf([first, second], 'kind')).toEqual([
      ['horse', 2, 1, 89, expect.closeTo(Math.SQRT2, 12), 88, 90],
      ['pony', 1, 1, 70, null, 70, 70],
    ]);
  });

  it('does not hang on the order in which the cases come', () => {
    const row = ([a, b]: readonly [string, string]) =>
      rowsOf([a, b], 'time').map((one) => one.map((cell) => (typeof cell === 'number' ? cell.toFixed(9) : cell)));
    expect(row([first, second])).toEqual(row([second, first]));
  });
});

describe('readings and films', () => {
  /** The tip of the bone lies at 16 mm in one reading and at 18 in the other, over a sole at 1 mm. */
  const read = (reader: string, tip: number): string =>
    filmText({ 'p3.tip': [0, tip] })
      .split('\n')
      .filter((line) => line.includes('@'))
      .reduce((all, line) => `${all}\n  ${line}`, `    read "${reader}"`);
  const header = filmText(Object.fromEntries(Object.keys(soundFoot).map((name) => [name, undefined])));
  const twice = `hoof 1\n\ncase "C"\n\nvisit 2026-03-04\n${header}\n${read('A', 16)}\n${read('B', 18)}\n`;

  it('people who read the same film are not more feet', () => {
    const values = inspect(twice).study.films[0]?.readings.map(
      ({ taking }) => taking.values.get('sole-depth.tip')?.value,
    );
    const [one, other] = values ?? [];
    expect([one, other]).toEqual([expect.closeTo(15, 9), expect.closeTo(17, 9)]);
    expect(rowsOf([twice], 'time', ['sole-depth.tip'], 'film')).toEqual([
      ['first', 1, 1, expect.closeTo(16, 9), null, expect.closeTo(16, 9), expect.closeTo(16, 9)],
    ]);
  });
});

describe('what is printed', () => {
  const summary = summaryOf([first, second, 'hoof 1\n'], 'time');

  it('a table for people', () => {
    expect(summaryLines(summary, { read: 3, taken: 3 })).toEqual([
      '3 cases read, 2 with a value below',
      '',
      'toe length (toe-length)',
      '  group            feet  animals      mean        sd     least  greatest',
      '  first               3        2  82.67 mm  11.02 mm  70.00 mm  90.00 mm',
      '  last                2        2  77.50 mm   9.19 mm  71.00 mm  84.00 mm',
      '  last less first     2        2  −2.50 mm   4.95 mm  −6.00 mm   1.00 mm',
      '',
      'Each foot counts once in a group. Feet of one animal are no independent sample: go by the number of animals.',
    ]);
  });

  it('says that there is nothing where there is nothing', () => {
    expect(summaryLines(summaryOf(['hoof 1\n'], 'time'), { read: 1, taken: 1 })).toEqual([
      'one case read, 0 with a value below',
      'No foot has any of these measures on a day that is known.',
    ]);
  });

  it('CSV and JSON without rounding', () => {
    expect(summaryCsv(summary).split('\r\n').slice(0, 3)).toEqual([
      'measure,unit,source,by,group,feet,animals,mean,sd,least,greatest',
      `toe-length,mm,hand,time,first,3,2,${(90 + 88 + 70) / 3},${summary.rows()[0]?.sd},70,90`,
      `toe-length,mm,hand,time,last,2,2,77.5,${summary.rows()[1]?.sd},71,84`,
    ]);
    expect(summaryDocument(summary, { read: 3, taken: 3 })).toMatchObject({
      cases: { read: 3, taken: 3, counted: 2 },
      rows: [{ group: 'first' }, { group: 'last' }, { group: 'change', mean: -2.5 }],
    });
  });
});

describe('which measures', () => {
  it('the first things first, all, or those that are named; an unknown one is told', () => {
    const names = (...given: Parameters<typeof reportedMeasures>) =>
      reportedMeasures(...given).measures?.map(({ name }) => name);
    expect(names([], false, 'film')?.slice(0, 3)).toEqual(['palmar-angle', 'sole-depth.tip', 'founder-distance.level']);
    expect(names([], true, 'film')?.length).toBeGreaterThan(40);
    expect(names(['plantar-angle', 'palmar-angle'], false, 'film')).toContain('palmar-angle');
    expect(names(['coronet-girth'], false, 'hand')).toEqual(['coronet-girth']);
    expect(reportedMeasures(['coronet-girth'], false, 'film').problem).toBe('there is no measure «coronet-girth»');
  });
});
