import { describe, expect, it } from 'vitest';
import { inspect, type Inspection } from '../../shared/findings/inspect.ts';
import { format } from '../../shared/notation/format.ts';

/** What docs/notation.md says of broken lines, blocks that go on, and words that are nearly a header. */

const animal = 'hoof 1\n\ncase "T"\n  animal    horse gelding\n  foaled    2015\n';
const visit = (...lines: string[]): string => `${animal}\nvisit 2026-03-04\n${lines.join('\n')}\n`;
const read = (...lines: string[]): Inspection => inspect(visit(...lines));
const errors = ({ tree, findings }: Inspection): string[] =>
  findings
    .filter(({ severity }) => severity === 'error')
    .map(({ code, at }) => `${code} ${tree.text.slice(at.start, at.end)}`);
const visitOf = ({ study }: Inspection) => study.record.visits[0]?.is;

describe('a misread line', () => {
  it('that looks like the header of a case costs the visit nothing', () => {
    const told = read('  case LF "cloth"', '  obel 4', '  sign fever');
    expect(visitOf(told)).toMatchObject({ obel: { value: 4 }, signs: [{ word: 'fever' }] });
    expect(errors(told)).toEqual(['notation/misplaced-word case', 'visit/call-the-vet 4', 'visit/call-the-vet fever']);
    const [slip] = told.findings.filter(({ code }) => code === 'notation/misplaced-word');
    expect(slip?.message).toContain('Did you mean «cast»?');
    expect(slip?.fixes.map(({ title }) => title)).toEqual(['Write «cast»']);
  });

  it('before the case does not take its place', () => {
    const { study } = inspect(`hoof 1\ncase LF\n${animal.slice(7)}`);
    expect(study.record.animal?.is).toMatchObject({ name: 'T', kind: 'horse' });
  });

  it('that says a visit and no date begins none', () => {
    const told = read('  pulse LF normal', '  visit', '  obel 4');
    expect(told.study.record.visits).toHaveLength(1);
    expect(visitOf(told)).toMatchObject({ obel: { value: 4 } });
    expect(errors(told)).toContain('notation/missing-argument visit');
  });

  it('of a visit, among the lines of a tape, is told, and both count', () => {
    const told = read('  tape LF', '    toe-length 73 mm', '    girth 190 cm', '    heel-height 26 mm', '  obel 0');
    expect(visitOf(told)).toMatchObject({
      girth: { value: 190 },
      obel: { value: 0 },
      tapes: [{ values: [{ measure: 'toe-length' }, { measure: 'heel-height' }] }],
    });
    expect(errors(told)).toEqual(['notation/misplaced-word girth']);
  });

  it('of a visit, among the landmarks of a reader, is told, and both count', () => {
    const told = read(
      '  film LF lateral "a.png"',
      '    read "first"',
      '      p3.tip @ 10, 20',
      '  shoe LF 10 mm',
      '      p3.wing @ 90, 20',
    );
    expect(visitOf(told)).toMatchObject({
      worn: [{ kind: 'shoe' }],
      films: [{ readings: [{ reader: 'first', placings: [{ name: 'p3.tip' }, { name: 'p3.wing' }] }] }],
    });
    expect(errors(told)).toEqual(['notation/misplaced-word shoe']);
  });

  it('that is broken closes no block', () => {
    const told = read('  plan LF', '    heel down 2 mm', '  weight 500', '    why "first step"');
    expect(visitOf(told)).toMatchObject({ cuts: [{ heelDown: { value: 2 }, why: [{ text: 'first step' }] }] });
  });

  it('of prose closes no block', () => {
    const told = read('  tape LF', '    toe-length 73 mm', '  | quiet', '    heel-height 26 mm');
    expect(visitOf(told)).toMatchObject({ prose: [{ text: 'quiet' }], tapes: [{ values: [{}, {}] }] });
    expect(errors(told)).toEqual([]);
  });

  it('whose first word is nearly a header begins the block, and is told', () => {
    const told = read('  film LF lateral "a.png"', '  flim RF lateral "b.png"', '    p3.tip @ 10, 20');
    expect(visitOf(told)?.films.map(({ foot, readings }) => [foot, readings[0]?.placings.length])).toEqual([
      ['LF', 0],
      ['RF', 1],
    ]);
    expect(errors(told)).toEqual(['notation/unknown-word flim']);
    expect(format(told.tree.text)).toContain('flim RF');
  });

  it('as a header with a slip keeps its lines from the foot above', () => {
    const told = read('  plan LF', '    why "x"', '  plan lf', '    heel down 5 mm');
    expect(visitOf(told)?.cuts).toMatchObject([{ heelDown: null }]);
    expect(errors(told)).toEqual(['notation/unknown-choice lf']);
  });

  it('as a limit among the lines of a visit is told, and counts', () => {
    const told = read('  obel 1', 'limits', '  toe-length <= 80 mm', '  pulse LF normal');
    expect(told.study.record.limits).toMatchObject([{ is: { measure: 'toe-length' } }]);
    expect(visitOf(told)).toMatchObject({ pulses: [{ pulse: 'normal' }] });
    expect(errors(told)).toEqual(['notation/misplaced-word limits']);
  });
});
