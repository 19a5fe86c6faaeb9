import { unit } from 'mathjs';
import { randomInt, randomLcg, randomUniform } from 'd3-random';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';

/**
 * Conversions against the units of mathjs: inch and pound of 1959, the week, and the month as a twelfth of a Julian year.
 * Of hands it knows nothing: that a hand is 4 inches and that inches stand after the point is common practice, no source.
 */
const source = randomLcg(0.19590701);
const TIMES = 100;

function amounts(low: number, high: number): string[] {
  const draw = randomUniform.source(source)(low, high);
  return Array.from({ length: TIMES }, () => draw().toFixed(3));
}

const visitOf = (line: string) => {
  const { study, findings } = inspect(`hoof 1\n\ncase "X"\n\nvisit 2026-03-04\n  ${line}\n`);
  expect(findings, line).toEqual([]);
  const [visit] = study.record.visits;
  if (!visit) throw new Error('no visit');
  return visit.is;
};
const heightOf = (height: string): number | undefined =>
  inspect(`hoof 1\n\ncase "X"\n  height ${height}\n`).study.record.animal?.is.height?.base;

const close = (product: number | undefined, reference: number, what: string): void => {
  expect(Math.abs((product ?? NaN) / reference - 1), what).toBeLessThan(1e-12);
};

describe('units against mathjs', () => {
  it.each([
    ['mm', 400, 900],
    ['cm', 40, 90],
    ['in', 40, 90],
  ] as const)('a girth in %s', (word, low, high) => {
    for (const amount of amounts(low, high))
      close(visitOf(`girth ${amount} ${word}`).girth?.base, unit(Number(amount), word).toNumber('mm'), amount);
  });

  it.each(['kg', 'lb'])('a weight in %s', (word) => {
    for (const amount of amounts(90, 900))
      close(visitOf(`weight ${amount} ${word}`).weight?.base, unit(Number(amount), word).toNumber('kg'), amount);
  });

  it.each(['days', 'weeks', 'months'])('a time in %s', (word) => {
    for (let amount = 1; amount <= 36; amount++) {
      const { next } = visitOf(`next ${amount} ${word}`);
      close(next && 'after' in next ? next.after.base : NaN, unit(amount, word).toNumber('days'), `${amount} ${word}`);
    }
  });

  it.each(['cm', 'in'])('a height in %s', (word) => {
    for (const amount of amounts(60, 70))
      close(heightOf(`${amount} ${word}`), unit(Number(amount), word).toNumber('mm'), amount);
  });

  it('hands of 4 inches, with whole inches after the point', () => {
    const hands = randomInt.source(source)(8, 19);
    const inches = randomInt.source(source)(0, 4);
    for (let i = 0; i < TIMES; i++) {
      const [whole, rest] = [hands(), inches()];
      close(heightOf(`${whole}.${rest} hh`), unit(4 * whole + rest, 'inch').toNumber('mm'), `${whole}.${rest} hh`);
    }
  });
});

describe('scales and cuts in units', () => {
  it.each(['mm', 'cm', 'in'])('a marker in %s makes the scale of mathjs', (word) => {
    for (const amount of amounts(4, 8)) {
      const text = `hoof 1\n\ncase "X"\n\nvisit 2026-03-04\n  film LF lateral "x.png"\n    scale ${amount} ${word} = 100, 100 .. 400, 500\n    p3.tip @ 10, 10\n`;
      const scale = inspect(text).study.films[0]?.readings[0]?.taking.scale;
      close(scale ?? NaN, unit(Number(amount), word).toNumber('mm') / 500, amount);
    }
  });

  it.each(['mm', 'cm', 'in'])('heel down in %s', (word) => {
    for (const amount of amounts(0.1, 0.5)) {
      const text = `hoof 1\n\ncase "X"\n\nvisit 2026-03-04\n  plan LF\n    heel down ${amount} ${word}\n`;
      close(inspect(text).study.cuts[0]?.size.heelDown, unit(Number(amount), word).toNumber('mm'), amount);
    }
  });
});
