import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { format } from '../../shared/notation/format.ts';
import { heelInPlan } from '../../shared/edits/heel-in-plan.ts';

const juniper = readFileSync(new URL('../../examples/juniper.hoof', import.meta.url), 'utf8');
const plan = (text: string): number => text.split(/\r?\n/).findIndex((line) => line.trim().startsWith('plan LF'));

function written(text: string, mm: number): string {
  const edit = heelInPlan(inspect(text), plan(text), mm);
  if (!edit) throw new Error('nothing to write');
  return text.slice(0, edit.start) + edit.text + text.slice(edit.end);
}
const heel = (text: string) => inspect(text).study.cuts.find(({ cut }) => cut.kind === 'plan')?.cut.heelDown;

describe('a heel cut written into a plan', () => {
  it('takes the place of the one that is there, and of nothing else', () => {
    const text = written(juniper, 6.5);
    expect(text).toBe(juniper.replace('heel  down 5 mm', 'heel  down 6.5 mm'));
    expect(heel(text)).toMatchObject({ value: 6.5, unit: 'mm' });
  });

  it('keeps the comment and another unit out of the way', () => {
    const text = juniper.replace('heel  down 5 mm', 'heel  down 0.5 cm # agreed');
    expect(written(text, 3)).toContain('heel  down 3 mm # agreed');
  });

  it.each(['\n', '\r\n'])('stands on a line of its own where the plan has none, with %j', (lineEnd) => {
    const text = juniper.replace('    heel  down 5 mm\n', '').replaceAll('\n', lineEnd);
    const now = written(text, 4);
    expect(heel(now)).toMatchObject({ value: 4, unit: 'mm' });
    expect(format(now)).toBe(now);
  });

  it('is refused where no plan stands', () => {
    expect(heelInPlan(inspect(juniper), 0, 4)).toBeNull();
    const trim = juniper.split('\n').findIndex((line) => line.trim().startsWith('trim LF'));
    expect(heelInPlan(inspect(juniper), trim, 4)).toBeNull();
    for (const mm of [-1, 60.1, Infinity, NaN]) expect(heelInPlan(inspect(juniper), plan(juniper), mm)).toBeNull();
  });

  it.each([
    [
      'as the plan’s other lines are',
      '\tplan LF # soon\n\t   toe  down 1 mm',
      '\tplan LF # soon\n\t   heel  down 4 mm\n',
    ],
    ['a tab more than a header that begins with one', '\tplan LF', '\tplan LF\n\t\theel  down 4 mm'],
    ['two blanks more than any other header', '   plan LF', '   plan LF\n     heel  down 4 mm'],
  ])('is indented %s', (_, lines, expected) => {
    const text = `hoof 1\n\nvisit 2026-03-04\n${lines}`;
    const now = written(text, 4);
    expect(now.slice(text.indexOf(lines))).toContain(expected);
    expect(heel(now)).toMatchObject({ value: 4, unit: 'mm' });
  });
});
